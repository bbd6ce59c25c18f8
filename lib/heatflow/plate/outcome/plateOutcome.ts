import type { PlateRun } from '../march/plateRun';
import type { PlateModel } from '../model/plateCells';
import { massKg } from '../model/plateModel';
import type { PointCells } from '../model/pointCells';
import { planQuestions } from '../plan/planQuestions';
import type { PlatePlan } from '../plan/platePlan';
import { plateDoubt } from './plateDoubt';
import { heatNotes, interpassNotes, meltingNotes } from './plateNotes';
import type { PlateEnergy, PlatePassResult, PlateProbeResult, PlateResult } from './plateResult';
import { probeNotes } from './probeNotes';

/** What a finished run found. */
export function plateOutcome(
  plan: PlatePlan,
  run: PlateRun,
  points: readonly PointCells[],
  passes: readonly PlatePassResult[],
  cellNotes: readonly string[],
): PlateResult {
  const { model, stepper, recorder, options } = run;
  const peakC = hottestOf(model, recorder.peakC.values);
  const doubt = plateDoubt(plan, model, peakC);
  const probes = plan.probes.map((probe, k): PlateProbeResult => {
    const history = recorder.history(k);
    const probePeakC = history.tempC.reduce((a, b) => Math.max(a, b));
    const { cells } = points[k]!;
    const places = cells.map((cell) => (cell - model.first) % model.plane);
    const solidusOf = (cell: number) =>
      model.metalProperties[model.metalOf[cell]!]!.solidusC ?? Number.POSITIVE_INFINITY;
    return {
      ...probe,
      history,
      peakC: probePeakC,
      molten: probePeakC >= Math.min(...cells.map(solidusOf)),
      doubtful: places.some((place) => doubt.doubtful[place] === 1),
      mayHideK: Math.max(...places.map((place) => doubt.differenceK[place]!)),
    };
  });
  return {
    grid: model.grid,
    probes,
    passes,
    endS: run.timeS,
    massKg: massKg(model),
    peakC,
    finalC: meanOf(model, stepper.nowC.values),
    layers: model.layers,
    timeAbove: options.timeAboveC.map((limitC, k) => ({
      limitC,
      seconds: hottestOf(model, recorder.secondsAbove[k]!.values),
    })),
    energy: energyOf(run),
    steps: { ...run.steps, toleranceK: options.toleranceK, iterations: stepper.stage.solver.iterations },
    doubt,
    notes: [
      ...planQuestions(plan),
      ...cellNotes,
      ...meltingNotes(plan),
      ...heatNotes(model, peakC),
      ...interpassNotes(plan, passes),
      ...probes.flatMap((probe) => probeNotes(probe, model.layers)),
    ],
  };
}

function energyOf({ model, stepper }: PlateRun): PlateEnergy {
  const { arcJ, airJ } = stepper.account;
  const contactJ = stepper.account.contactJ.reduce((sum, joule) => sum + joule, 0);
  const heat = stepper.heat.values;
  let storedJ = 0;
  let turnoverJ = arcJ + Math.abs(airJ) + Math.abs(contactJ);
  for (let cell = model.first; cell < model.end; cell++) {
    const change = heat[cell]! - model.initialHeat[cell]!;
    storedJ += change;
    turnoverJ = Math.max(turnoverJ, Math.abs(storedJ));
  }
  // Filler metal is counted from the temperature it arrived at.
  storedJ -= stepper.fillerJ;
  const missing = arcJ - airJ - contactJ - storedJ;
  return {
    arcJ,
    lostToAirJ: airJ,
    lostToContactsJ: contactJ,
    storedJ,
    imbalance: turnoverJ > 0 ? Math.abs(missing) / turnoverJ : 0,
  };
}

/** The largest value of any layer at each place of the plan, 0 outside the part. */
function hottestOf(
  { first, plane, layers, grid, thicknessMm }: PlateModel,
  cells: Float64Array,
): Float64Array {
  return Float64Array.from(grid.inPart, (here, place) => {
    if (!here) return 0;
    let hottest = Number.NEGATIVE_INFINITY;
    for (let layer = 0, cell = first + place; layer < layers; layer++, cell += plane)
      if (thicknessMm[cell]! > 0) hottest = Math.max(hottest, cells[cell]!);
    return hottest;
  });
}

/** The mean through the thickness at each place of the plan, 0 outside the part. */
function meanOf(
  { first, plane, layers, grid, thicknessMm, columnMm }: PlateModel,
  cells: Float64Array,
): Float64Array {
  return Float64Array.from(grid.inPart, (here, place) => {
    if (!here || layers === 1) return here ? cells[first + place]! : 0;
    let sum = 0;
    for (let layer = 0, cell = first + place; layer < layers; layer++, cell += plane)
      sum += thicknessMm[cell]! * cells[cell]!;
    return sum / columnMm[place]!;
  });
}
