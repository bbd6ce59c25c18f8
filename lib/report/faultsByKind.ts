import type { Fault } from '../log';

/** All faults of one kind, with the reason and value of the first. */
export interface FaultKind {
  readonly first: Fault;
  readonly count: number;
  /** Readings they took together. */
  readonly readings: number;
  readonly lastRow: number;
  readonly fromS: number;
  readonly toS: number;
}

/** Faults put together by kind, in the order in which the kinds first occur. */
export function faultsByKind(faults: readonly Fault[]): FaultKind[] {
  const kinds = new Map<Fault['kind'], FaultKind>();
  for (const fault of faults) {
    const { kind, readings, lastRow, fromS, toS } = fault;
    const known = kinds.get(kind);
    kinds.set(
      kind,
      known
        ? {
            first: known.first,
            count: known.count + 1,
            readings: known.readings + readings,
            lastRow: Math.max(known.lastRow, lastRow),
            fromS: Math.min(known.fromS, fromS),
            toS: Math.max(known.toS, toS),
          }
        : { first: fault, count: 1, readings, lastRow, fromS, toS },
    );
  }
  return [...kinds.values()];
}
