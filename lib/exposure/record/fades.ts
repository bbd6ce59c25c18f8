import type { ThermalHistory } from '../../history';
import { formatDuration, formatTemp } from '../../quantity';
import type { BlindTime } from '../exposure';
import type { ProbeRecord } from './probe';

/** A fall from this far above the air to within 5 K or 5 % of the air, in so many seconds, is no cooling of metal. */
export const HOT_K = 60;
/** How near the air a probe that let go of the metal reads, K. */
export const AT_THE_AIR_K = 5;
const AT_THE_AIR_SHARE = 0.05;
const FADES_IN_S = 15;
/**
 * Nor is one within a minute that takes less than ten times as long as the rise before it: what was set down along a line in a
 * plate falls with the root of time, at a spot with time itself, so a twentieth is left after twenty times its rise or more.
 */
const FADES_SLOWLY_IN_S = 60;
const FALLS_LONGER = 10;
/** So does one from this far, after it stood half as high for ten seconds, in two: an arc may warm a spot of cold metal for less. */
const WARM_K = 18;
const DROPS_IN_S = 2;
const STOOD_S = 10;

/**
 * Readings that fall to the air as no metal does, because the probe let go of it. Cooling of 6 mm plate in still air has a time constant of minutes (25 W/m²K: 580 s); a quench is asked for.
 */
export function fades({ history: { timeS, tempC }, probe: { ambientC, isOven } }: ProbeRecord): BlindTime[] {
  if (isOven) return [];
  // The hottest readings of the last seconds, falling: the front is the hottest.
  const recent: number[] = [];
  for (let i = 0; i < timeS.length; i++) {
    while (recent.length > 0 && timeS[i]! - timeS[recent[0]!]! > FADES_SLOWLY_IN_S) recent.shift();
    // Only where the hottest of them fell to the air are the later ones looked for.
    const late = recent.length > 0 && isAtTheAir(tempC, ambientC, recent[0]!, i);
    const hot = late ? recent.find((k) => timeS[i]! - timeS[k]! <= FADES_IN_S) : undefined;
    const gone = (late ? [recent[0], hot] : []).find(
      (k) => k !== undefined && fadesFrom({ timeS, tempC }, ambientC, k, i),
    );
    if (gone !== undefined)
      return [
        {
          fromS: timeS[gone]!,
          toS: timeS[timeS.length - 1]!,
          because: `The reading falls from ${formatTemp(tempC[gone]!)} to that of the air within ${formatDuration(timeS[i]! - timeS[gone]!)}, ${formatDuration(timeS[gone]! - timeS[0]!)} into the log: metal does not cool like that, the probe let go of it. Measure there, or say that the part was quenched.`,
        },
      ];
    while (recent.length > 0 && tempC[recent[recent.length - 1]!]! <= tempC[i]!) recent.pop();
    recent.push(i);
  }
  return [];
}

/** How near the air a reading is no warmer than it, after a rise, K. */
const airK = (riseK: number): number => Math.max(AT_THE_AIR_K, AT_THE_AIR_SHARE * riseK);

/** Did the reading fall from well above the air to the air? */
const isAtTheAir = (tempC: Float64Array, ambientC: number, from: number, to: number): boolean =>
  tempC[from]! - ambientC > WARM_K && tempC[to]! - ambientC <= airK(tempC[from]! - ambientC);

/** Is the second of two readings at the air, and the fall to it no cooling of metal? */
function fadesFrom({ timeS, tempC }: ThermalHistory, ambientC: number, from: number, to: number): boolean {
  if (!isAtTheAir(tempC, ambientC, from, to)) return false;
  const riseK = tempC[from]! - ambientC;
  const fallS = timeS[to]! - timeS[from]!;
  if (riseK <= HOT_K) return fallS <= FADES_IN_S && dropsAtOnce(timeS, tempC, from, to, ambientC);
  if (fallS <= FADES_IN_S) return true;
  let foot = from;
  while (foot > 0 && tempC[foot]! - ambientC > airK(riseK)) foot--;
  return fallS < FALLS_LONGER * (timeS[from]! - timeS[foot]!);
}

/** Is the fall from a reading to another quicker than metal's, and from where it had been for some time? */
function dropsAtOnce(
  timeS: Float64Array,
  tempC: Float64Array,
  from: number,
  to: number,
  ambientC: number,
): boolean {
  const halfC = ambientC + (tempC[from]! - ambientC) / 2;
  let warm = to - 1;
  while (warm > 0 && tempC[warm]! < halfC) warm--;
  if (timeS[to]! - timeS[warm]! > DROPS_IN_S) return false;
  let first = warm;
  while (first > 0 && tempC[first - 1]! >= halfC) first--;
  return timeS[warm]! - timeS[first]! >= STOOD_S;
}
