import { type ThermalHistory, tempAt } from '../../history';
import { formatDuration, formatTemp } from '../../quantity';
import type { BlindTime } from '../exposure';
import { peak } from '../peak';
import { SLOWEST_FOR_A_PASS_S } from './betweenReadings';
import { AT_THE_AIR_K, fades, HOT_K } from './fades';
import { jumps } from './jumps';
import type { ProbeRecord } from './probe';

/** Colder than the air by this much no metal in a shop gets, K. */
const COLDER_THAN_AIR_K = 20;
/** One value, to the digit, in more rows in a row than noise makes in one of a million such logs; from so many on the rest is asked for noise. */
const BY_CHANCE = 1e-6;
const FROZEN_ROWS = 60;
/** Where more of the other readings than this turn back on the one before, noise moves the last digit all the time. */
const DITHER = 0.2;
/** A top run into by this much from one reading to the next, and then held to the digit in so many rows, is cut off. */
const STEEP_K = 3;
const CUT_ROWS = 5;
/** With a cold end that moves, the top it is cut off at has some width, K; metal 80 K above the air stays in it for 14 s (τ 1,800 s). */
const CUT_BAND_K = 0.6;
const CUT_BAND_S = 20;
/**
 * So is one run into over several readings, evenly, by more than that width at each and faster than any oven rises, and held
 * in so many rows: on a rounded peak metal that comes with s K a reading leaves the width after 4 · 0.6/s of them, fewer than
 * four, and what follows a bath or an arc slows down before it gets there.
 */
const RUN_IN_ROWS = 4;
const EVEN_SHARE = 0.5;
const FASTER_THAN_OVENS_K_PER_S = 1;
const RUN_IN_HELD_ROWS = 20;
/** Air that moves less than this has no course to follow, K. */
const AIR_MOVES_K = 2;
/** The probe follows it this closely: the middle nine tenths of the differences, as a share of the air's moves. */
const FOLLOWS = 0.5;
const FOLLOW_POINTS = 500;

/**
 * Readings that are no temperatures of the metal, though each could be one: colder than the air (wires swapped), falling
 * to the air within seconds (it let go of the part), a top cut off flat (the module's range ends there), one value to the digit among noise (frozen), in step with the air
 * while the part is hot (it never touched). What the metal saw meanwhile is not recorded.
 */
export function notTheMetal(record: ProbeRecord): BlindTime[] {
  if (record.probe.isPlan) return [];
  const letsGo = fades(record);
  return [
    ...whole(record),
    ...colderThanAir(record),
    ...cutOff(record),
    ...frozen(record),
    ...(letsGo.length > 0 ? letsGo : jumps(record)),
    ...withTheAir(record),
  ];
}

function all({ timeS }: ThermalHistory, because: string): BlindTime[] {
  return [{ fromS: timeS[0]!, toS: timeS[timeS.length - 1]!, because }];
}

const whole = ({ history, cannotClear = [] }: ProbeRecord): BlindTime[] =>
  cannotClear.flatMap((because) => all(history, because));

function colderThanAir({ history, probe }: ProbeRecord): BlindTime[] {
  const coldestC = history.tempC.reduce((low, temp) => Math.min(low, temp), Number.POSITIVE_INFINITY);
  if (coldestC >= probe.ambientC - COLDER_THAN_AIR_K) return [];
  return all(
    history,
    `The probe reads down to ${formatTemp(coldestC)} in air of ${formatTemp(probe.ambientC)}: its two wires may be swapped, so heat reads as cold. Check the wiring and measure there.`,
  );
}

