import { type AlloyCard, startTemper, withMetal } from '../alloy';
import { exactly } from '../exposure';
import { isothermal } from '../history';
import { vickersOfYield } from '../kinetics';
import { type Judged, knownOptions, requireList, requireNumber } from '../quantity';
import { weightedQuantile } from '../statistics';
import { bandOfDraws, type LotWeights, type StrengthAfter, strengthAfter } from '../strength';
import { type ConductivityAfter, conductivityAfter } from './conductivityAfter';
import { readingModel } from './readingModel';
import { expectedReadings } from './readingWeights';

/** What a hardness tester would show beside what it shows on cold metal of the part, or why nobody can say. */
export type HardnessAfter =
  | { readonly kind: 'brinell' | 'vickers'; readonly cold: number; readonly reading: Judged }
  | { readonly nobodyKnows: string };

/** Hardness and conductivity to expect of metal after a heat, as far as sources carry them. */
export interface BenchAfter {
  readonly hardness: HardnessAfter;
  readonly conductivity: ConductivityAfter;
}

/** Metal after a soak, with what the bench would show of it. */
export interface BenchSoak extends BenchAfter {
  readonly tempC: number;
  readonly timeS: number;
  readonly yieldKeptFraction: Judged;
}

/** What `benchAlong` needs to know. */
export interface BenchAlongOptions {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** What coupons or a chart say of the lot of metal. */
  readonly lots?: readonly LotWeights[];
  /** How hot the soaks are, °C. */
  readonly tempC: readonly number[];
  /** How long each is, s; default half an hour, the shortest with a handbook behind it. */
  readonly timeS?: number;
}

const OPTIONS = [
  'alloy',
  'temper',
  'lots',
  'tempC',
  'timeS',
] as const satisfies readonly (keyof BenchAlongOptions)[];
const HALF_AN_HOUR_S = 1800;

/**
 * What the plausible metals let expect at the bench after soaks of one length: share of the yield, hardness against cold metal
 * of the same part by the relation that weighs readings (`readingModel`), conductivity as `conductivityAfter` has it.
 * @throws TemperbookError as `strengthAfter`, for options it does not know and a temperature outside -80 to 660 °C.
 */
export function benchAlong(given: BenchAlongOptions): readonly BenchSoak[] {
  const options = withMetal(knownOptions(given, OPTIONS, 'benchAlong'));
  const { alloy: card, temper, lots = [], timeS = HALF_AN_HOUR_S } = options;
  return requireList(options.tempC, 'Temperatures of soaks (tempC)').map((tempC): BenchSoak => {
    requireNumber(tempC, 'The temperature of a soak, °C', { low: -80, high: 660 });
    const strength = strengthAfter(
      exactly(isothermal(tempC, timeS)),
      { alloy: card, temper, lots },
      { endOnly: true },
    );
    return {
      tempC,
      timeS,
      yieldKeptFraction: strength.yieldKeptFraction,
      ...benchAfter(strength, { card, temper }),
    };
  });
}

/** What the bench would show of metal whose strength is worked out. */
export function benchAfter(
  { draws, weights }: Pick<StrengthAfter, 'draws' | 'weights'>,
  { card, temper }: { readonly card: AlloyCard; readonly temper: string },
): BenchAfter {
  const { entry } = startTemper(card, temper);
  const isCast = card.family !== 'Al-Mg-Si wrought';
  const kind = isCast ? 'brinell' : 'vickers';
  const cold = isCast
    ? entry.brinell?.value
    : vickersOfYield(weightedQuantile(draws.startYieldMPa, 0.5, weights));
  const model = readingModel({ kind, reference: cold }, card);
  const hardness: HardnessAfter =
    'nobodyKnows' in model
      ? model
      : {
          kind,
          cold: cold!,
          reading: bandOfDraws(
            expectedReadings({ kind }, model, draws),
            isCast ? 'HB' : 'HV',
            [model.because],
            weights,
          ),
        };
  return { hardness, conductivity: conductivityAfter(draws, { card, temper }, weights) };
}
