import { type AlloyCard, loadAlloy, type MatrixWtPct } from '../../alloy';
import { checkHistory, type ThermalHistory } from '../../history';
import { requireNumber } from '../../quantity';
import type { AlloyLike, StartState, TemperModel, TemperTrajectory } from '../temperModel';
import { anchorTo, unanchored } from './anchorTo';
import { type Evolution, evolve, moment, type Resolution } from './evolve';
import { type PrecipitateParameters, publishedParameters } from './parameters';
import type { Anchor, Population, PrecipitateState, Solute } from './precipitateState';
import { anchorRemarks, compositionRemarks, NAME, temperatureRemarks } from './rangeRemarks';
import { type PrecipitateSeries, sampleMoments, yieldOf } from './sampleMoments';
import { classBuffer, noParticles, type SizeClasses } from './sizeClasses';
import { startAgeing } from './startAgeing';
import { thermalPath } from './thermalPath';

/** The state along a history, with the size distribution at its end. All series have the history's length. */
export interface PrecipitateTrajectory extends TemperTrajectory<PrecipitateState>, PrecipitateSeries {
  /** Particles by radius at the end; edges in m, one more than classes. */
  readonly sizeDistribution: SizeClasses;
  readonly steps: number;
  /** Sum of the estimated errors of the steps, MPa of yield; class width adds less than 1 MPa. */
  readonly stepErrorMPa: number;
  /** |Mg in matrix and particles − Mg given| over Mg given, at the end. */
  readonly massBalanceError: number;
}

export type PrecipitateModel = TemperModel<PrecipitateState, PrecipitateTrajectory>;

export interface PrecipitateOptions {
  readonly parameters?: 'published';
  readonly resolution?: Resolution;
}

/**
 * Kampmann–Wagner size-class model of Al–Mg–Si after Myhr, Grøng & Andersen (2001): nucleation, growth,
 * coarsening and dissolution of Mg–Si particles from any thermal history, and the room-temperature yield that
 * particles and solute give. The rate laws are in `rates`, the strength in `strength`, the constants in
 * `publishedParameters`; the matrix is the solute of the card (or given), so eutectic silicon has no part.
 *
 * Tempers start from solution treatment with the card's ageing; T4 from a month at 20 °C. A measured yield
 * anchors the start (`anchorTo`).
 *
 * Range: Al–Mg–Si up to the solvus; quenched and cooled states; no clusters, so as-quenched, T4 and under-aged
 * strength come out too low; over-ageing of 6061-T6 at 200–230 °C 3–7 times too slow. Outside it answers with a
 * remark.
 *
 * Example: 0.65 Mg, 0.9 Si, solution treated, 5 h at 185 °C: 262 MPa (an independent solver: 261.9).
 * @throws TemperbookError on a composition no alloy has, an unknown temper or one without ageing practice, or a
 * broken history.
 */
export function precipitateModel(alloy: AlloyLike, options: PrecipitateOptions = {}): PrecipitateModel {
  const { card, matrixWtPct } = matrixOf(alloy);
  const p = publishedParameters;
  const solute = checkedSolute(matrixWtPct);
  const remarks = compositionRemarks(p, solute);

  function run(state: PrecipitateState, history: ThermalHistory) {
    checkHistory(history);
    const path = thermalPath(history, { prefactor: p.diffusivityM2PerS, energyJPerMol: p.diffusionJPerMol });
    return { path, evolution: evolve(p, state.solute, state.population, path, options.resolution) };
  }

  function stateFrom(population: Population, anchor: Anchor): PrecipitateState {
    const now = moment(p, solute, classBuffer(population.classes), population.mgWtPct);
    return {
      solute,
      population,
      anchor,
      start: {
        yieldMPa: yieldOf(p, now, anchor),
        volumeFraction: now.volumeFraction,
        particleMPa: now.particleMPa,
      },
    };
  }

  const quenched = stateFrom({ classes: noParticles, mgWtPct: solute.Mg }, unanchored);

  function start(from: StartState): PrecipitateState {
    if (typeof from !== 'string' && 'solutionTreated' in from) return quenched;
    const temper = typeof from === 'string' ? from : from.temper;
    const { population } = run(quenched, startAgeing(card, temper)).evolution;
    const plain = stateFrom(population, unanchored);
    if (typeof from === 'string') return plain;
    const anchor = anchorTo(from.measuredYieldMPa, plain.start.yieldMPa, plain.start.particleMPa);
    return stateFrom(population, anchor);
  }

  function advance(state: PrecipitateState, history: ThermalHistory): PrecipitateTrajectory {
    const { path, evolution } = run(state, history);
    const series = sampleMoments(p, evolution.moments, path, state.anchor);
    return {
      ...series,
      state: { ...state, population: evolution.population },
      timeS: history.timeS,
      yieldKeptFraction: series.yieldMPa.map((mpa) => mpa / state.start.yieldMPa),
      remarks: [...remarks, ...temperatureRemarks(history), ...anchorRemarks(state.anchor)],
      sizeDistribution: evolution.population.classes,
      steps: evolution.steps,
      stepErrorMPa: evolution.stepErrorMPa,
      massBalanceError: massBalanceError(p, evolution, solute.Mg),
    };
  }

  return { name: NAME, start, advance };
}

/** The matrix of whatever was given, and its card if it has one. */
function matrixOf(alloy: AlloyLike): { readonly card?: AlloyCard; readonly matrixWtPct: MatrixWtPct } {
  if (typeof alloy !== 'string' && !('designation' in alloy)) return alloy;
  const card = loadAlloy(alloy);
  return { card, matrixWtPct: card.matrixWtPct };
}

/** The solute of a matrix, or a clear error. */
function checkedSolute({ Mg, Si, Cu }: MatrixWtPct): Solute {
  return {
    Mg: requireNumber(Mg, 'Mg in the matrix, wt %', { low: 0.01, high: 5 }),
    Si: requireNumber(Si, 'Si in the matrix, wt %', { low: 0, high: 2 }),
    Cu: requireNumber(Cu, 'Cu in the matrix, wt %', { low: 0, high: 6 }),
  };
}

/** Mg of matrix and particles together against the Mg given, as a share of it. */
function massBalanceError(p: PrecipitateParameters, { moments }: Evolution, totalMgWtPct: number): number {
  const { mgWtPct, volumeFraction: f } = moments[moments.length - 1]!;
  return Math.abs(mgWtPct * (1 - f) + p.precipitateMgWtPct * f - totalMgWtPct) / totalMgWtPct;
}
