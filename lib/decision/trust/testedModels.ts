import {
  ageingCurve,
  overageingModel,
  precipitateModel,
  softeningModel,
  type TemperModel,
} from '../../kinetics';
import type { DataSet } from './measuredFact';

/** A model to hold against measurements. */
export interface TestedModel {
  readonly name: string;
  /** What it can be asked: the softening curves start from an aged temper only. */
  readonly dataSets: readonly DataSet[];
  /** Whether its constants were fitted to the facts marked `fit`; if not, every fact is a test of it. */
  readonly fittedHere: boolean;
  readonly of: (alloy: string) => TemperModel;
}

/** Every model of the kit that answers for a soak, the one that governs most verdicts first. */
export const TESTED_MODELS: readonly TestedModel[] = [
  {
    name: 'over-ageing curve',
    dataSets: ['over-ageing'],
    fittedHere: true,
    of: (alloy) => overageingModel(alloy),
  },
  {
    name: 'over-ageing with dissolution',
    dataSets: ['over-ageing'],
    fittedHere: true,
    of: (alloy) => softeningModel(alloy),
  },
  { name: 'ageing curve', dataSets: ['over-ageing', 'ageing'], fittedHere: true, of: ageingCurve },
  {
    name: 'precipitate model, published set',
    dataSets: ['over-ageing', 'ageing'],
    fittedHere: false,
    of: (alloy) => precipitateModel(alloy),
  },
];
