import { describe, expect, it } from 'vitest';
import { listAlloys, loadAlloy } from '../../../lib/alloy';
import { isothermal, type ThermalHistory, thermalHistory } from '../../../lib/history';
import { advanceMetal, type PlausibleMetal, plausibleMetals, startOfMetal } from '../../../lib/kinetics';
import { fc } from '../../setup/fc';

const some = (alloy: string, temper: string, count = 16): readonly PlausibleMetal[] =>
  plausibleMetals(alloy, temper, count).metals;

const keptAfter = (metal: PlausibleMetal, ...histories: readonly ThermalHistory[]): number => {
  let state = startOfMetal(metal);
  let kept = 1;
  for (const history of histories) {
    const track = advanceMetal(metal, state, history);
    state = track.state;
    kept = track.yieldKept[track.yieldKept.length - 1]!;
  }
  return kept;
};

/** A weld-like pass by its formula: 60 K/s up, exponential down; `everyS` between samples. */
function pass(peakC: number, coolingS: number, everyS: number): ThermalHistory {
  const riseS = (peakC - 20) / 60;
  const at = (t: number): number =>
    t < riseS ? 20 + 60 * t : 20 + (peakC - 20) * Math.exp(-(t - riseS) / coolingS);
  const end = riseS + 6 * coolingS;
  const times = new Set([0, riseS]);
  for (let t = everyS; t < end; t += everyS) times.add(t);
  const timeS = [...times].sort((a, b) => a - b);
  return thermalHistory(timeS, timeS.map(at));
}

const cases = [
  ['6061', 'T6'],
  ['A356.0', 'T6'],
  ['6061', 'T4'],
  ['A356.0', 'T7'],
] as const;

/**
 * What splitting and sampling may move, of the yield before the heat. Doses are good to 1e-3 (steps of 5 K, logarithmic
 * mean), which a slope of at most a quarter makes 3e-4 of the yield. The rest is the coupling of dissolution with
 * ageing on the way down, taken in turns on every step: halved with the step, and largest where all
 * solute is loose from the start (T4).
 */
const stepError = (temper: string): number => (temper === 'T4' ? 6e-3 : 3e-3);

describe('a history may be split or sampled otherwise', () => {
  it('split anywhere on its straight lines: the same yield', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...cases),
        fc.integer({ min: 180, max: 480 }),
        fc.integer({ min: 10, max: 600 }),
        fc.double({ min: 0.05, max: 0.95, noNaN: true }),
        fc.integer({ min: 0, max: 15 }),
        ([alloy, temper], peakC, holdS, where, member) => {
          const metal = some(alloy, temper)[member]!;
          const whole = thermalHistory([0, 30, 30 + holdS, 200 + holdS], [20, peakC, peakC, 40]);
          const cutS = where * (200 + holdS);
          fc.pre(!whole.timeS.includes(cutS));
          const k = whole.timeS.findIndex((t) => t > cutS);
          const share = (cutS - whole.timeS[k - 1]!) / (whole.timeS[k]! - whole.timeS[k - 1]!);
          const cutC = whole.tempC[k - 1]! + share * (whole.tempC[k]! - whole.tempC[k - 1]!);
          const first = thermalHistory(
            [...whole.timeS.slice(0, k), cutS],
            [...whole.tempC.slice(0, k), cutC],
          );
          const second = thermalHistory([cutS, ...whole.timeS.slice(k)], [cutC, ...whole.tempC.slice(k)]);
          expect(Math.abs(keptAfter(metal, whole) - keptAfter(metal, first, second))).toBeLessThan(
            stepError(temper),
          );
        },
      ),
      { numRuns: 200 },
    );
  });

  it.each(cases)('%s-%s: a pass sampled at 10 Hz and every 2 s', (alloy, temper) => {
    for (const metal of some(alloy, temper))
      for (const peakC of [260, 350, 450]) {
        const fine = keptAfter(metal, pass(peakC, 100, 0.1));
        // Straight lines across 2 s of an exponential of 100 s lie at most (2/100)²/8 of the rise above it: 0.02 K.
        expect(Math.abs(keptAfter(metal, pass(peakC, 100, 2)) - fine)).toBeLessThan(stepError(temper));
      }
  });

  it.each(cases)('%s-%s: a long hold in one piece and in 500, from loose solute', (alloy, temper) => {
    const weld = thermalHistory([0, 8, 60], [20, 520, 20]);
    for (const metal of some(alloy, temper))
      for (const tempC of [177, 205, 250]) {
        const timeS = Array.from({ length: 501 }, (_, i) => (i * 28_800) / 500);
        const pieces = thermalHistory(
          timeS,
          timeS.map(() => tempC),
        );
        expect(
          Math.abs(keptAfter(metal, weld, isothermal(tempC, 28_800)) - keptAfter(metal, weld, pieces)),
        ).toBeLessThan(stepError(temper));
      }
  });

  it.each(cases)('%s-%s: steps so small that nothing forms on them leave numbers', (alloy, temper) => {
    const timeS = Array.from({ length: 4001 }, (_, i) => i / 4000);
    const fine = thermalHistory(
      timeS,
      timeS.map((t) => 20 + 460 * t),
    );
    for (const metal of some(alloy, temper))
      for (const value of Object.values(advanceMetal(metal, startOfMetal(metal), fine).state))
        expect(value).not.toBeNaN();
  });

  it('a state goes through JSON unharmed', () => {
    for (const [alloy, temper] of cases)
      for (const metal of some(alloy, temper, 4)) {
        const { state } = advanceMetal(metal, startOfMetal(metal), isothermal(300, 60));
        expect(JSON.parse(JSON.stringify(state))).toEqual(state);
        expect(JSON.parse(JSON.stringify(metal))).toEqual(metal);
      }
  });
});

