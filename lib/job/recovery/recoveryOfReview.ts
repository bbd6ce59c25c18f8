import { loadAlloy, meltsFromC, startTemper } from '../../alloy';
import { type ChannelVerdict, NOTHING_SAID, scheduleOf } from '../../decision';
import {
  type BestReage,
  bestReage,
  loadSchedule,
  type PartPlace,
  planRecovery,
  planRoutes,
  type ReageCurve,
  type RecoveryPlan,
  type RecoveryTicket,
  type RoutePlan,
  reageCurves,
  recoveryTicket,
} from '../../heattreat';
import { TemperbookError } from '../../quantity';
import { partOfSheet } from '../../record';
import { verdictAt } from '../optionsAt';
import type { Review } from '../reviewJob';
import { wallOf, weldThicknessMm } from './walls';

/** Whether a reviewed part can be saved, and how. */
export interface JobRecovery {
  /** Every way to go on, with its strength at every judged place. */
  readonly plan: RecoveryPlan;
  /** The place that decides on the part, for which the re-age was looked for. */
  readonly place: string;
  /** Strength there against the time of ageing again; empty where it began to melt or was never aged. */
  readonly curves: readonly ReageCurve[];
  readonly best?: BestReage;
  /** Orders of work for the next such part; absent where casting and wrought metal were not both judged. */
  readonly routes?: RoutePlan;
  /** For every furnace treatment that nothing forbids: the page for the heat treater. */
  readonly tickets: readonly RecoveryTicket[];
  /** What these numbers leave out. */
  readonly notes: readonly string[];
}

/** Set points tried beside that of the schedule, K. */
const BESIDE_K = [-15, 0, 15];
const HALF_HOURS = 24;
const TIMES_S = Array.from({ length: HALF_HOURS }, (_, k) => 1800 * (k + 1));
/** Uniformity of a class 2 furnace, ± K (SAE AMS 2750, from memory). */
const CLASS_2_K = 6;

/**
 * The ways to go on with a reviewed part (`planRecovery`): its places and what they saw come from the verdict, what is known
 * of part and furnace from the job. Age again is the best re-age found for the place that decides (`bestReage`), the furnace
 * anywhere within its tolerance. What nobody said stands as a question.
 * @throws TemperbookError where no schedule of the kit makes the temper and the job names none, and as `planRecovery`.
 */
export function recoveryOfReview(review: Review): JobRecovery {
  const { job, verdict } = review;
  const { channels, allowanceFraction } = verdict;
  const deciding = verdictAt(review, verdict.action.place);
  const castings = channels.filter((channel) => !isWrought(channel));
  const wrought = channels.filter(isWrought);
  const [first, joined] =
    castings.length > 0 ? [worst(castings), worst(wrought)] : [worst(wrought), undefined];
  const schedule = job.recovery.schedule ?? scheduleFor(first!, 'schedule');
  const wroughtSchedule = joined && (job.recovery.wroughtSchedule ?? scheduleFor(joined, 'wroughtSchedule'));
  const known = partOfSheet(job.sheet);
  const toleranceK = known.uniformityK ?? CLASS_2_K;
  const placeOf = (channel: ChannelVerdict): PlaceOfChannel =>
    placeOfChannel(channel, wallOf(job, channel.alloy));
  const weldMm = weldThicknessMm(job);
  const place = placeOf(deciding);
  const own = loadSchedule(isWrought(deciding) && wroughtSchedule ? wroughtSchedule : schedule);
  const setC = own.ages[own.ages.length - 1]?.setC;
  const curves =
    setC !== undefined && canAge(deciding)
      ? reageCurves(place, { tempsC: BESIDE_K.map((besideK) => setC + besideK), timesS: TIMES_S, toleranceK })
      : [];
  const best = curves.length > 0 ? bestReage(curves) : undefined;
  const plan = planRecovery(
    {
      schedule,
      ...(wroughtSchedule ? { wroughtSchedule } : {}),
      places: [
        ...channels.map(placeOf),
        {
          name: 'the weld',
          material: 'weld metal',
          peakC: null,
          ...(weldMm === undefined ? {} : { thicknessMm: weldMm }),
        },
      ],
      solutionTreatments: null,
      thinnestWallMm: null,
      longestMm: null,
      holdsPressure: null,
      fittings: NOTHING_SAID,
      ...known,
    },
    { allowanceFraction, ...(best ? { ageing: { tempC: best.tempC, timeS: best.timeS } } : {}) },
  );
  const { part, partNumber, serial, thicknessMm } = job.sheet;
  return {
    plan,
    place: deciding.name,
    curves,
    ...(best ? { best } : {}),
    ...(wroughtSchedule
      ? {
          routes: planRoutes({
            castingSchedule: schedule,
            tubeSchedule: wroughtSchedule,
            uniformityK: toleranceK,
            ...(known.filler ? { filler: known.filler } : {}),
            ...(typeof thicknessMm === 'number' ? { thicknessMm } : {}),
            welding: { casting: first!.exposure, tube: joined.exposure },
          }),
        }
      : {}),
    tickets: plan.ways
      .filter(({ kind, permission }) => FURNACE.has(kind) && permission !== 'forbidden')
      .map((way) =>
        recoveryTicket(
          plan,
          way,
          named({ Job: job.said.job, Part: part, Number: partNumber, Serial: serial }),
        ),
      ),
    notes: notesOf(review),
  };
}