function cutOff({ history, probe: { ambientC, isOven } }: ProbeRecord): BlindTime[] {
  const { timeS, tempC } = history;
  const topC = tempC.reduce((top, temp) => Math.max(top, temp), Number.NEGATIVE_INFINITY);
  if (isOven || topC < ambientC + HOT_K) return [];
  const found: BlindTime[] = [];
  for (let from = 1; from < tempC.length; from++) {
    if (topC - tempC[from]! > CUT_BAND_K || topC - tempC[from - 1]! <= CUT_BAND_K) continue;
    const isStep = topC - tempC[from - 1]! >= STEEP_K + CUT_BAND_K;
    if (!isStep && !runsInto(history, from)) continue;
    let [exact, to] = [from, from];
    while (tempC[exact + 1] === topC) exact++;
    while (topC - tempC[to + 1]! <= CUT_BAND_K) to++;
    const rows = to - from + 1;
    const isHeld = isStep
      ? timeS[to]! - timeS[from]! >= CUT_BAND_S && rows > CUT_ROWS
      : rows >= RUN_IN_HELD_ROWS;
    const isExact = isStep && tempC[from] === topC && exact - from + 1 >= CUT_ROWS;
    if (isExact) to = exact;
    else if (!isHeld) continue;
    found.push({
      fromS: timeS[from]!,
      toS: timeS[to]!,
      because: `The reading runs steeply into ${formatTemp(topC, 1)} and stays there for ${formatDuration(timeS[to]! - timeS[from]!)} from ${formatDuration(timeS[from]! - timeS[0]!)} into the log: the range of the module ends there and the metal was hotter. Measure there.`,
    });
    from = to;
  }
  return found;
}

/** Whether the readings before one still rise at full slope, all of them. */
function runsInto({ timeS, tempC }: ThermalHistory, from: number): boolean {
  const [last, first] = [from - 1, from - 1 - RUN_IN_ROWS];
  if (first < 0) return false;
  const rise = tempC[last]! - tempC[first]!;
  if (rise < RUN_IN_ROWS * CUT_BAND_K || rise <= FASTER_THAN_OVENS_K_PER_S * (timeS[last]! - timeS[first]!))
    return false;
  for (let i = first + 1; i <= last; i++)
    if (tempC[i]! - tempC[i - 1]! < (EVEN_SHARE * rise) / RUN_IN_ROWS) return false;
  return true;
}

function frozen({ history: { timeS, tempC } }: ProbeRecord): BlindTime[] {
  const runs: [number, number][] = [];
  let turns = 0;
  let repeats = 0;
  let steps = 0;
  for (let from = 0; from < tempC.length; ) {
    let to = from;
    while (to + 1 < tempC.length && tempC[to + 1] === tempC[from]) to++;
    repeats += to - from;
    if (timeS[to]! - timeS[from]! > SLOWEST_FOR_A_PASS_S) runs.push([from, to]);
    if (to - from + 1 < FROZEN_ROWS)
      for (let i = Math.max(2, from); i <= to; i++) {
        steps++;
        if ((tempC[i]! - tempC[i - 1]!) * (tempC[i - 1]! - tempC[i - 2]!) < 0) turns++;
      }
    from = to + 1;
  }
  if (steps < FROZEN_ROWS / 2 || turns < DITHER * steps) return [];
  // How often a reading repeats the one before outside the run; once more, for a log in which none does.
  const longest = (rows: number): number =>
    1 + Math.log(BY_CHANCE / tempC.length) / Math.log((repeats - rows + 2) / (tempC.length - rows + 2));
  return runs
    .filter(([from, to]) => to - from + 1 > longest(to - from + 1))
    .map(([from, to]) => ({
      fromS: timeS[from]!,
      toS: timeS[to]!,
      because: `The reading stands at exactly ${formatTemp(tempC[from]!, 1)} for ${formatDuration(timeS[to]! - timeS[from]!)} from ${formatDuration(timeS[from]! - timeS[0]!)} into the log, while its last digit never rests elsewhere: the channel had frozen. Measure there.`,
    }));
}

function withTheAir({ history, probe, neighbours, air = [] }: ProbeRecord): BlindTime[] {
  const isHot = neighbours.some((other) => peak(other).tempC > probe.ambientC + HOT_K);
  if (!isHot) return [];
  const step = Math.max(1, Math.floor(history.timeS.length / FOLLOW_POINTS));
  for (const one of air) {
    const apart: number[] = [];
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = 0; i < history.timeS.length; i += step) {
      const airC = tempAt(one, history.timeS[i]!);
      low = Math.min(low, airC);
      high = Math.max(high, airC);
      apart.push(history.tempC[i]! - airC);
    }
    apart.sort((a, b) => a - b);
    const at = (share: number): number => apart[Math.floor(share * (apart.length - 1))]!;
    const isClose = Math.abs(at(0.5)) < AT_THE_AIR_K && at(0.95) - at(0.05) < FOLLOWS * (high - low);
    if (high - low >= AIR_MOVES_K && isClose)
      return all(
        history,
        'The probe goes with the air while the part is hot: it never touched the metal, or let go of it. Measure there.',
      );
  }
  return [];
}
