import type { FaultKind } from '../faultKind';
import type { ChannelData, Stretch } from './channelData';
import { codeOf } from './faultCodes';

const RAMP = codeOf('ramp between faults');
const OPEN = codeOf('open circuit');
/** Faults of a junction or lead that is not whole. */
const LOOSE: ReadonlySet<number> = new Set(
  (
    [
      'missing field',
      'not a number',
      'error token',
      'open circuit',
      'over range',
      'absolute zero',
      'impossible step',
      'loose junction',
    ] satisfies FaultKind[]
  ).map(codeOf),
);
/**
 * A trace joins the reading beyond a fault when it moved no more than this, K, and this quickly, K/s, apart
 * from going on at the rate it has on one of the two sides.
 */
const JOINS_C = 30;
const JOINS_C_PER_S = 5;
const SWING_C = 50;
/** Above this a thermocouple on aluminium that is lost right after was already on its way out, °C. */
const OPENING_C = 700;

/**
 * Between two faults of a loose junction a smooth false ramp can stand that looks like a heating cycle. A
 * stretch of readings between two such faults is marked when it slides in or out through readings that were
 * impossible, or does not fit the readings beyond the faults. A stretch that fits on both sides is kept: a weld
 * cycle between two dropouts is real. Readings above 700 °C right before the signal is lost are an opening
 * junction.
 */
export function markRamps(
  { tempC, marks }: ChannelData,
  timeS: Float64Array,
  stretches: readonly Stretch[],
): void {
  const total = stretches.reduce((sum, { from, to }) => sum + to - from + 1, 0);
  stretches.forEach((stretch, s) => {
    const { from, to } = stretch;
    const isLost = to + 1 < marks.length && LOOSE.has(marks[to + 1]!);
    if (isLost && from > 0 && LOOSE.has(marks[from - 1]!)) {
      const before = side(stretches[s - 1], stretch, -1);
      const after = side(stretches[s + 1], stretch, 1);
      const size = to - from + 1;
      const isMinority = size * 2 <= total;
      const slides = before === 'slides' && after === 'slides';
      const fitsNeither =
        before !== 'joins' && after !== 'joins' && (before !== 'unknown' || after !== 'unknown');
      const fitsOneOnly = before !== after && swing(stretch) >= SWING_C && size <= Math.max(30, 0.05 * total);
      const isApart = before === 'apart' || before === 'slides' || after === 'apart' || after === 'slides';
      if (slides || (isMinority && isApart && (fitsNeither || fitsOneOnly))) {
        marks.fill(RAMP, from, to + 1);
        return;
      }
    }
    if (isLost) for (let i = to; i >= from && tempC[i]! > OPENING_C; i--) marks[i] = OPEN;
  });

  /** How a stretch ends towards the fault before (−1) or after it (+1). */
  function side(
    beyond: Stretch | undefined,
    { from, to }: Stretch,
    way: -1 | 1,
  ): 'joins' | 'apart' | 'slides' | 'unknown' {
    const end = way < 0 ? from : to;
    const faultC = tempC[end + way]!;
    if (!Number.isNaN(faultC) && Math.abs(faultC - tempC[end]!) <= JOINS_C) return 'slides';
    if (beyond === undefined) return 'unknown';
    const far = way < 0 ? beyond.to : beyond.from;
    const awayS = timeS[far]! - timeS[end]!;
    const moved = tempC[far]! - tempC[end]!;
    const onward = rate(end, end - way, from, to) * awayS;
    const inward = rate(far, far + way, beyond.from, beyond.to) * awayS;
    const allowed = JOINS_C + JOINS_C_PER_S * Math.abs(awayS);
    const fits =
      moved >= Math.min(0, onward, inward) - allowed && moved <= Math.max(0, onward, inward) + allowed;
    return fits ? 'joins' : 'apart';
  }

  /** Rate at one end of a stretch, K/s, from its last two readings. */
  function rate(end: number, inside: number, from: number, to: number): number {
    if (inside < from || inside > to) return 0;
    return (tempC[end]! - tempC[inside]!) / (timeS[end]! - timeS[inside]!);
  }

  function swing({ from, to }: Stretch): number {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = from; i <= to; i++) {
      low = Math.min(low, tempC[i]!);
      high = Math.max(high, tempC[i]!);
    }
    return high - low;
  }
}
