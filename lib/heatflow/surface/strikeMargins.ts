import { tempAt } from '../../history';
import type { PlatePlan } from '../plate';
import { phaseBounds } from './phaseClock';
import type { SurfaceRun } from './solveForSurface';

/** A pass struck this much below its interpass limit, as a share of what the limit is above the base, did not wait for it. */
const CLOSE_SHARE = 0.003;

/**
 * By how much each pass of a run would be struck below its interpass limit if that did not hold it up: ln of the limit over
 * the highest reading between its fixed wait and its start, both above `baseC`. Negative where the pass waited for
 * the limit, positive where it was struck colder; smooth over what is not known, while the job itself has a bend at 0.
 * Passes without a limit have none (−∞).
 */
export function strikeMargins(plan: PlatePlan, run: SurfaceRun, baseC: number): number[] {
  const boundsS = phaseBounds(run);
  return plan.passes.map(({ startAfter }, k) => {
    const { interpassC, atProbe, waitS = 0 } = startAfter ?? {};
    const probe = plan.probes.findIndex(({ name }) => name === atProbe);
    if (interpassC === undefined || probe < 0) return Number.NEGATIVE_INFINITY;
    const history = run.histories[probe]!;
    const [fromS, toS] = [Math.min(boundsS[2 * k]! + waitS, boundsS[2 * k + 1]!), boundsS[2 * k + 1]!];
    let highestC = Math.max(tempAt(history, fromS), tempAt(history, toS));
    for (const [i, timeS] of history.timeS.entries())
      if (timeS > fromS && timeS < toS) highestC = Math.max(highestC, history.tempC[i]!);
    return Math.log((interpassC - baseC) / Math.max(highestC - baseC, 1));
  });
}

/** The passes that wait for their limit in some runs and are struck below it in others. */
export const bentPasses = (margins: readonly (readonly number[])[]): number[] =>
  margins[0]!.flatMap((_, k) =>
    margins.some((run) => run[k]! > CLOSE_SHARE) && margins.some((run) => run[k]! <= CLOSE_SHARE) ? [k] : [],
  );
