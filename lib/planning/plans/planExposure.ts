import type { Exposure } from '../../exposure';
import type { PlanKnobs, PlanSurface } from '../../heatflow';
import { faceDoubt, waysDoubts } from '../placeExposure';

/** What the heat doubt of a plan is about: one list of plausible jobs, so that it is one doubt and drawn in step everywhere. */
export const PLAN_DOUBT = 'what the plan does not know';

/**
 * What metal at a probe of a plan would see: the job as planned; every plausible job with its own times; how far the surface
 * was from runs it had not seen; and the hotter face under the arc or beside a step, where the run says so.
 * @throws TemperbookError for a place that may melt.
 */
export function planExposure(surface: PlanSurface, probe: string, draws: readonly PlanKnobs[]): Exposure {
  const { history, tempC, timeS, errorShare, riseK } = surface.ways(probe, draws);
  const { surface: air, probes } = surface.plan;
  const hides = surface.asPlanned.mayHideK[probes.findIndex(({ name }) => name === probe)]!;
  return {
    history,
    doubts: [
      ...waysDoubts(
        PLAN_DOUBT,
        tempC.map((way) => way.map((temp, i) => temp - history.tempC[i]!)),
        timeS,
        {
          of: 'the surface laid through the runs',
          shiftK: errorShare.map((share, i) => share * riseK[i]!),
        },
      ),
      ...faceDoubt(history, air.ambientC, hides),
    ],
    blind: [],
    because: [
      `From ${surface.runs} runs of the heat flow and a surface through them; what is not known: ${surface.unknowns.map(({ label }) => label).join(', ')}.`,
    ],
  };
}
