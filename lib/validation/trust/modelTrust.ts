import type { TemperModel } from '../../kinetics';
import { censoredResidual } from '../../statistics';
import { type MeasuredFact, measuredFacts } from '../evidence/measuredFact';
import { type ClockFactor, stretchTo, stretchToPeak } from './clockFactor';
import { STRETCHES, type StretchedAnswers, startOf, stretchedAnswers, UNSTRETCHED } from './stretchedAnswers';
import { TESTED_MODELS, type TestedModel } from './testedModels';

/** One measurement beside what one model says of it. */
export interface TrustRow {
  readonly model: string;
  readonly fact: MeasuredFact;
  /** Whether the model's constants were fitted to this very fact, so that it is no test of it. */
  readonly fitted: boolean;
  /** As the fact has it: yield kept, MPa, or of a peak the model's time over the measured; `null`: no peak. */
  readonly nominal: number | null;
  /** The model's own band; absent where it has none. */
  readonly low?: number;
  readonly high?: number;
  /** Measured less nominal in standard errors of the measurement; of tests that give a side as `censoredResidual`. */
  readonly residual: number | null;
  /** Whether the band holds the measured value, or reaches to the right side of the bound; `null` without a band. */
  readonly insideBand: boolean | null;
  /** How far the model's clock is off by this fact; its ends are one standard error away. `null`: nothing fits. */
  readonly timeFactor: ClockFactor | null;
  /** Squared residual for every stretch of `STRETCHES`, to add up facts; absent for ageing yields. */
  readonly squares?: Float64Array;
  /** Why this lies outside what the model is made for; empty inside. */
  readonly remarks: readonly string[];
}

/**
 * Every published measurement against every model that can be asked about it. Results of another model are no
 * measurements and left out; where the strength peaks is asked once, on the way from the quenched state.
 */
export function modelTrust(models: readonly TestedModel[] = TESTED_MODELS): TrustRow[] {
  const facts = measuredFacts();
  return models.flatMap((model) => {
    const answersTo = answering(model);
    return facts
      .filter(
        ({ dataSet, kind }) =>
          model.dataSets.includes(dataSet) && !(dataSet === 'over-ageing' && kind === 'peak'),
      )
      .map((fact) => trustRow(model, fact, answersTo(fact)));
  });
}

/** The answers of a model, which starts only once from what several facts have in common: a start may cost a run. */
function answering(model: TestedModel): (fact: MeasuredFact) => StretchedAnswers {
  const started = new Map<string, { readonly engine: TemperModel; readonly state: unknown }>();
  return (fact) => {
    const from = startOf(fact);
    const key = JSON.stringify([fact.metal, from]);
    let ready = started.get(key);
    if (!ready) {
      const engine = model.of(fact.metal);
      ready = { engine, state: engine.start(from) };
      started.set(key, ready);
    }
    return stretchedAnswers(ready.engine, ready.state, fact);
  };
}

function trustRow(model: TestedModel, fact: MeasuredFact, answers: StretchedAnswers): TrustRow {
  const common = {
    model: model.name,
    fact,
    fitted: model.fittedTo(fact),
    remarks: answers.remarks.map(({ text }) => text),
  };
  return fact.kind === 'peak'
    ? { ...common, ...peakAnswer(answers, fact) }
    : { ...common, ...valueAnswer(answers, fact, fact.kind) };
}

type Answer = Omit<TrustRow, 'model' | 'fact' | 'fitted' | 'remarks'>;

function valueAnswer(
  { nominal: line, band }: StretchedAnswers,
  { dataSet, value, standardError }: MeasuredFact,
  kind: 'value' | 'atLeast' | 'below',
): Answer {
  const nominal = line[UNSTRETCHED]!;
  const residual = (predicted: number): number => censoredResidual(predicted, kind, value, standardError);
  const inside =
    band && (kind === 'below' || band.high >= value) && (kind === 'atLeast' || band.low <= value);
  return {
    nominal,
    ...band,
    residual: residual(nominal),
    insideBand: inside ?? null,
    timeFactor: valueFactor(line, value, standardError, kind),
    ...(dataSet === 'over-ageing' ? { squares: line.map((predicted) => residual(predicted) ** 2) } : {}),
  };
}

/** A test that gives a side bounds the clock on one side: still above means that the metal is no faster. */
function valueFactor(
  line: Float64Array,
  value: number,
  standardError: number,
  kind: 'value' | 'atLeast' | 'below',
): ClockFactor | null {
  const at = stretchTo(line, value);
  if (at === null) return null;
  if (kind === 'atLeast') return { low: null, nominal: null, high: at };
  if (kind === 'below') return { low: at, nominal: null, high: null };
  const ends = [value - standardError, value + standardError].flatMap((end) => stretchTo(line, end) ?? []);
  return {
    low: ends.find((end) => end < at) ?? null,
    nominal: at,
    high: ends.find((end) => end > at) ?? null,
  };
}

function peakAnswer({ nominal: line }: StretchedAnswers, { standardError }: MeasuredFact): Answer {
  const nominal = stretchToPeak(line);
  if (nominal === null) return { nominal, residual: null, insideBand: null, timeFactor: null };
  const spread = Math.exp(standardError);
  return {
    nominal,
    residual: -Math.log(nominal) / standardError,
    insideBand: null,
    timeFactor: { low: nominal / spread, nominal, high: nominal * spread },
    squares: STRETCHES.map((stretch) => (Math.log(nominal / stretch) / standardError) ** 2),
  };
}
