export {
  type FittedUnknown,
  type FitUnknown,
  type LeastSquaresFit,
  type LeastSquaresOptions,
  leastSquares,
} from './leastSquares';
