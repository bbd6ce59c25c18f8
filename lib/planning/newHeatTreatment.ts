import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { AlloyFamily } from '../alloy';
import type { Sourced } from '../quantity';

/** What is known of a new heat treatment, whatever the alloy. */
export interface NewHeatTreatment {
  /** Solution treatment with the way to temperature, s. */
  readonly solutionTreatmentS: Sourced;
  /** Yield that a quench ten times slower costs, MPa. */
  readonly tenTimesSlowerQuenchMPa: Readonly<Record<AlloyFamily, Sourced>>;
}

let own: NewHeatTreatment | undefined;

/** The facts of data/models/newHeatTreatment.json, each with its source. */
export function newHeatTreatment(): NewHeatTreatment {
  own ??= JSON.parse(
    readFileSync(path.join(__dirname, '../../data/models/newHeatTreatment.json'), 'utf8'),
  ) as NewHeatTreatment;
  return own;
}
