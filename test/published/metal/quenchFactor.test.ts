import { describe, expect, it } from 'vitest';
import published from '../../../data/published/quench-factor.json';
import { loadAlloy } from '../../../lib/alloy';
import { thermalHistory } from '../../../lib/history';
import { criticalTimeS, quenchFactor } from '../../../lib/kinetics';

const curveOf = (alloy: string) => published.curves.find((curve) => curve.alloy === alloy)!;
/** Printed digits: half a unit in the last place. */
const halfUnit = (printed: number): number => 0.5 * 10 ** -(String(printed).split('.')[1] ?? '').length;

/** Source and how each number is known: in data/published/quench-factor.json. */
describe('quench factor examples, to their printed digits', () => {
  it.each(published.examples)('$alloy at $coolingKPerS K/s', ({ alloy, coolingKPerS, tau, ratio }) => {
    const cooling = thermalHistory([0, 460 / coolingKPerS], [480, 20]);
    const result = quenchFactor(cooling, curveOf(alloy));
    expect(Math.abs(result.quenchFactor - tau)).toBeLessThanOrEqual(halfUnit(tau));
    expect(Math.abs(result.strengthFraction - ratio)).toBeLessThanOrEqual(halfUnit(ratio));
  });

  it.each(published.curves)(
    '$alloy: the nose lies at $noseC °C and lasts $noseS s',
    ({ noseC, noseS, ...curve }) => {
      const times = Array.from({ length: 276 }, (_, k) => [criticalTimeS(curve, 150 + k), 150 + k] as const);
      const [shortest, atC] = times.reduce((best, point) => (point[0] < best[0] ? point : best));
      expect(Math.abs(atC - noseC)).toBeLessThanOrEqual(1);
      expect(Math.abs(shortest - noseS)).toBeLessThanOrEqual(halfUnit(noseS));
    },
  );

  it('the 6061 card holds the published constants', () => {
    const { k2S, k3JPerMol, k4K, k5JPerMol } = loadAlloy('6061').quench!;
    const curve = curveOf('6061-T6');
    expect([k2S.value, k3JPerMol.value, k4K.value, k5JPerMol.value]).toEqual([
      curve.k2S,
      curve.k3JPerMol,
      curve.k4K,
      curve.k5JPerMol,
    ]);
  });
});
