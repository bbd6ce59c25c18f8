import { stretches, type ThermalHistory } from '../history';

/** Where the trace may have run above the straight line between two readings. */
export interface RiseBetween {
  /** Index of the reading before. */
  readonly after: number;
  /** In the order of time: how far above the line, K. */
  readonly points: readonly { readonly atS: number; readonly aboveK: number }[];
}

/** Where in an interval a rise is looked for, and how finely its crest, twice over. */
const SHARES = [0.25, 0.5, 0.75];
const STEPS = 32;

/**
 * Where and how far the readings of a history point above the straight lines between them, by more than `leastK`.
 *
 * What rises and what falls is followed beyond its last reading, each as the parabola of three: the trace lies at most where
 * the lower of the two comes, so a corner, where an arc came near and went, is found where it was. A smooth top bulges
 * κ s(Δt − s)/2 above its line, κ the harmonic mean of the curvatures |T″| at both readings, which is none beside a corner.
 * The greater of both counts.
 *
 * Source: elementary. On thermal cycles of a moving line source and on corners up at 3 to 30 K/s, read every 0.5 to 5 s at any
 * phase, the Arrhenius integral (200 kJ/mol) with these rises is 0.99 to 1.4 of the true one wherever `samplingLoss` does not
 * call the logger too slow, 0.99 to 1.01 for a corner; the straight lines alone have 0.6 to 1.
 */
export function risesBetween(history: ThermalHistory, leastK: number): RiseBetween[] {
  const { timeS, tempC } = history;
  const found: RiseBetween[] = [];
  for (const { first, last } of stretches(history))
    for (let i = first + 1; i < last - 1; i++) {
      const spanS = timeS[i + 1]! - timeS[i]!;
      const before = leaving(timeS, tempC, Math.max(first, i - 2), i - 1, i);
      const after = leaving(timeS, tempC, Math.min(last, i + 3), i + 2, i + 1);
      const slope = (tempC[i + 1]! - tempC[i]!) / spanS;
      const bend = sharedBend(bendAt(timeS, tempC, i), bendAt(timeS, tempC, i + 1));
      const aboveAt = (share: number): number => {
        const [s, left] = [share * spanS, (1 - share) * spanS];
        const corner = Math.min(
          (before.slope - slope + (before.bend * s) / 2) * s,
          (after.slope + slope + (after.bend * left) / 2) * left,
        );
        return Math.max(0, corner, (-bend * s * left) / 2);
      };
      if (!SHARES.some((share) => aboveAt(share) > leastK / 2)) continue;
      const crest = crestOf(aboveAt);
      if (aboveAt(crest) <= leastK) continue;
      const shares = SHARES.includes(crest) ? SHARES : [...SHARES, crest].sort((a, b) => a - b);
      found.push({
        after: i,
        points: shares.map((share) => ({ atS: timeS[i]! + share * spanS, aboveK: aboveAt(share) })),
      });
    }
  return found;
}

/** Where between 0 and 1 a rise is highest. */
function crestOf(aboveAt: (share: number) => number): number {
  let crest = 0.5;
  for (const step of [1 / STEPS, 1 / STEPS ** 2]) {
    const around = crest;
    for (let k = 1 - STEPS; k < STEPS; k++) {
      const share = around + k * step;
      if (share > 0 && share < 1 && aboveAt(share) > aboveAt(crest)) crest = share;
    }
  }
  return crest;
}

/** T″ at a sample by second divided differences, K/s². */
function bendAt(timeS: Float64Array, tempC: Float64Array, i: number): number {
  const before = (tempC[i]! - tempC[i - 1]!) / (timeS[i]! - timeS[i - 1]!);
  const after = (tempC[i + 1]! - tempC[i]!) / (timeS[i + 1]! - timeS[i]!);
  return (2 * (after - before)) / (timeS[i + 1]! - timeS[i - 1]!);
}

/** Harmonic mean of two curvatures downwards; none where either is not. */
const sharedBend = (a: number, b: number): number => (a < 0 && b < 0 ? (2 * a * b) / (a + b) : 0);

/**
 * The parabola through samples a, b and c as it leaves c in the direction from a: its slope there, K/s, and its curvature;
 * a straight line where a is b.
 */
function leaving(timeS: Float64Array, tempC: Float64Array, a: number, b: number, c: number) {
  const lateS = Math.abs(timeS[c]! - timeS[b]!);
  const late = (tempC[c]! - tempC[b]!) / lateS;
  if (a === b) return { slope: late, bend: 0 };
  const earlyS = Math.abs(timeS[b]! - timeS[a]!);
  const bend = (2 * (late - (tempC[b]! - tempC[a]!) / earlyS)) / (earlyS + lateS);
  return { slope: late + (bend * lateS) / 2, bend };
}