describe('what heat must and must not do', () => {
  it.each(cases.filter(([, temper]) => temper !== 'T4'))(
    '%s-%s: a year at 20 °C does nothing',
    (alloy, temper) => {
      for (const metal of some(alloy, temper))
        expect(keptAfter(metal, isothermal(20, 3.15e7))).toBeCloseTo(1, 4);
    },
  );

  it('a gap stands still', () => {
    const [metal] = some('6061', 'T6', 1);
    const gapped = thermalHistory([0, 10, 5000, 5010], [250, 250, 250, 250], [1]);
    expect(keptAfter(metal!, gapped)).toBeCloseTo(keptAfter(metal!, isothermal(250, 20)), 9);
  });

  it('more heat strengthens a peak-aged part by no more than the new particles of what it dissolved', () => {
    fc.assert(
      fc.property(
        fc.constantFrom('6061', '6063', '6082'),
        fc.integer({ min: 100, max: 340 }),
        fc.integer({ min: 1, max: 36_000 }),
        fc.integer({ min: 0, max: 15 }),
        (alloy, tempC, holdS, member) => {
          const metal = some(alloy, 'T6')[member]!;
          let state = startOfMetal(metal);
          let before = 1;
          for (const [fromC, toC] of [
            [tempC, tempC],
            [tempC, tempC + 10],
            [tempC + 10, tempC + 10],
          ] as const) {
            const next = advanceMetal(metal, state, thermalHistory([0, holdS], [fromC, toC]));
            const kept = next.yieldKept[1]!;
            // Near 150 °C a thousandth dissolves and forms anew in days: the whole of it may count as hardening.
            const renewed = Math.max(0, next.state.aged - state.aged) * state.hardeningMPa;
            expect(kept).toBeLessThanOrEqual(before + renewed / state.startYieldMPa + 1e-9);
            state = next.state;
            before = kept;
          }
        },
      ),
    );
  });

  it('nothing gains in seconds at 300 °C', () => {
    for (const alloy of ['356.0', 'A356.0'])
      for (const metal of some(alloy, 'T6', 100))
        expect(keptAfter(metal, isothermal(300, 10))).toBeLessThan(1.01);
  });

  it('a casting never gains beyond its peak yield', () => {
    for (const metal of some('356.0', 'T6', 100))
      for (const tempC of [170, 200, 230])
        for (const hours of [1, 4, 20])
          expect(keptAfter(metal, isothermal(tempC, hours * 3600)) * metal.startYieldMPa).toBeLessThanOrEqual(
            Math.max(metal.peakYieldMPa, metal.startYieldMPa) + 1e-9,
          );
  });
});

describe('every alloy and temper has an answer or a refusal by name', () => {
  it.each(listAlloys())('%s', (alloy) => {
    for (const temper of [...Object.keys(loadAlloy(alloy).tempers), 'W'])
      for (const metal of some(alloy, temper, 32)) {
        const { yieldKept } = advanceMetal(
          metal,
          startOfMetal(metal),
          thermalHistory([0, 8, 60, 1e6, 1.03e6], [20, 480, 60, 20, 175]),
        );
        expect(yieldKept[0]).toBeCloseTo(1, 9);
        for (const kept of yieldKept) {
          expect(kept).toBeGreaterThan(0);
          expect(kept).toBeLessThan(6);
        }
      }
    expect(() => plausibleMetals(alloy, 'T9', 4)).toThrow(/no temper of this name/);
  });
});
