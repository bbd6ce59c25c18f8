import type { ChannelData, Limits } from './channelData';
import { codeOf } from './faultCodes';
import { localSteps } from './localSteps';
import { at, rowAt, spanS, type Trace } from './trace';

const STEP = codeOf('impossible step');
/** Smaller steps are noise of a quick logger, K. */
const SMALLEST_C = 40;
const STANDS_OUT = 15;
/** Aluminium is liquid above this, °C (pure aluminium; ITS-90 fixed point). */
export const MELTING_C = 660.323;
/** A channel that let go of the part reads the room: within this of where it started, K. */
const NEAR_ROOM_C = 15;
const LET_GO_FALL_C = 60;

/**
 * Marks steps faster than the rate limit that do not come back at once. Between a step and the step back the
 * trace is somewhere else and is marked. A step that never comes back ends in a channel that let go (it reads
 * the room from then on) or that reads molten: that side is marked. Otherwise nobody can say which side is
 * right: the reading it lands on is marked and the trace is parted there.
 */
export function markSteps({ marks, breaks }: ChannelData, trace: Trace, { maxRateCPerS }: Limits): void {
  const { count } = trace;
  const temp = (j: number) => at(trace, j);
  const steps = trace.steep.filter((j) => {
    const size = Math.abs(temp(j) - temp(j - 1));
    if (size < SMALLEST_C || size <= maxRateCPerS * spanS(trace, j - 1, j)) return false;
    return size > STANDS_OUT * localSteps(trace, j, j - 1).size;
  });
  const mark = (from: number, to: number) => {
    for (let j = from; j <= to; j++) marks[rowAt(trace, j)] = STEP;
  };
  const startC = count > 0 ? temp(0) : 0;
  const roomC = startC > -10 && startC < 50 ? startC : 25;
  for (let s = 0; s < steps.length; s++) {
    const j = steps[s]!;
    const next = steps[s + 1];
    const size = temp(j) - temp(j - 1);
    if (next !== undefined && (temp(next) - temp(next - 1)) * size < 0) {
      if (Math.abs(temp(next) - temp(j - 1)) <= Math.max(25, 0.3 * Math.abs(size))) {
        mark(j, next - 1);
        s++;
        continue;
      }
    }
    const end = (next ?? count) - 1;
    const letGo = size < 0 && temp(j - 1) > roomC + LET_GO_FALL_C && staysNear(j, end, roomC);
    if (letGo || (size > 0 && temp(j) > MELTING_C)) mark(j, end);
    else if (size < 0 && temp(j - 1) > MELTING_C) mark(steps[s - 1] ?? 0, j - 1);
    else {
      mark(j, j);
      breaks.add(rowAt(trace, j));
    }
  }

  function staysNear(from: number, to: number, roomC: number): boolean {
    for (let j = from; j <= to; j++) if (Math.abs(temp(j) - roomC) > NEAR_ROOM_C) return false;
    return true;
  }
}
