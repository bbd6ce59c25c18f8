export {
  type FittedUnknown,
  type FitUnknown,
  type LeastSquaresFit,
  type LeastSquaresOptions,
  leastSquares,
} from './leastSquares';
export { type SeededRandom, seededRandom } from './seededRandom';
