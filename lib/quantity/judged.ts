/**
 * A judged quantity: no bare number reaches a verdict. `low ≤ nominal ≤ high`, all in `unit`;
 * `because` says in plain sentences what made the value and the width of its band.
 */
export interface Judged {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly because: readonly string[];
}

/** Builds a `Judged`, sorting the three values so that `low ≤ nominal ≤ high` holds whatever the order. */
export function judged(
  nominal: number,
  bounds: readonly number[],
  unit: string,
  because: readonly string[],
): Judged {
  return { nominal, low: Math.min(nominal, ...bounds), high: Math.max(nominal, ...bounds), unit, because };
}
