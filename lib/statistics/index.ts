export { adaptiveMetropolis, type Chain, type ChainPlan } from './adaptiveMetropolis';
export { censoredResidual } from './censoredResidual';
export { type ConformityLimits, conformityProbability, guardFactor, type MeasuredValue } from './conformity';
export { type DecisionRisks, decisionRisks, type MeasuredParts } from './decisionRisks';
export { EVEN_SPREAD_DIMENSIONS, evenSpread } from './evenSpread';
export {
  type FittedUnknown,
  type FitUnknown,
  type LeastSquaresFit,
  type LeastSquaresOptions,
  leastSquares,
} from './leastSquares';
export type { Derivative, Derived } from './leastSquaresIteration';
export { noiseOf } from './noiseOf';
export { logNormalProbability, normalProbability, normalQuantile } from './normalDistribution';
export { type SeededRandom, seededRandom } from './seededRandom';
export { type StraightLine, straightLine } from './straightLine';
export { tProbability, tQuantile } from './studentT';
export { mean, standardDeviation } from './summary';
export { type RobustLine, theilSen } from './theilSen';
export { type TolerancePromise, toleranceFactor } from './toleranceFactor';
export {
  chanceBetter,
  effectiveNumber,
  weightedQuantile,
  weightedQuantiles,
  weightedShare,
} from './weighted';
