import { loadAlloy, meltsFromC } from '../../alloy';
import { isothermal, type ThermalHistory } from '../../history';
import { THREE_WEEKS_S } from '../../planning';
import { formatDuration, formatTemp, knownOptions, requireNumber, TemperbookError } from '../../quantity';
import { loadSchedule } from '../schedule/loadSchedule';
import type { Schedule } from '../schedule/schedule';
import { scheduledHistory } from '../schedule/scheduledHistory';
import { fillerResponse } from './fillers';
import { type Objection, objectionsTo, type WayKind } from './objections';
import type { PartPlace, PartState } from './partState';
import { type FurtherHeat, type PlaceStrength, strengthOfPlace } from './strengthOfPlace';

/** Whether a way may be gone. `ask first`: something is not known, or somebody else has to agree. */
export type Permission = 'possible' | 'ask first' | 'forbidden';

/** One way to go on with a part after the heat. */
export interface RecoveryWay {
  readonly kind: WayKind;
  readonly name: string;
  readonly permission: Permission;
  /** What forbids it or has to be asked first, each with its source. */
  readonly objections: readonly Objection[];
  /** What it cannot do even where it is allowed. */
  readonly remark: string;
  readonly distortion: string;
  /** In the furnace or on the shelf, s. */
  readonly timeS: number;
  /** The heat it adds; absent for accepting, scrapping and what is refused. */
  readonly heat?: ThermalHistory;
  /** By place, in the order given; nothing for what is refused and for scrap. */
  readonly strength: readonly StrengthAtPlace[];
}

/** Strength a way leaves at a place; null where it cannot be worked out, and why. */
export interface StrengthAtPlace {
  readonly place: string;
  readonly after: PlaceStrength | null;
  readonly because: string;
}

/** All ways, in the order of effort. */
export interface RecoveryPlan {
  readonly state: PartState;
  readonly schedule: Schedule;
  readonly ways: readonly RecoveryWay[];
  readonly cautions: readonly string[];
}

/** What the plan may use beyond the rules. */
export interface PlanRecoveryOptions {
  /** Yield loss that is accepted, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** Another age than the schedule's, °C and s: the best one found, say. */
  readonly ageing?: { readonly tempC: number; readonly timeS: number };
}

const OPTIONS = ['allowanceFraction', 'ageing'] as const satisfies readonly (keyof PlanRecoveryOptions)[];
/** A day of handling on either side of a full treatment, s; judgement. */
const HANDLING_S = 86_400;

const CAUTIONS: readonly string[] = [
  'This informs a decision and certifies nothing. Where people can be hurt if the part fails, a licensed engineer decides, by the code that applies where you are.',
  'Parts must be dry and free of oil before they go near a salt bath: trapped water turns to steam explosively. Nitrate salt attacks alloys high in magnesium.',
  'Hot quench water scalds and steams: lower the load fully and do not lean over it.',
];

/**
 * The ways to go on with a part: accept, rest, age again, full heat treatment, local treatment, scrap. The rules say
 * what forbids each; what nobody said stands as a question and never as a permission. Strength by place is
 * `strengthAfter` going on from what the place saw; a place without a record, and weld metal, get none.
 * @throws TemperbookError as `loadSchedule` and `strengthAfter`, for options it does not know, no place, or a number that
 * cannot be.
 */