const FURNACE: ReadonlySet<string> = new Set(['age again', 'full treatment']);

const isWrought = ({ alloy }: ChannelVerdict): boolean => loadAlloy(alloy).family === 'Al-Mg-Si wrought';

/** The one that keeps least of its yield. */
const worst = (channels: readonly ChannelVerdict[]): ChannelVerdict | undefined =>
  [...channels].sort((a, b) => a.yieldKeptFraction.low - b.yieldKeptFraction.low)[0];

type PlaceOfChannel = ReturnType<typeof placeOfChannel>;

function placeOfChannel(channel: ChannelVerdict, thicknessMm: number | undefined) {
  const { name, alloy, temper, blind, peakC, exposure, earlier, measuredYieldMPa } = channel;
  return {
    name,
    material: isWrought(channel) ? 'wrought' : 'casting',
    alloy,
    temper,
    peakC: blind.length > 0 ? null : peakC.high,
    exposure,
    earlier,
    ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
    ...(thicknessMm === undefined ? {} : { thicknessMm }),
  } as const satisfies PartPlace;
}

/** Metal that melted or was never aged in a furnace has no age to be asked about. */
function canAge({ alloy, temper, peakC }: ChannelVerdict): boolean {
  const card = loadAlloy(alloy);
  return startTemper(card, temper).entry.ageing !== undefined && peakC.high < meltsFromC(card);
}

function scheduleFor({ name, alloy, temper }: ChannelVerdict, key: string): string {
  const found = scheduleOf(loadAlloy(alloy), temper);
  if (found !== undefined) return found;
  throw new TemperbookError('The kit holds no schedule that makes this temper', {
    found: `${alloy}-${temper} at ${name}`,
    expected: `the key recovery.${key} of the job: the name of a schedule, or the path of your own (.json)`,
  });
}

/** Only what is said. */
function named(lines: Readonly<Record<string, string | number | undefined>>): Record<string, string> {
  return Object.fromEntries(
    Object.entries(lines).flatMap(([name, line]) => (line === undefined ? [] : [[name, String(line)]])),
  );
}

function notesOf({ verdict, options }: Review): string[] {
  const { notJudged } = verdict;
  const unseen = notJudged.filter(({ isOnPart }) => isOnPart).map(({ name }) => name);
  return [
    ...((options.readings ?? []).length > 0 || options.lots
      ? ['Bench readings and the lot narrow the verdict; the strengths by place here go without them.']
      : []),
    ...(unseen.length > 0
      ? [`Nothing is known of the metal at ${unseen.join(', ')}: no way clears it there.`]
      : []),
  ];
}
