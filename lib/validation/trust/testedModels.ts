import {
  type AlloyLike,
  ageingCurve,
  overageingModel,
  precipitateModel,
  softeningModel,
  type TemperModel,
} from '../../kinetics';
import type { DataSet, MeasuredFact } from '../evidence/measuredFact';
import { precipitateEvidence } from '../evidence/precipitateEvidence';

/** A model to hold against measurements. */
export interface TestedModel {
  readonly name: string;
  /** What it can be asked: the softening curves start from an aged temper only. */
  readonly dataSets: readonly DataSet[];
  /** Whether its constants were fitted to a fact; if not, the fact is a test of it. */
  readonly fittedTo: (fact: MeasuredFact) => boolean;
  readonly of: (metal: AlloyLike) => TemperModel;
}

const fittedCurve = ({ use }: MeasuredFact): boolean => use === 'fit';

/** The rows that the calibrated set was fitted to; one measurement under two names counts under both. */
function fittedSet({ id }: MeasuredFact): boolean {
  return precipitateEvidence().some((row) => row.use === 'fit' && row.id === id);
}

/** Every model of the kit that answers for a soak, the one that governs most verdicts first. */
export const TESTED_MODELS: readonly TestedModel[] = [
  {
    name: 'over-ageing curve',
    dataSets: ['over-ageing'],
    fittedTo: fittedCurve,
    of: (metal) => overageingModel(metal),
  },
  {
    name: 'over-ageing with dissolution',
    dataSets: ['over-ageing'],
    fittedTo: fittedCurve,
    of: (metal) => softeningModel(metal),
  },
  { name: 'ageing curve', dataSets: ['over-ageing', 'ageing'], fittedTo: fittedCurve, of: ageingCurve },
  {
    name: 'precipitate model, published set',
    dataSets: ['over-ageing', 'ageing', 'natural ageing'],
    fittedTo: () => false,
    of: (metal) => precipitateModel(metal),
  },
  {
    name: 'precipitate model, calibrated set',
    dataSets: ['over-ageing', 'ageing', 'natural ageing'],
    fittedTo: fittedSet,
    of: (metal) => precipitateModel(metal, { parameters: 'calibrated' }),
  },
];
