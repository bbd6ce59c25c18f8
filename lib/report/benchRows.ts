import { formatDuration, formatKept, formatTemp, type Judged } from '../quantity';
import type { BenchSoak } from '../verify';
import type { TableRow } from './table';

const NOBODY = 'nobody knows';

/** What the bench would show after soaks of one length, beside cold metal of the same part. */
export function benchRows(soaks: readonly BenchSoak[]): TableRow[] {
  return soaks.map(({ tempC, timeS, yieldKeptFraction, hardness, conductivity }) => ({
    Heat: `${formatTemp(tempC)}, ${formatDuration(timeS)}`,
    'Yield left': formatKept(yieldKeptFraction),
    Hardness:
      'nobodyKnows' in hardness
        ? NOBODY
        : `${besideCold(hardness.reading, hardness.cold)} ${hardness.kind === 'brinell' ? 'HB' : 'HV'}`,
    Conductivity:
      'nobodyKnows' in conductivity
        ? NOBODY
        : `${besideCold(conductivity.iacs, conductivity.coldIacs)} % IACS`,
  }));
}

const besideCold = ({ nominal, low, high }: Judged, cold: number): string =>
  `${nominal.toFixed(0)} (${low.toFixed(0)}–${high.toFixed(0)}), cold ${cold.toFixed(0)}`;
