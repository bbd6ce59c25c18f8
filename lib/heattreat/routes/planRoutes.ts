import { loadAlloy } from '../../alloy';
import type { Exposure } from '../../exposure';
import { isothermal, type ThermalHistory } from '../../history';
import { afterNewTreatment } from '../../planning';
import type { Judged } from '../../quantity';
import { fillerResponse } from '../recovery/fillers';
import { strengthOfPlace } from '../recovery/strengthOfPlace';
import { loadSchedule } from '../schedule/loadSchedule';
import type { Schedule } from '../schedule/schedule';
import { scheduledHistory } from '../schedule/scheduledHistory';
import { type FurnaceWindow, furnaceWindow } from './furnaceWindow';

/** The metals of a weldment, in the order a route names them. */
export type RoutePlace = 'casting' | 'tube' | 'weld metal';

/** A step of a route with the days it takes. */
export interface RouteStep {
  readonly what: string;
  readonly days: number;
}

/** What speaks against a route; one that forbids ends it. */
export interface RouteReason {
  readonly forbids: boolean;
  readonly what: string;
}

/** One order of buying, welding and heat treating. */
export interface Route {
  readonly name: string;
  /** Temper the casting and the tube are bought in. */
  readonly bought: 'F' | 'T4' | 'T6';
  readonly steps: readonly RouteStep[];
  readonly days: number;
  /** What speaks against it or has to be asked. */
  readonly against: readonly RouteReason[];
  readonly forbidden: boolean;
  /** Heat after welding, the same for all places; absent where nothing follows. */
  readonly heat?: ThermalHistory;
  readonly strength: readonly RouteStrength[];
}

/** Strength a route leaves; null where it cannot be worked out, and why. */
export interface RouteStrength {
  readonly place: RoutePlace;
  readonly yieldMPa: Judged | null;
  readonly because: string;
}

/** What the routes are planned for. */
export interface RouteJob {
  readonly castingSchedule: string | Schedule;
  readonly tubeSchedule: string | Schedule;
  readonly filler?: string;
  readonly thicknessMm?: number;
  /** What the furnace holds, ± K; default 6, class 2. */
  readonly uniformityK?: number;
  /** Cure of the powder coat at metal temperature, °C and s; default 200 °C for 10 min. */
  readonly powderCure?: { readonly tempC: number; readonly timeS: number };
  /** What casting and tube see when they are welded, at the place whose strength matters; without it no strength is given. */
  readonly welding?: {
    readonly casting: Exposure | ThermalHistory;
    readonly tube: Exposure | ThermalHistory;
  };
}

/** Every route, and the furnace window they rest on. */
export interface RoutePlan {
  readonly routes: readonly Route[];
  readonly window: FurnaceWindow;
}

/** Days a casting or a weldment is away for a treatment: there, in the queue, back; judgement. */
const AWAY_DAYS = 7;
const WELD_DAYS = 1;
const note = (what: string): RouteReason => ({ forbids: false, what });
const no = (what: string): RouteReason => ({ forbids: true, what });
/** Typical cure at metal temperature: 10 min at 200 °C, 15 to 20 min at 190 °C. Source: powder makers' sheets (seen). */
const POWDER_CURE = { tempC: 200, timeS: 600 };

/**
 * Orders of work for a casting welded to a tube: buy F, T4 or T6; weld; then nothing, age only, the full treatment, or
 * the powder oven as the age. Each with its days, what speaks against it, and the heat that follows the weld.
 * @throws TemperbookError as `loadSchedule` and `furnaceWindow`.
 */
