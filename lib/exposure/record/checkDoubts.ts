import type { ThermalHistory } from '../../history';
import type { Doubt } from '../exposure';
import type { CheckedProbe } from '../probeCheck/probeCheck';

/**
 * What a check before the weld adds to a probe's doubts: an offset beyond its wire's tolerance, and how far the arc moves its
 * readings. A probe that read low is taken to read low in proportion to the rise, which is never less; one that read high by
 * the same amount everywhere, as more would flatter the part.
 */
export function checkDoubts(
  { tempC }: ThermalHistory,
  { readsLowK, toK, riseK, arcK }: CheckedProbe,
  ambientC: number,
): Doubt[] {
  const grows = (temp: number): number =>
    readsLowK > 0 && riseK > 0 ? Math.max(1, (temp - ambientC) / riseK) : 1;
  const doubts: Doubt[] = [];
  if (readsLowK !== 0)
    doubts.push({
      kind: 'offset',
      of: 'the offset found before the weld',
      spread: { shape: 'even', low: readsLowK - toK, high: readsLowK + toK },
      shiftK: tempC.map(grows),
    });
  if (arcK !== 0)
    doubts.push({
      kind: 'arc',
      of: 'the arc in the readings',
      spread: { shape: 'even', low: -1, high: 1 },
      shiftK: new Float64Array(tempC.length).fill(arcK),
    });
  return doubts;
}
