import { type AlloyCard, loadAlloy, startTemper } from '../../alloy';
import { placeInRange } from '../../exposure';
import { checkStartYield, membersHash, plausibleMetals, yieldOfVickers } from '../../kinetics';
import { effectiveNumber, weightedQuantiles } from '../../statistics';
import { drawMetals, type LotWeights, MOST_DRAWS, runDraws } from '../../strength';
import { SCALES } from '../reading';
import { readingModel } from '../readingModel';
import { expectedReadings } from '../readingWeights';
import { type Coupon, checkCoupon } from './coupon';
import { couponExposure } from './couponExposure';

/** One coupon against what the plausible metals let expect of it. */
export interface CouponPrediction {
  readonly name: string;
  readonly unit: string;
  readonly measured: number;
  /** Of the reading, its own repeatability included, before any coupon: 5 %, median, 95 %. */
  readonly expected: readonly [low: number, middle: number, high: number];
  /** The same once all coupons weigh. */
  readonly after: readonly [low: number, middle: number, high: number];
}

/** What coupons say of a lot. */
export interface CouponAnswer extends LotWeights {
  readonly predictions: readonly CouponPrediction[];
  /** Its furnace chart weighs in it as well. */
  readonly countsChart?: boolean;
  /** How many equally likely members they leave. */
  readonly effectiveMembers: number;
}

/** Ways a coupon's heat may have run, that each member is tried with. */
const WAYS = 5;
/** Outside so much of what was to be expected a coupon is told as such. */
const CONTRADICTS = 2.6;

/**
 * How much each plausible metal weighs in the light of coupons of its lot: the product over coupons of
 *
 *   mean over ways its heat may have run of exp(−½ ((after − expected)/u)²),
 *
 * u what instrument and coupon repeat to. What belongs to one coupon (bath, lag, wire) is averaged over and stays with it;
 * what the relation from strength to reading is off by belongs to the lot and the instrument, the same for all its coupons.
 * So their order does not matter, and coupons one by one weigh as all together.
 * Source: Bayes' rule by importance weights; JCGM 101:2008, 6.4.
 * @throws TemperbookError for a coupon that cannot be, a start that the temper cannot have, and as `couponExposure`.
 */
export function couponWeights(
  name: string,
  { alloy, temper }: { readonly alloy: AlloyCard | string; readonly temper: string },
  coupons: readonly Coupon[],
): CouponAnswer {
  const card = loadAlloy(alloy);
  startTemper(card, temper);
  const metals = drawMetals({ alloy: card, temper }, MOST_DRAWS);
  const logs = new Float64Array(MOST_DRAWS);
  const because: string[] = [];
  const seen: { readonly coupon: Coupon; readonly expected: Float64Array; readonly u: number }[] = [];
  for (const given of coupons) {
    const coupon = checkCoupon(given);
    checkStart(coupon, card, temper);
    const model = readingModel({ kind: coupon.kind, reference: coupon.before }, card);
    if ('nobodyKnows' in model) {
      because.push(`${coupon.name}: ${model.nobodyKnows}`);
      continue;
    }
    const u = coupon.standardUncertainty ?? model.repeatability;
    const exposure = couponExposure(coupon);
    const ways = Array.from({ length: exposure.doubts.length === 0 ? 1 : WAYS }, (_, way) => {
      const run = runDraws([exposure], metals, {
        placeOf: (doubt) => ('runsK' in doubt ? (way + 0.5) / WAYS : placeInRange(doubt, way)),
      });
      return expectedReadings(coupon, model, run);
    });
    for (let i = 0; i < MOST_DRAWS; i++)
      logs[i]! += logMeanExp(ways.map((expected) => -0.5 * ((coupon.after - expected[i]!) / u) ** 2));
    because.push(`${coupon.name}: ${model.because}`);
    seen.push({ coupon, expected: ways[WAYS >> 1] ?? ways[0]!, u });
  }
  const most = logs.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const weights = logs.map((log) => Math.exp(log - most));
  const predictions = seen.map(({ coupon, expected, u }) => predictionOf(coupon, expected, u, weights));
  return {
    name,
    membersHash: membersHash(),
    weights,
    because: [...because, ...predictions.flatMap(contradiction)],
    predictions,
    effectiveMembers: effectiveNumber(weights),
  };
}

function logMeanExp(logs: readonly number[]): number {
  const most = Math.max(...logs);
  return most + Math.log(logs.reduce((sum, log) => sum + Math.exp(log - most), 0) / logs.length);
}

function checkStart({ kind, before }: Coupon, card: AlloyCard, temper: string): void {
  const startMPa =
    kind === 'yield'
      ? before
      : kind === 'vickers' && card.family === 'Al-Mg-Si wrought'
        ? yieldOfVickers(before, card)
        : undefined;
  if (startMPa !== undefined) checkStartYield(plausibleMetals(card, temper, 1), startMPa);
}

function predictionOf(
  { name, kind, after }: Coupon,
  expected: Float64Array,
  u: number,
  weights: Float64Array,
): CouponPrediction {
  const band = (by?: Float64Array): CouponPrediction['expected'] => {
    const [low, middle, high] = weightedQuantiles(expected, [0.05, 0.5, 0.95], by) as [
      number,
      number,
      number,
    ];
    return [
      middle - Math.hypot(middle - low, 1.645 * u),
      middle,
      middle + Math.hypot(high - middle, 1.645 * u),
    ];
  };
  return { name, unit: SCALES[kind].unit, measured: after, expected: band(), after: band(weights) };
}

function contradiction({ name, unit, measured, expected: [low, middle, high] }: CouponPrediction): string[] {
  const half = measured > middle ? high - middle : middle - low;
  if (Math.abs(measured - middle) < (CONTRADICTS / 1.645) * half) return [];
  return [
    `${name} contradicts what is known of this metal: ${measured} ${unit} read, ${low.toFixed(0)} to ${high.toFixed(0)} ${unit} expected. Read it again, and check bath, time, alloy and temper.`,
  ];
}
