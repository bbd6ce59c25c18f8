import { type ChannelData, trustedRows } from '../channelData';
import { codeOf } from '../faultCodes';

const LOOSE = codeOf('loose junction');

/** A reading this far from the one before is wild when it comes this quickly, K and K/s. */
const WILD_C = 40;
const WILD_C_PER_S = 40;
/**
 * So many of so many steps in a row are wild, and so many turn back: no metal does that, and a steep weld cycle
 * turns back once. Single spikes of an arc start are rarer: between them the trace rests.
 */
const WINDOW = 10;
const LEAST_WILD = 7;
const LEAST_TURNS = 3;

/**
 * Marks chatter: readings that jump to and fro with no value they come back to, as a junction gives that lets
 * go of the part.
 */
export function markChatter({ tempC, marks }: ChannelData, timeS: Float64Array, rows: Uint32Array): void {
  const count = trustedRows(marks, rows);
  const wild = new Uint32Array(count + 1);
  const turns = new Uint32Array(count + 1);
  let before = 0;
  for (let j = 1; j < count; j++) {
    const step = tempC[rows[j]!]! - tempC[rows[j - 1]!]!;
    const size = Math.abs(step);
    const isWild = size >= WILD_C && size >= WILD_C_PER_S * (timeS[rows[j]!]! - timeS[rows[j - 1]!]!);
    wild[j + 1] = wild[j]! + (isWild ? 1 : 0);
    turns[j + 1] = turns[j]! + (isWild && step * before < 0 ? 1 : 0);
    before = isWild ? step : 0.5 * before;
  }
  let marked = 0;
  for (let from = 1; from + WINDOW <= count; from++) {
    const to = from + WINDOW;
    if (wild[to]! - wild[from]! < LEAST_WILD || turns[to]! - turns[from]! < LEAST_TURNS) continue;
    // From the landing of the first wild step to that of the last.
    let first = Math.max(from, marked);
    while (first < to && wild[first + 1] === wild[first]) first++;
    let last = to - 1;
    while (last > first && wild[last + 1] === wild[last]) last--;
    for (let j = first; j <= last; j++) marks[rows[j]!] = LOOSE;
    marked = last + 1;
  }
}

/** Readings looked at on either side of a lone stretch. */
const AROUND = 30;
/** A lone stretch is no longer than this. */
const LONGEST_ISLAND = 10;
/** How many faulty readings around it, of all, make a lone stretch incredible. */
const MOSTLY = 0.5;

/**
 * Marks the few readings left standing among the faults of a loose junction: a probe that was off the part just
 * before and is off again just after was not on it in between, however fitting its reading looks.
 * @param isLoose which fault codes a junction or lead gives that is not whole.
 */
export function markIslands({ marks }: ChannelData, isLoose: (code: number) => boolean): void {
  const n = marks.length;
  const loose = Uint8Array.from(marks, (code) => (isLoose(code) ? 1 : 0));
  const sums = new Uint32Array(n + 1);
  for (let i = 0; i < n; i++) sums[i + 1] = sums[i]! + loose[i]!;
  for (let from = 1; from < n; from++) {
    if (marks[from] !== 0 || marks[from - 1] === 0) continue;
    let to = from;
    while (to + 1 < n && marks[to + 1] === 0 && to - from < LONGEST_ISLAND) to++;
    const isIsland = to + 1 < n && loose[to + 1] === 1 && loose[from - 1] === 1 && to - from < LONGEST_ISLAND;
    const low = Math.max(0, from - AROUND);
    const high = Math.min(n, to + 1 + AROUND);
    if (isIsland && sums[high]! - sums[low]! > MOSTLY * (high - low)) marks.fill(LOOSE, from, to + 1);
    from = to;
  }
}
