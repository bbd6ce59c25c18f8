import { calibratedParameters, type FittedConstants, fittedConstants } from '../../kinetics';
import { type LeastSquaresFit, leastSquares } from '../../statistics';
import { precipitateEvidence } from '../evidence/precipitateEvidence';
import { predictRow } from '../residuals/precipitateResiduals';

/** Bounds and derivative steps of the fit; the steps are larger than the model's own step error. */
const UNKNOWNS: Readonly<Record<keyof FittedConstants, readonly [low: number, high: number, step: number]>> =
  {
    shearRadiusNm: [2, 6, 0.05],
    lineTension: [0.2, 0.6, 0.004],
    siliconExponent: [0, 1.5, 0.02],
    clusterSolvusLn: [-6, 0, 0.05],
    clusterSolvusKJPerMol: [20, 60, 1],
    clusterMPa: [0, 500, 2],
    naturalShare: [0.05, 1, 0.03],
  };

/**
 * Fits the calibrated set to the rows of `precipitateEvidence` marked `fit`, all alloys together. Takes a minute or
 * two. The result tells which constants the data determine: standard errors, correlations, condition number.
 */
export function fitPrecipitate(
  start: FittedConstants = fittedConstants,
  onStep?: (iteration: number, sumOfSquares: number) => void,
): LeastSquaresFit {
  const rows = precipitateEvidence().filter(({ use }) => use === 'fit');
  const names = Object.keys(UNKNOWNS) as (keyof FittedConstants)[];
  const unknowns = names.map((name) => {
    const [low, high, derivativeStep] = UNKNOWNS[name];
    return { name, start: start[name], low, high, derivativeStep };
  });
  const residuals = (values: Float64Array): Float64Array => {
    const trial = Object.fromEntries(names.map((name, i) => [name, values[i]!])) as Record<
      keyof FittedConstants,
      number
    >;
    const parameters = calibratedParameters(trial);
    return Float64Array.from(rows, (row) => predictRow(row, parameters).residual);
  };
  return leastSquares(residuals, unknowns, { noise: 'unit', tolerance: 1e-3, maxIterations: 15, onStep });
}
