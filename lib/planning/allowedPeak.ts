import { type AlloyCard, withMetal } from '../alloy';
import { asExposure, type Exposure, editExposure, peak } from '../exposure';
import { shiftTemperature, type ThermalHistory } from '../history';
import {
  formatPercent,
  type Judged,
  judged,
  knownOptions,
  nowAndThen,
  requireNumber,
  TemperbookError,
} from '../quantity';
import {
  allowanceOf,
  KEPT_FROM,
  LOST_UP_TO,
  type LotWeights,
  lotDraws,
  type MeasuredBefore,
  measuredYield,
  ROUTINE_DRAWS,
  strengthAfter,
} from '../strength';

/** What `allowedPeak` needs to know. */
export interface AllowedPeakOptions extends MeasuredBefore {
  /** The alloy, or alloy and temper in one word: 'A356-T6'. */
  readonly alloy: AlloyCard | string;
  readonly temper?: string;
  /** What coupons or a chart say of the lot of metal (`lotCard`, `chartLot`). */
  readonly lots?: readonly LotWeights[];
  /** Yield loss that is accepted, fraction; default 0.1. */
  readonly allowanceFraction?: number;
  /** Air round the part, °C. */
  readonly ambientC: number;
  /** Called now and then with the share of the work done, once it has taken two seconds. */
  readonly onProgress?: (share: number) => void;
}

const OPTIONS = [
  'alloy',
  'temper',
  'measuredYieldMPa',
  'measuredHardnessHV',
  'lots',
  'allowanceFraction',
  'ambientC',
  'onProgress',
] as const satisfies readonly (keyof AllowedPeakOptions)[];

/** Shares of the way up to melting that are tried before the answer is bisected. */
const STEPS = 24;
const BISECTIONS = 10;
/** The three answers share the steps on the way up. */
const MOST_RUNS = STEPS + 3 * BISECTIONS;

/**
 * How hot this metal may get in this job: the exposure with its rise above ambient scaled up or down until the chance of
 * staying within the allowance falls to 95 % (`low`: count on that), to half (`nominal`), to 5 % (`high`). A peak limit made for
 * the times of the job, where a shop rule knows none. The first fall counts: what a longer or hotter heat may give back does
 * not. Never above the solidus.
 * @throws TemperbookError for options it does not know, as `strengthAfter`, and for a history that never rises above ambient.
 */
export function allowedPeak(given: Exposure | ThermalHistory, options: AllowedPeakOptions): Judged {
  const {
    alloy: card,
    temper,
    allowanceFraction: allowed,
    lots = [],
    ambientC,
    onProgress,
    ...measured
  } = withMetal(knownOptions(options, OPTIONS, 'allowedPeak'));
  requireNumber(ambientC, 'The air round the part (ambientC)');
  const tell = nowAndThen(onProgress);
  const allowanceFraction = allowanceOf(allowed);
  const metal = { alloy: card, temper, measuredYieldMPa: measuredYield(measured, card), lots };
  const draws = lotDraws(lots, ROUTINE_DRAWS).count;
  const exposure = asExposure(given);
  const topC = peak(exposure.history).tempC;
  const riseK = topC - ambientC;
  if (!(riseK > 0))
    throw new TemperbookError('This metal is not heated', {
      found: `a peak of ${topC.toFixed(1)} °C`,
      expected: `more than the ${ambientC} °C around it`,
    });
  const meltK = card.thermal.solidusC.value - ambientC;
  const chances = new Map<number, number>();
  const chanceAt = (toK: number): number => {
    const known = chances.get(toK);
    if (known !== undefined) return known;
    const scaled = editExposure(exposure, (history) =>
      shiftTemperature(history, (tempC) => (toK / riseK - 1) * Math.max(0, tempC - ambientC)),
    );
    const { chanceOfRecorded } = strengthAfter(scaled, metal, { allowanceFraction, draws, endOnly: true });
    chances.set(toK, chanceOfRecorded);
    tell(Math.min(1, chances.size / MOST_RUNS));
    return chanceOfRecorded;
  };
  const hottest = (chance: number): number => {
    const holds = (toK: number): boolean => chanceAt(toK) >= chance;
    let low = 0;
    while (low < meltK && holds(low + meltK / STEPS)) low += meltK / STEPS;
    let high = Math.min(meltK, low + meltK / STEPS);
    for (let k = 0; k < BISECTIONS; k++) {
      const middle = (low + high) / 2;
      if (holds(middle)) low = middle;
      else high = middle;
    }
    return ambientC + Math.min(meltK, low);
  };
  const needed = formatPercent(1 - allowanceFraction);
  return judged(hottest(0.5), [hottest(KEPT_FROM), hottest(LOST_UP_TO)], '°C', [
    `Peak at which a job of this course leaves ${needed} of the yield of ${card.designation}-${temper}, just after cooling: at the low end in 95 of 100 draws, at the high end in 5.`,
  ]);
}
