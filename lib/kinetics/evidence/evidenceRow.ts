import type { HowKnown } from '../../quantity';

/** What was done to the metal: a soak, or a weld-like cycle heated at a constant rate and cooled exponentially. */
export type EvidenceStep =
  | { readonly tempC: number; readonly timeS: number }
  | {
      readonly weldCycle: {
        readonly peakC: number;
        readonly heatingCPerS: number;
        readonly coolingTimeConstantS: number;
      };
    };

/**
 * `value`: measured; `atLeast`, `below`: only the side of a value is known; `peak`: of the times tried at this temperature
 * (`along` 'time', the default), or of the temperatures tried for this time, the last step is the strongest.
 */
export interface EvidenceMeasurement {
  readonly kind: 'value' | 'atLeast' | 'below' | 'peak';
  readonly along?: 'time' | 'temperature';
  /** In the unit of the row; of a peak 1, the measured time. */
  readonly value: number;
  /** In the unit of the row; of a peak in ln t. */
  readonly standardError: number;
}

/** One measured fact about strength after heat; data/published/evidence.json explains the words of every column. */
export interface EvidenceRow {
  readonly id: string;
  readonly set: 'softening' | 'short' | 'ageing' | 'natural ageing' | 'after welding';
  readonly alloys: readonly string[];
  readonly form?: string;
  /** State at the start; 'W' is freshly quenched. */
  readonly temper: string;
  /** Steps one after the other; none is the state as it starts. */
  readonly exposure: readonly EvidenceStep[];
  readonly property: 'yield' | 'ultimate';
  /** `fraction` of the value before, MPa, or 1 for the time to a peak. */
  readonly unit: 'fraction' | 'MPa' | '1';
  readonly measured: EvidenceMeasurement;
  /** Yield before the exposure, MPa; absent: typical. */
  readonly startYieldMPa?: number;
  /** One series of one source. */
  readonly lot: string;
  readonly use: 'fit' | 'heldOut' | 'check' | 'repeat';
  /** The row that says the same, of a `repeat`. */
  readonly repeats?: string;
  readonly source: string;
  readonly known: HowKnown;
  readonly note?: string;
}
