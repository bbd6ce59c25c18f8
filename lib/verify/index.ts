export { beforeMeasuring, type MeasuringPlan } from './beforeMeasuring';
export {
  type BenchAfter,
  type BenchAlongOptions,
  type BenchSoak,
  benchAfter,
  benchAlong,
  type HardnessAfter,
} from './benchAlong';
export { besidePlace, THE_PART } from './besidePlace';
export { type ConductivityAfter, conductivityAfter } from './conductivityAfter';
export { type ChartFinding, chartFinding, chartLot } from './coupons/chartLot';
export { COUPON_CAUTIONS, type Coupon, type CouponLog, checkCoupon, type Dip } from './coupons/coupon';
export { type CouponAnswer, type CouponPrediction, couponWeights } from './coupons/couponWeights';
export { couponLag, dipExposure } from './coupons/dipExposure';
export { type LotCard, lotCard, lotCardText, lotOfCard, readLotCard } from './coupons/lotCard';
export { type CouponSuggestion, type SuggestOptions, suggestCoupon } from './coupons/suggestCoupon';
export {
  type DispositionRule,
  disposition,
  dispositionRule,
  type RuleFor,
} from './dispositionRule';
export { brinellOfVickers, rockwellOfVickers } from './hardnessScales';
export { checkReadings, type Reading, type ReadingKind, SCALES } from './reading';
export { type ReadingModel, readingModel } from './readingModel';
export { type ReadingWeights, type ReadPlace, readingWeights } from './readingWeights';
