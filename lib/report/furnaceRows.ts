import type { ChartCheck } from '../heattreat';
import { formatDuration } from '../quantity';
import type { TableRow } from './table';

/** One row for each requirement of a schedule, numbered as on the figure: the answer, and what it rests on. */
export function requirementRows({ requirements }: ChartCheck): TableRow[] {
  return requirements.map(({ name, verdict, found, wanted, missing }, k) => ({
    No: k + 1,
    Requirement: name,
    Answer: verdict,
    'Found, or what is missing': missing ?? (verdict === 'not met' ? `${found}; wanted: ${wanted}` : found),
  }));
}

/** The same with what was wanted, what was found and when it was decided. */
export function requirementDetailRows({ requirements }: ChartCheck): TableRow[] {
  return requirements.map(({ name, verdict, found, wanted, atS, missing }, k) => ({
    No: k + 1,
    Requirement: name,
    Answer: verdict,
    Found: found,
    Wanted: wanted,
    At: atS === null ? '' : formatDuration(atS),
    Missing: missing ?? '',
  }));
}

/** One row for each sensor: what it sits in and why it is taken for that. */
export function chartSensorRows({ sensors }: ChartCheck): TableRow[] {
  return sensors.map(({ name, role, because }) => ({ Sensor: name, 'Sits in': role, Because: because }));
}

/** One row for each stage of the chart. */
export function stageRows({ stages }: ChartCheck): TableRow[] {
  return stages.map(({ name, fromS, toS, worstSensor }) => ({
    Stage: name,
    From: formatDuration(fromS),
    For: formatDuration(toS - fromS),
    'Worst sensor': worstSensor ?? '',
  }));
}
