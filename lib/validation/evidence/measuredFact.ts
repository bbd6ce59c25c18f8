import { listAlloys } from '../../alloy';
import type { AlloyLike } from '../../kinetics';
import { formatDuration, formatTemp } from '../../quantity';
import { ageingEvidence } from './ageingEvidence';
import { overageingEvidence } from './overageingEvidence';
import { precipitateEvidence } from './precipitateEvidence';

/**
 * Over-ageing: yield kept of an aged temper. Ageing: yield reached from the quenched state in a furnace; natural
 * ageing: at room temperature, as quenched included.
 */
export type DataSet = 'over-ageing' | 'ageing' | 'natural ageing';

/**
 * What was measured: a value, on which side of a value the truth lies, or where the strength peaks. `value` is the
 * fraction of yield kept, or MPa; of a peak it is 1, the measured time to it.
 */
export interface MeasuredFact {
  readonly dataSet: DataSet;
  readonly alloy: string;
  /** The alloy as a model takes it: a designation, or the composition of an alloy without a card. */
  readonly metal: AlloyLike;
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
  readonly source: string;
  readonly note?: string;
}

/** Every published measurement the kit holds, alloy by alloy; results of a model are not among them. */
export function measuredFacts(): MeasuredFact[] {
  return [...listAlloys().flatMap(furnaceFacts), ...naturalFacts()];
}

function furnaceFacts(alloy: string): MeasuredFact[] {
  return [
    ...overageingEvidence(alloy)
      .filter(({ computed }) => !computed)
      .map(({ measured, ...row }) => {
        const value = measured.kind === 'peak' ? 1 : measured.keptFraction;
        const kind = measured.kind === 'kept' ? ('value' as const) : measured.kind;
        const { standardError } = measured;
        return fact({ ...row, dataSet: 'over-ageing', alloy, metal: alloy, kind, value, standardError });
      }),
    ...ageingEvidence(alloy).map(({ measured, ...row }) => {
      const value = measured.kind === 'peak' ? 1 : measured.yieldMPa;
      const kind = measured.kind === 'yield' ? ('value' as const) : measured.kind;
      const { standardError } = measured;
      return fact({ ...row, dataSet: 'ageing', alloy, metal: alloy, kind, value, standardError });
    }),
  ];
}

/** As hot as a shop can be. */
const ROOM_C = 40;

function naturalFacts(): MeasuredFact[] {
  return precipitateEvidence()
    .filter(({ exposure }) => exposure.every(({ tempC }) => tempC <= ROOM_C))
    .map(({ id, alloy: metal, exposure, measured: value, standardError, use, why, source }) => {
      const alloy = typeof metal === 'string' ? metal : id.split('-')[0]!;
      const told = { id, exposure, source, use: use === 'fit' ? use : ('check' as const), note: why };
      return fact({ ...told, dataSet: 'natural ageing', alloy, metal, kind: 'value', value, standardError });
    });
}

/** A second of nothing stands for "as quenched". */
const NO_SOAK = [{ tempC: 20, timeS: 1 }];

/** Only what a fact has, and its exposure in words. */
function fact({
  dataSet,
  alloy,
  metal,
  id,
  exposure,
  temper,
  startYieldMPa,
  kind,
  value,
  standardError,
  use,
  source,
  note,
}: Omit<MeasuredFact, 'exposureText'>): MeasuredFact {
  const exposureText = exposure
    .map(({ tempC, timeS }) => `${formatDuration(timeS)} at ${formatTemp(tempC)}`)
    .join(', then ');
  return {
    dataSet,
    alloy,
    metal,
    id,
    exposureText: exposureText || 'as quenched',
    exposure: exposure.length > 0 ? exposure : NO_SOAK,
    temper,
    startYieldMPa,
    kind,
    value,
    standardError,
    use,
    source,
    note,
  };
}
