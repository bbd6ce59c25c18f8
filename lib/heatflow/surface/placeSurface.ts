import { type ThermalHistory, tempAt } from '../../history';
import { valuesAt } from './bentSurface';
import { clockKnots } from './clockKnots';
import { type JobAt, type JobSurface, type RunAt, TINY_S } from './jobSurface';
import { phaseBounds, timeAtPlace } from './phaseClock';

/** The temperature of one place as a function of what is not known. */
export interface PlaceSurface {
  historyAt(job: JobAt): ThermalHistory;
  /** How far off it was in runs held back, at worst at every knot, as a share of the rise above the base. */
  readonly errorShare: Float64Array;
}

/** Knots follow so many runs of the design, which begins with the ends of the unknowns by themselves. */
const FOLLOWED = 9;

/** Lays surfaces through the logarithm of a place's rise above the base, at knots that follow its histories. */
export function placeSurface(
  probe: number,
  job: JobSurface,
  runs: readonly RunAt[],
  /** Runs to be met, the job as planned first. */
  meeting: readonly RunAt[],
  held: readonly RunAt[],
  baseC: number,
): PlaceSurface {
  const { longestS } = job;
  const clockOf = ({ run }: RunAt) => ({ boundsS: phaseBounds(run), longestS });
  const knots = clockKnots(
    [...meeting, ...runs.slice(0, FOLLOWED)].map((one) => ({
      clock: clockOf(one),
      history: one.run.histories[probe]!,
    })),
  );
  const seen = (one: RunAt): Float64Array => {
    const clock = clockOf(one);
    return Float64Array.from(knots, (place) => {
      const tempC = tempAt(one.run.histories[probe]!, Math.min(one.run.endS, timeAtPlace(clock, place)));
      return Math.log(Math.max(tempC - baseC, 1));
    });
  };
  const fit = job.surface.fit(runs.map(seen), meeting.map(seen), (i) =>
    job.bendsBefore(Math.floor(knots[i]!)),
  );
  const errorShare = new Float64Array(knots.length);
  for (const one of held) {
    const told = valuesAt(fit, job.at(one.x).terms);
    const truth = seen(one);
    for (let i = 0; i < knots.length; i++)
      errorShare[i] = Math.max(errorShare[i]!, Math.abs(told[i]! - truth[i]!));
  }
  return {
    errorShare,
    historyAt: ({ terms, clock }) => {
      const tempC = valuesAt(fit, terms).map((value) => baseC + Math.exp(value));
      const timeS = new Float64Array(knots.length);
      for (let i = 0; i < knots.length; i++)
        timeS[i] = Math.max(timeAtPlace(clock, knots[i]!), i === 0 ? 0 : timeS[i - 1]! + TINY_S);
      return { timeS, tempC };
    },
  };
}
