import { type ChannelData, type Limits, trustedRows } from '../channelData';
import { codeOf } from '../faultCodes';
import { localSteps } from './localSteps';

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
export function markSteps(
  channel: ChannelData,
  timeS: Float64Array,
  { maxRateCPerS }: Limits,
  rows: Uint32Array,
): void {
  const { tempC, marks, breaks } = channel;
  const count = trustedRows(marks, rows);
  const at = (j: number) => tempC[rows[j]!]!;
  const steps: number[] = [];
  for (let j = 1; j < count; j++) {
    const size = Math.abs(at(j) - at(j - 1));
    if (size < SMALLEST_C || size <= maxRateCPerS * (timeS[rows[j]!]! - timeS[rows[j - 1]!]!)) continue;
    if (size > STANDS_OUT * localSteps(tempC, rows, count, j, j - 1).size) steps.push(j);
  }
  const mark = (from: number, to: number) => {
    for (let j = from; j <= to; j++) marks[rows[j]!] = STEP;
  };
  const startC = count > 0 ? at(0) : 0;
  const roomC = startC > -10 && startC < 50 ? startC : 25;
  for (let s = 0; s < steps.length; s++) {
    const j = steps[s]!;
    const next = steps[s + 1];
    const size = at(j) - at(j - 1);
    if (next !== undefined && (at(next) - at(next - 1)) * size < 0) {
      if (Math.abs(at(next) - at(j - 1)) <= Math.max(25, 0.3 * Math.abs(size))) {
        mark(j, next - 1);
        s++;
        continue;
      }
    }
    const end = (next ?? count) - 1;
    const letGo = size < 0 && at(j - 1) > roomC + LET_GO_FALL_C && staysNear(j, end, roomC);
    if (letGo || (size > 0 && at(j) > MELTING_C)) mark(j, end);
    else if (size < 0 && at(j - 1) > MELTING_C) mark(steps[s - 1] ?? 0, j - 1);
    else {
      mark(j, j);
      breaks.add(rows[j]!);
    }
  }

  function staysNear(from: number, to: number, roomC: number): boolean {
    for (let j = from; j <= to; j++) if (Math.abs(at(j) - roomC) > NEAR_ROOM_C) return false;
    return true;
  }
}