export function planRoutes(job: RouteJob): RoutePlan {
  const casting = loadSchedule(job.castingSchedule);
  const tube = loadSchedule(job.tubeSchedule);
  const window = furnaceWindow([casting, tube], {
    ...(job.uniformityK === undefined ? {} : { uniformityK: job.uniformityK }),
    ...(job.thicknessMm === undefined ? {} : { thicknessMm: job.thicknessMm }),
  });
  const filler = fillerResponse(job.filler);
  const ageHeat = scheduledHistory(tube, { fromQuench: true });
  const cure = job.powderCure ?? POWDER_CURE;
  const cureHeat = isothermal(cure.tempC, cure.timeS);
  const fullHeat = scheduledHistory(casting);
  const ageOnly = [
    ...(window.age?.possible
      ? []
      : [
          note(
            `The two metals have no age in common by their schedules: ${window.age?.because ?? 'in steps'}`,
          ),
        ]),
    ...(filler.toAgeing === 'harmed' ? [no(`Filler ${filler.filler}: ${filler.because}`)] : []),
    ...(filler.toAgeing === 'no' || filler.toAgeing === 'nobody knows'
      ? [note(`Weld metal of filler ${filler.filler}: ${filler.because}`)]
      : []),
  ];
  const full = [
    ...(window.solution?.possible
      ? []
      : [
          note(
            `One solution treatment for both metals: ${window.solution?.because ?? 'one schedule has none'}`,
          ),
        ]),
    ...(window.age?.possible ? [] : [note(`One age for both: ${window.age?.because ?? 'in steps'}`)]),
    ...(filler.toFullTreatment === 'no' ? [no(`Filler ${filler.filler}: ${filler.because}`)] : []),
    ...(filler.toFullTreatment === 'nobody knows' || filler.toFullTreatment === 'by dilution'
      ? [note(`Weld metal of filler ${filler.filler}: ${filler.because}`)]
      : []),
    note('The quench bends the weldment: straighten at once, before ageing; leave stock on machined faces'),
  ];
  const soft = note('The soft zone beside the weld stays: size the part for it');
  const cured = note('A cure of minutes is no age by any schedule; what it gives is for the models to say');
  const route = (
    name: string,
    bought: Route['bought'],
    after: readonly RouteStep[],
    against: readonly RouteReason[],
    heat: ThermalHistory | undefined,
    isNew = false,
  ): Route => {
    const steps = [{ what: `buy casting and tube in ${bought}, weld`, days: WELD_DAYS }, ...after];
    return {
      name,
      bought,
      steps,
      days: steps.reduce((sum, { days }) => sum + days, 0),
      against,
      forbidden: against.some(({ forbids }) => forbids),
      ...(heat ? { heat } : {}),
      strength: job.welding
        ? [
            strengthOf('casting', casting, bought, job.welding.casting, isNew ? 'new treatment' : heat),
            strengthOf('tube', tube, bought, job.welding.tube, isNew ? 'new treatment' : heat),
            { place: 'weld metal', yieldMPa: null, because: 'no source carries the ageing of weld metal' },
          ]
        : [],
    };
  };
  const away = (what: string): RouteStep => ({ what, days: AWAY_DAYS });
  const oven: RouteStep = { what: 'powder coat and cure', days: 1 };
  return {
    window,
    routes: [
      route('T6, weld, use', 'T6', [], [soft], undefined),
      route('T6, weld, powder oven', 'T6', [oven], [soft, cured], cureHeat),
      route(
        'T6, weld, age',
        'T6',
        [away('age')],
        [...ageOnly, note('What over-aged beside the weld stays soft')],
        ageHeat,
      ),
      route(
        'T4, weld, age',
        'T4',
        [away('age')],
        [...ageOnly, note('A casting in T4 is an order of its own: ask the foundry')],
        ageHeat,
      ),
      route('T4, weld, powder oven', 'T4', [oven], [...ageOnly, cured], cureHeat),
      route('F, weld, full treatment', 'F', [away('solution, quench, age')], full, fullHeat, true),
      route('T6, weld, full treatment', 'T6', [away('solution, quench, age')], full, fullHeat, true),
    ],
  };
}

/** Strength of a metal bought in a temper, welded, and heated further. */
function strengthOf(
  place: RoutePlace,
  { alloy, temper }: Schedule,
  bought: Route['bought'],
  exposure: Exposure | ThermalHistory,
  further: ThermalHistory | 'new treatment' | undefined,
): RouteStrength {
  const start = bought === 'T6' ? temper : bought;
  const card = loadAlloy(alloy);
  if (further === 'new treatment') {
    const { yieldMPa } = afterNewTreatment(card, temper);
    return { place, yieldMPa, because: yieldMPa.because.join(' ') };
  }
  if (!(start in card.tempers))
    return { place, yieldMPa: null, because: `the card of ${card.designation} has no ${start}` };
  const { yieldMPa } = strengthOfPlace({ alloy, temper: start, exposure }, further ?? 'none');
  return { place, yieldMPa, because: yieldMPa.because.join(' ') };
}
