import { listAlloys } from '../../alloy';
import { ageingEvidence, overageingEvidence } from '../../kinetics';
import { formatDuration, formatTemp, type HowKnown } from '../../quantity';

/** Over-ageing: yield kept of an aged temper. Ageing: yield reached from the quenched state. */
export type DataSet = 'over-ageing' | 'ageing';

/**
 * What was measured: a value, on which side of a value the truth lies, or where the strength peaks. `value` is the
 * fraction of yield kept, or MPa; of a peak it is 1, the measured time to it.
 */
export interface MeasuredFact {
  readonly dataSet: DataSet;
  readonly alloy: string;
  readonly id: string;
  /** The exposure in words: "8 h at 199 °C (390 °F)". */
  readonly exposureText: string;
  readonly exposure: readonly { readonly tempC: number; readonly timeS: number }[];
  /** Temper at the start; the quenched state for ageing. */
  readonly temper?: string;
  readonly startYieldMPa?: number;
  readonly kind: 'value' | 'atLeast' | 'below' | 'peak';
  readonly value: number;
  /** Of the value; of a peak in ln t. */
  readonly standardError: number;
  readonly use: 'fit' | 'check';
  readonly known: HowKnown;
  readonly source: string;
  readonly note?: string;
}

/** Every published measurement the kit holds, alloy by alloy; results of a model are not among them. */
export function measuredFacts(): MeasuredFact[] {
  return listAlloys().flatMap((alloy) => [
    ...overageingEvidence(alloy)
      .filter(({ computed }) => !computed)
      .map(({ measured, ...row }): MeasuredFact => {
        const value = measured.kind === 'peak' ? 1 : measured.keptFraction;
        const kind = measured.kind === 'kept' ? 'value' : measured.kind;
        return fact('over-ageing', alloy, row, { kind, value, standardError: measured.standardError });
      }),
    ...ageingEvidence(alloy).map(({ measured, ...row }): MeasuredFact => {
      const value = measured.kind === 'peak' ? 1 : measured.yieldMPa;
      const kind = measured.kind === 'yield' ? 'value' : measured.kind;
      return fact('ageing', alloy, row, { kind, value, standardError: measured.standardError });
    }),
  ]);
}

type Told = Pick<
  MeasuredFact,
  'id' | 'exposure' | 'temper' | 'startYieldMPa' | 'use' | 'known' | 'source' | 'note'
>;

function fact(
  dataSet: DataSet,
  alloy: string,
  { id, exposure, temper, startYieldMPa, use, known, source, note }: Told,
  measured: Pick<MeasuredFact, 'kind' | 'value' | 'standardError'>,
): MeasuredFact {
  const exposureText = exposure
    .map(({ tempC, timeS }) => `${formatDuration(timeS)} at ${formatTemp(tempC)}`)
    .join(', then ');
  return {
    dataSet,
    alloy,
    id,
    exposureText,
    exposure,
    temper,
    startYieldMPa,
    use,
    known,
    source,
    note,
    ...measured,
  };
}
