import type { ThermalHistory } from './thermalHistory';

/** One recorded stretch: samples `first` to `last`, both included, with no gap between them. */
export interface Stretch {
  readonly first: number;
  readonly last: number;
}

/** The recorded stretches of a history in order: what lies between its gaps. A stretch may be one sample. */
export function stretches({ timeS, gapAfter }: ThermalHistory): Stretch[] {
  const ends = [...(gapAfter ?? []), timeS.length - 1];
  return ends.map((last, k) => ({ first: k === 0 ? 0 : ends[k - 1]! + 1, last }));
}
