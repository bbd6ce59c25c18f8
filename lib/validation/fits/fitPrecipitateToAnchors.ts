import {
  calibratedParameters,
  type EvidenceRow,
  evidenceHistory,
  evidenceTable,
  type PrecipitateParameters,
  precipitateModel,
} from '../../kinetics';
import { GAS_CONSTANT } from '../../quantity';
import { censoredResidual, type LeastSquaresFit, leastSquares } from '../../statistics';

/** Constants of the size-class model that the refit moves, in the units of the fit. */
export interface AnchoredConstants {
  /** ln of the factor on the diffusivity at 227 °C, and its energy. */
  readonly diffusivityLn: number;
  readonly diffusionKJPerMol: number;
  readonly interfaceJPerM2: number;
  /** ln of the factor on the solvus at 277 °C, and its enthalpy. */
  readonly solvusLn: number;
  readonly solvusKJPerMol: number;
  readonly shearRadiusNm: number;
  readonly lineTension: number;
}

/**
 * From a refit within the bounds below and without their priors: a sum of squares of 25 on 18 rows (calibrated set: 152),
 * 13 of them handbook figures met within 0.039; the shear radius stands at its bound.
 */
export const anchoredConstants: AnchoredConstants = {
  diffusivityLn: 0.3935,
  diffusionKJPerMol: 146.5985,
  interfaceJPerM2: 0.4651,
  solvusLn: -0.7903,
  solvusKJPerMol: 61.5636,
  shearRadiusNm: 1.2,
  lineTension: 0.43,
};

/** Start, bounds, derivative step, and the standard deviation about the published value, if any. */
const UNKNOWNS: Readonly<
  Record<
    keyof AnchoredConstants,
    readonly [start: number, low: number, high: number, step: number, sd?: number]
  >
> = {
  diffusivityLn: [0, -3, 3, 0.1, 1.5],
  diffusionKJPerMol: [130, 100, 190, 2, 15],
  interfaceJPerM2: [0.26, 0.1, 0.5, 0.01, 0.1],
  solvusLn: [0, -2.5, 2.5, 0.1, 1],
  solvusKJPerMol: [41, 25, 65, 1, 8],
  shearRadiusNm: [2.425, 1.2, 6, 0.1],
  lineTension: [0.3128, 0.15, 0.8, 0.01],
};
const NAMES = Object.keys(UNKNOWNS) as (keyof AnchoredConstants)[];

/** Where factors on diffusivity and solvus apply, K: the middle of the rows. */
const DIFFUSIVITY_K = 500;
const SOLVUS_K = 550;

/** The calibrated set with these constants in place of its own. */
export function anchoredParameters(c: AnchoredConstants = anchoredConstants): PrecipitateParameters {
  const set = calibratedParameters();
  const moved = (jPerMol: number, from: number, tempK: number): number =>
    Math.exp((jPerMol - from) / (GAS_CONSTANT * tempK));
  const [diffusion, solvus] = [1000 * c.diffusionKJPerMol, 1000 * c.solvusKJPerMol];
  return {
    ...set,
    diffusivityM2PerS:
      set.diffusivityM2PerS *
      Math.exp(c.diffusivityLn) *
      moved(diffusion, set.diffusionJPerMol, DIFFUSIVITY_K),
    diffusionJPerMol: diffusion,
    interfaceJPerM2: c.interfaceJPerM2,
    solvusWtPct: set.solvusWtPct * Math.exp(c.solvusLn) * moved(solvus, set.solvusJPerMol, SOLVUS_K),
    solvusJPerMol: solvus,
    shearRadiusM: c.shearRadiusNm * 1e-9,
    lineTension: c.lineTension,
  };
}

/** Rows the refit reads: fitted handbook yields of 6061, and the weld-like anchors on wrought metal. */
export function anchorRows(): readonly EvidenceRow[] {
  return evidenceTable().filter(
    ({ id, use, set, property }) =>
      use === 'fit' && property === 'yield' && (id.startsWith('6061-handbook') || set === 'short'),
  );
}

/** Residuals of the size-class model of 6061-T6 on those rows, in standard errors. */
export function anchorResiduals(constants: AnchoredConstants): Float64Array {
  const model = precipitateModel('6061', { parameters: anchoredParameters(constants) });
  const start = model.start('T6');
  return Float64Array.from(anchorRows(), ({ exposure, measured: { kind, value, standardError } }) => {
    const { yieldKeptFraction } = model.advance(start, evidenceHistory(exposure));
    const kept = yieldKeptFraction[yieldKeptFraction.length - 1]!;
    return censoredResidual(kept, kind as 'value' | 'atLeast' | 'below', value, standardError);
  });
}

/** Refits the size-class model to the handbook rows and the anchors below half an hour. Takes a quarter of an hour. */
export function fitPrecipitateToAnchors(
  onStep?: (iteration: number, sumOfSquares: number) => void,
): LeastSquaresFit {
  const unknowns = NAMES.map((name) => {
    const [start, low, high, derivativeStep] = UNKNOWNS[name];
    return { name, start, low, high, derivativeStep };
  });
  const residuals = (values: Float64Array): Float64Array => {
    const trial = Object.fromEntries(
      NAMES.map((name, i) => [name, values[i]!]),
    ) as unknown as AnchoredConstants;
    const priors = NAMES.flatMap((name) => {
      const [start, , , , sd] = UNKNOWNS[name];
      return sd === undefined ? [] : [(trial[name] - start) / sd];
    });
    return Float64Array.from([...anchorResiduals(trial), ...priors]);
  };
  return leastSquares(residuals, unknowns, { noise: 'unit', tolerance: 1e-3, maxIterations: 15, onStep });
}
