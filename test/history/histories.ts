import { type ThermalHistory, thermalHistory } from '../../lib/history';
import { fc } from '../setup/fc';

/** Random histories of 1 to 40 samples, some intervals marked as gaps. */
export const anyHistory: fc.Arbitrary<ThermalHistory> = fc
  .array(
    fc.record({
      stepS: fc.double({ min: 0.01, max: 100, noNaN: true }),
      tempC: fc.double({ min: -50, max: 650, noNaN: true }),
      gapDice: fc.nat(9),
    }),
    { minLength: 1, maxLength: 40 },
  )
  .map((samples) => {
    let timeS = -20;
    const times = samples.map(({ stepS }) => {
      timeS += stepS;
      return timeS;
    });
    const gaps = samples.flatMap(({ gapDice }, i) => (gapDice === 0 && i < samples.length - 1 ? [i] : []));
    return thermalHistory(
      times,
      samples.map(({ tempC }) => tempC),
      gaps,
    );
  });

/** Area under the recorded part of a history, °C·s: changes with any sample or gap that goes astray. */
export function area({ timeS, tempC, gapAfter }: ThermalHistory): number {
  const gaps = new Set(gapAfter);
  let sum = 0;
  for (let i = 1; i < timeS.length; i++)
    if (!gaps.has(i - 1)) sum += ((tempC[i]! + tempC[i - 1]!) / 2) * (timeS[i]! - timeS[i - 1]!);
  return sum;
}

/** An invented three-pass weld at 5 Hz on a part that cools with τ = 300 s in 20 °C air. */
export function threePasses(): ThermalHistory {
  const n = 6000;
  const timeS = Float64Array.from({ length: n }, (_, i) => i / 5);
  const tempC = new Float64Array(n).fill(20);
  for (let i = 1; i < n; i++) {
    const t = timeS[i]!;
    const heating = [60, 360, 660].some((startS) => t > startS && t <= startS + 20);
    tempC[i] = tempC[i - 1]! + (heating ? 12 : 0) / 5 - (tempC[i - 1]! - 20) / 300 / 5;
  }
  return thermalHistory(timeS, tempC);
}
