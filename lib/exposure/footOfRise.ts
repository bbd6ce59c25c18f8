import type { ThermalHistory } from '../history';

/** Readings of a part left alone lie within this many deviations of their noise. */
const NOISE_OF_A_WAIT = 6;
/** The noise of two readings makes them differ by less than this many of its deviations, 99.7 times in 100. */
const NOISE_OF_A_DIFFERENCE = 4.2;
/** The foot is looked for by comparing readings this far apart, s, or neighbours where the logger is slower. */
const FOOT_LAG_S = 1;
/** Heating slower than this share of a rise's mean rate is not its foot yet. */
const GENTLE_SHARE = 0.05;

/**
 * The sample at the foot of a rise. Between the lowest reading and the top, the trace sags below the straight
 * line joining them where it waits first and heats later; the point of deepest sag takes the place of the
 * top, again and again, until the line fits within the noise or 1 % of the rise. The foot is the last reading
 * as low as that, followed back down while readings fall, beyond the noise, at a twentieth of the mean
 * heating rate or faster, to the lowest within a second. A trace that rises straight from its lowest reading
 * starts there. `valley` and `top` are sample indices, `noise` a standard deviation in K.
 */
export function footOfRise(
  { timeS, tempC }: ThermalHistory,
  valley: number,
  top: number,
  noise: number,
): number {
  const toleranceK = Math.max(0.01 * (tempC[top]! - tempC[valley]!), NOISE_OF_A_WAIT * noise);
  let foot = top;
  for (;;) {
    const slope = (tempC[foot]! - tempC[valley]!) / (timeS[foot]! - timeS[valley]!);
    let deepest = foot;
    let sagK = toleranceK;
    for (let i = valley + 1; i < foot; i++) {
      const sag = tempC[valley]! + slope * (timeS[i]! - timeS[valley]!) - tempC[i]!;
      if (sag > sagK) {
        sagK = sag;
        deepest = i;
      }
    }
    if (deepest === foot) break;
    foot = deepest;
  }
  if (foot === top) return valley;
  const withinK = tempC[foot]! + toleranceK;
  for (let i = foot; i < top; i++) if (tempC[i]! <= withinK) foot = i;
  const gentleKPerS = (GENTLE_SHARE * (tempC[top]! - tempC[foot]!)) / (timeS[top]! - timeS[foot]!);
  const secondBefore = (i: number): number => {
    let j = i - 1;
    while (j > valley && timeS[i]! - timeS[j]! < FOOT_LAG_S) j--;
    return j;
  };
  while (foot > valley) {
    const before = secondBefore(foot);
    const gentleK = gentleKPerS * (timeS[foot]! - timeS[before]!) + NOISE_OF_A_DIFFERENCE * noise;
    if (tempC[foot]! - tempC[before]! <= gentleK) break;
    foot--;
  }
  if (foot === valley) return valley;
  let lowest = foot;
  for (let i = foot - 1; i >= secondBefore(foot); i--) if (tempC[i]! < tempC[lowest]!) lowest = i;
  return lowest;
}
