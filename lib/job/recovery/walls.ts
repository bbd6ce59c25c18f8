import { loadAlloy } from '../../alloy';
import type { Job } from '../job';

/** Walls of an alloy in the job's plan, mm; holes are none. */
const wallsInPlan = ({ plan }: Job, isIt: (alloy: string) => boolean): number[] =>
  (plan?.part ?? []).flatMap(({ metal, thicknessMm }) =>
    typeof metal === 'string' && thicknessMm > 0 && isIt(loadAlloy(metal).designation) ? [thicknessMm] : [],
  );

/** Heaviest wall of an alloy by the plan, else of the part by the sheet, mm; undefined where neither says. */
export function wallOf(job: Job, alloy: string): number | undefined {
  const walls = wallsInPlan(job, (one) => one === loadAlloy(alloy).designation);
  return walls.length > 0 ? Math.max(...walls) : job.wallMm;
}

/** A weld is as thick as the thinner wall it joins, mm (common practice, no source); by the sheet no thicker than the heaviest. */
export function weldThicknessMm(job: Job): number | undefined {
  const walls = wallsInPlan(job, () => true);
  return walls.length > 0 ? Math.min(...walls) : job.wallMm;
}