export function planRecovery(state: PartState, given: PlanRecoveryOptions = {}): RecoveryPlan {
  const options = knownOptions(given, OPTIONS, 'planRecovery');
  checkState(state);
  const schedule = loadSchedule(state.schedule);
  const ageing = options.ageing ?? usualAge(schedule);
  const full = scheduledHistory(schedule);
  const lastS = full.timeS[full.timeS.length - 1]!;
  const way = (
    kind: WayKind,
    name: string,
    more: Pick<RecoveryWay, 'remark' | 'distortion' | 'timeS'> & { readonly heat?: ThermalHistory },
    further: FurtherHeat | null,
  ): RecoveryWay => {
    const objections = objectionsTo(kind, state, schedule);
    return {
      kind,
      name,
      permission: objections.some(({ weight }) => weight === 'forbids')
        ? 'forbidden'
        : objections.length > 0
          ? 'ask first'
          : 'possible',
      objections,
      strength:
        further === null
          ? []
          : state.places.map((place) => strengthAt(place, further, options.allowanceFraction)),
      ...more,
    };
  };
  const aged = ageing ? isothermal(ageing.tempC, ageing.timeS) : undefined;
  return {
    state,
    schedule,
    cautions: CAUTIONS,
    ways: [
      way(
        'accept',
        'Accept as it is',
        { remark: 'Nothing comes back.', distortion: 'none', timeS: 0 },
        'none',
      ),
      way(
        'rest',
        `Rest ${formatDuration(THREE_WEEKS_S)} at room temperature`,
        {
          remark: 'Brings back part of what dissolved; nothing of what over-aged.',
          distortion: 'none',
          timeS: THREE_WEEKS_S,
          heat: isothermal(20, THREE_WEEKS_S),
        },
        isothermal(20, THREE_WEEKS_S),
      ),
      ...(aged && ageing
        ? [
            way(
              'age again',
              `Age again, ${formatDuration(ageing.timeS)} at ${formatTemp(ageing.tempC)}`,
              {
                remark: `Brings back what dissolved. What over-aged stays soft, and all the rest ages on. Weld metal: ${fillerResponse(state.filler).because}.`,
                distortion: 'hardly any: no quench; stresses of welding relax a little',
                timeS: ageing.timeS,
                heat: aged,
              },
              aged,
            ),
          ]
        : []),
      way(
        'full treatment',
        'Full heat treatment: solution, quench, age',
        {
          remark: 'The only full cure, where the quench reaches and the filler responds.',
          distortion: 'large: the quench bends what it cools unevenly; straighten as quenched, before ageing',
          timeS: lastS + 2 * HANDLING_S,
          heat: full,
        },
        'new treatment',
      ),
      way(
        'local treatment',
        'Heat only the soft zone',
        { remark: 'Refused.', distortion: 'large', timeS: 0 },
        null,
      ),
      way(
        'scrap',
        'Scrap',
        { remark: 'Always open, and cheaper than a failure.', distortion: 'none', timeS: 0 },
        null,
      ),
    ],
  };
}

function strengthAt(
  { name, material, alloy, temper, exposure, peakC, earlier, measuredYieldMPa }: PartPlace,
  further: FurtherHeat,
  allowanceFraction: number | undefined,
): StrengthAtPlace {
  const none = (because: string): StrengthAtPlace => ({ place: name, after: null, because });
  if (material === 'weld metal') return none('weld metal: no source carries its ageing');
  if (!alloy || !temper) return none('alloy and temper are not said');
  if (!exposure) return none('what it saw is not recorded');
  if (peakC !== null && peakC >= meltsFromC(loadAlloy(alloy))) return none('it began to melt');
  const after = strengthOfPlace(
    {
      alloy,
      temper,
      exposure,
      ...(earlier ? { earlier } : {}),
      ...(measuredYieldMPa === undefined ? {} : { measuredYieldMPa }),
    },
    further,
    allowanceFraction,
  );
  return { place: name, after, because: after.yieldMPa.because.join(' ') };
}

/** The last step of the schedule's ageing, in the middle of its times. */
function usualAge({ ages }: Schedule): { readonly tempC: number; readonly timeS: number } | undefined {
  const last = ages[ages.length - 1];
  if (!last || typeof last.leastH !== 'number') return undefined;
  return { tempC: last.setC, timeS: (3600 * (last.leastH + (last.mostH ?? last.leastH))) / 2 };
}

function checkState({ places, solutionTreatments, thinnestWallMm, longestMm }: PartState): void {
  if (!Array.isArray(places) || places.length === 0)
    throw new TemperbookError('A recovery plan needs the places whose strength matters', {
      found: JSON.stringify(places),
      expected: 'at least one place with its name, material and hottest temperature',
    });
  for (const { name, peakC } of places)
    if (peakC !== null)
      requireNumber(peakC, `Hottest temperature of ${name} in °C`, { low: -50, high: 2000 });
  if (solutionTreatments !== null)
    requireNumber(solutionTreatments, 'Number of solution treatments', { low: 0, high: 50 });
  if (thinnestWallMm !== null) requireNumber(thinnestWallMm, 'Thinnest wall in mm', { low: 0.1, high: 500 });
  if (longestMm !== null) requireNumber(longestMm, 'Longest dimension in mm', { low: 1, high: 50_000 });
}
