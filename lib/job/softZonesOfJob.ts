import { readLog, type ThermalLog } from '../log';
import { type FittedZones, type FittedZonesOptions, fittedSoftZones } from '../planning';
import { type Job, logOf } from './job';
import { lotsOfJob, saidOf } from './jobOptions';
import { type PlannedJob, plannedJob } from './plannedJob';

/** The soft zones of a job, with what they come from. */
export interface JobZones extends FittedZones {
  readonly log: ThermalLog;
  readonly planned: PlannedJob;
}

/**
 * How far the soft zone of a job's logged weld reaches on each side: its plan fitted to its log (`fittedSoftZones`). Each
 * probe of the log that sits on the part must have the name of a probe of the plan.
 * @throws TemperbookError as `plannedJob`, `readLog` and `fittedSoftZones`.
 */
export function softZonesOfJob(
  job: Job,
  options: Pick<FittedZonesOptions, 'probeOf' | 'placedWithinMm' | 'draws' | 'seed' | 'onProgress'> = {},
): JobZones {
  const planned = plannedJob(job);
  const { plan, metals, limitC: _, ...measured } = planned;
  const { file, read } = logOf(job);
  const log = readLog(file, read);
  const onPart = log.channels.filter(({ name }) => (saidOf(job, name).role ?? 'part') === 'part');
  return {
    log,
    planned,
    ...fittedSoftZones(onPart, plan, { ...measured, ...options, metals, lots: lotsOfJob(job) }),
  };
}
