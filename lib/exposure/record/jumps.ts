import { lastAtOrBefore } from '../../history';
import { formatDuration, formatTemp } from '../../quantity';
import type { BlindTime } from '../exposure';
import { SLOWEST_FOR_A_PASS_S } from './betweenReadings';
import type { ProbeRecord } from './probe';

/** Jumps from this on are looked at, K, with changes before and after that are this share of them at most. */
const JUMP_K = 18;
const AT_REST = 0.25;
/** A rise that is over in so many seconds, each reading adding at most this share of what the one before added. */
const OVER_IN_S = 15;
const SLOWS = 0.75;
/** Where a reading adds less than this share of the rise, the rise is over. */
const OVER = 0.05;
/**
 * Heat set down along a line in a plate tops at a time t and has fallen to half by 10 t, or sooner where it was set down at a
 * spot (√(t/t′) e^{½ − t/2t′}; H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 10.3): so much later at least six
 * tenths of a sudden rise are no heat that came to the metal, but a probe that came to hot metal.
 */
const LATER = 11;
const STAYS = 0.6;

/**
 * Readings that jump as no metal does, up or down, and go on from there: rows were lost or files put together without a word,
 * the probe was put on hot metal or let go of it in part, the unit changed. Of the time on the wrong side nothing is known.
 */
export function jumps({ history: { timeS, tempC, gapAfter }, probe }: ProbeRecord): BlindTime[] {
  if (probe.isOven) return [];
  const gaps = new Set(gapAfter);
  const found: BlindTime[] = [];
  for (let i = 1; i + 2 < tempC.length; i++) {
    const jumpK = tempC[i + 1]! - tempC[i]!;
    // Between readings further apart than a pass lasts there is time for anything: that is blind as it is.
    if (Math.abs(jumpK) < JUMP_K || gaps.has(i) || timeS[i + 1]! - timeS[i]! > SLOWEST_FOR_A_PASS_S) continue;
    const before = Math.abs(tempC[i]! - tempC[i - 1]!);
    if (before > AT_REST * Math.abs(jumpK) || gaps.has(i - 1)) continue;
    const words = `${formatTemp(tempC[i]!)} to ${formatTemp(tempC[i + 1]!)} within ${formatDuration(timeS[i + 1]! - timeS[i]!)}, ${formatDuration(timeS[i]! - timeS[0]!)} into the log`;
    if (jumpK > 0 && staysUp(timeS, tempC, i))
      found.push({
        fromS: timeS[0]!,
        toS: timeS[i + 1]!,
        because: `The reading jumps from ${words}, and stays up: heat does not come and stay like that. Rows are missing there, or the probe was put on hot metal: what the metal saw before is not recorded. Say what it was, or measure there.`,
      });
    if (jumpK < 0 && Math.abs(tempC[i + 2]! - tempC[i + 1]!) <= -AT_REST * jumpK)
      found.push({
        fromS: timeS[i]!,
        toS: timeS[timeS.length - 1]!,
        because: `The reading drops from ${words}, and goes on from there: metal does not cool like that. Rows are missing there, or the probe let go of the metal in part. Measure there.`,
      });
  }
  return found;
}

/** Is the rise that begins after a sample sudden, and hardly less much later? */
function staysUp(timeS: Float64Array, tempC: Float64Array, from: number): boolean {
  const step = (k: number): number => tempC[k + 1]! - tempC[k]!;
  let top = from + 1;
  while (top + 1 < tempC.length && step(top) > OVER * (tempC[top]! - tempC[from]!)) {
    if (step(top) > SLOWS * step(top - 1)) return false;
    top++;
  }
  const riseS = timeS[top]! - timeS[from]!;
  if (riseS > OVER_IN_S) return false;
  const later = lastAtOrBefore(timeS, timeS[from]! + LATER * riseS);
  const isLogged = timeS[timeS.length - 1]! >= timeS[from]! + LATER * riseS;
  return isLogged && tempC[later]! - tempC[from]! > STAYS * (tempC[top]! - tempC[from]!);
}
