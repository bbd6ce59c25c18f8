import { isothermal, type ThermalHistory } from '../../history';
import { formatDuration, formatTemp, type Judged, requireNumber, TemperbookError } from '../../quantity';
import { loadSchedule } from '../schedule/loadSchedule';
import type { Schedule } from '../schedule/schedule';
import { scheduledHistory } from '../schedule/scheduledHistory';
import { fillerResponse } from './fillers';
import { type Objection, objectionsTo, type WayKind } from './objections';
import type { PartState, StrengthOfPlace } from './partState';

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
  /** By place, in the order given, where a strength model was passed; null where it does not reach. */
  readonly strength: readonly { readonly place: string; readonly after: Judged | null }[];
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
  /** Strength of a place after more heat; without it the plan says what is allowed and not what it gives. */
  readonly strengthOfPlace?: StrengthOfPlace;
  /** Another age than the schedule's, °C and s: the best one found, say. */
  readonly ageing?: { readonly tempC: number; readonly timeS: number };
}

const REST_S = 21 * 86_400;
/** A day of handling on either side of a full treatment, s; judgement. */
const HANDLING_S = 86_400;

const CAUTIONS: readonly string[] = [
  'This informs a decision and certifies nothing. Where people can be hurt if the part fails, a licensed engineer decides, by the code that applies where you are.',
  'Parts must be dry and free of oil before they go near a salt bath: trapped water turns to steam explosively. Nitrate salt attacks alloys high in magnesium.',
  'Hot quench water scalds and steams: lower the load fully and do not lean over it.',
];

/**
 * The ways to go on with a part: accept, rest, age again, full heat treatment, local treatment, scrap. The rules say
 * what forbids each; what nobody said stands as a question and never as a permission. Strength by place comes from
 * the model passed in.
 * @throws TemperbookError as `loadSchedule`, for no place, or a number that cannot be.
 */
export function planRecovery(state: PartState, options: PlanRecoveryOptions = {}): RecoveryPlan {
  checkState(state);
  const schedule = loadSchedule(state.schedule);
  const ageing = options.ageing ?? usualAge(schedule);
  const full = scheduledHistory(schedule);
  const lastS = full.timeS[full.timeS.length - 1]!;
  const way = (
    kind: WayKind,
    name: string,
    more: Pick<RecoveryWay, 'remark' | 'distortion' | 'timeS'> & { readonly heat?: ThermalHistory },
    further: Parameters<StrengthOfPlace>[1] | null,
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
        further === null || !options.strengthOfPlace
          ? []
          : state.places.map((place) => ({
              place: place.name,
              after: options.strengthOfPlace!(place, further),
            })),
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
        undefined,
      ),
      way(
        'rest',
        `Rest ${formatDuration(REST_S)} at room temperature`,
        {
          remark: 'Brings back part of what dissolved; nothing of what over-aged.',
          distortion: 'none',
          timeS: REST_S,
          heat: isothermal(20, REST_S),
        },
        isothermal(20, REST_S),
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
