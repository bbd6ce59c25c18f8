import type { ChannelData, Stretch } from './channelData';
import { codeOf, TRUSTED } from './faultCodes';
import { at, rowAt, spanS, type Trace } from './trace';

const LOOSE = codeOf('loose junction');

/** A reading this far from the one before is wild when it comes this quickly, K and K/s. */
const WILD_C = 40;
const WILD_C_PER_S = 40;
/**
 * So many wild steps within so many readings, and so many of them turning back: no metal does that, and a steep
 * weld cycle turns back once. Single spikes of an arc start are rarer: between them the trace rests.
 */
const WILD_STEPS = 7;
const WITHIN = 10;
const LEAST_TURNS = 3;

/**
 * Marks chatter: readings that jump to and fro with no value they come back to, as a junction gives that lets
 * go of the part. Returns whether any was found.
 */
export function markChatter({ marks }: ChannelData, trace: Trace): boolean {
  const wild = trace.steep.filter((j) => {
    const size = Math.abs(at(trace, j) - at(trace, j - 1));
    return size >= WILD_C && size >= WILD_C_PER_S * spanS(trace, j - 1, j);
  });
  let found = false;
  const isRise = (j: number) => at(trace, j) > at(trace, j - 1);
  for (let k = 0; k + WILD_STEPS <= wild.length; k++) {
    const steps = wild.slice(k, k + WILD_STEPS);
    if (steps[WILD_STEPS - 1]! - steps[0]! >= WITHIN) continue;
    const turns = steps.filter((j, i) => i > 0 && isRise(j) !== isRise(steps[i - 1]!)).length;
    if (turns < LEAST_TURNS) continue;
    // From the landing of the first wild step to that of the last.
    for (let j = steps[0]!; j <= steps[WILD_STEPS - 1]!; j++) marks[rowAt(trace, j)] = LOOSE;
    found = true;
  }
  return found;
}

/** Readings looked at on either side of a lone stretch. */
const AROUND = 30;
/** A lone stretch is no longer than this. */
const LONGEST_ISLAND = 10;
/** How many faulty readings around it, of all, make a lone stretch incredible. */
const MOSTLY = 0.5;
/** Faults of a junction or lead that is not whole. An empty field is none: some channels are logged more seldom. */
const BROKEN = new Uint8Array(256);
for (const kind of [
  ...(['error token', 'open circuit', 'over range', 'absolute zero', 'spike', 'impossible step'] as const),
  ...(['ramp between faults', 'loose junction'] as const),
])
  BROKEN[codeOf(kind)] = 1;

/**
 * Marks the few readings left standing among the faults of a loose junction: a probe that was off the part just
 * before and is off again just after was not on it in between, however fitting its reading looks.
 */
export function markIslands({ marks }: ChannelData, stretches: readonly Stretch[]): void {
  for (const { from, to } of stretches) {
    if (marks[from] !== TRUSTED) continue;
    const isBetween = BROKEN[marks[from - 1] ?? 0] === 1 && BROKEN[marks[to + 1] ?? 0] === 1;
    if (!isBetween || to - from >= LONGEST_ISLAND) continue;
    const low = Math.max(0, from - AROUND);
    const high = Math.min(marks.length, to + 1 + AROUND);
    let broken = 0;
    for (let i = low; i < high; i++) broken += BROKEN[marks[i]!]!;
    if (broken > MOSTLY * (high - low)) marks.fill(LOOSE, from, to + 1);
  }
}
