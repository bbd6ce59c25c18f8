import { describe, expect, it } from 'vitest';
import { judge } from '../../../lib/decision';
import { type CheckStep, checkProbes } from '../../../lib/exposure';
import { type ThermalHistory, thermalHistory } from '../../../lib/history';
import { readLog } from '../../../lib/log';
import { celsiusToEmf, emfToCelsius } from '../../../lib/thermocouple';

const AIR_C = 22;
/** A second a reading: 60 s ice, 60 s boil at 1524 m (203 °F printed), 60 s in air, 60 s in the hand, 60 s arc. */
const BOIL_C = 94.9;
const STEPS: readonly CheckStep[] = [
  { what: 'ice water', fromS: 20, toS: 50 },
  { what: 'boiling water', altitudeM: 1524, fromS: 80, toS: 110 },
  { what: 'all together', fromS: 140, toS: 170 },
  { what: 'one alone', channel: 'TC1', fromS: 200, toS: 230 },
  { what: 'arc', fromS: 260, toS: 290 },
];
const metalAt = (t: number, inHand: boolean): number =>
  t < 5 ? AIR_C : t < 60 ? 0 : t < 120 ? BOIL_C : t < 190 ? AIR_C : t < 240 && inHand ? 30 : AIR_C;
const log = (inHand: boolean, shown: (metalC: number, t: number) => number = (c) => c): ThermalHistory => {
  const timeS = Array.from({ length: 300 }, (_, i) => i);
  return thermalHistory(
    timeS,
    timeS.map((t) => shown(metalAt(t, inHand), t)),
  );
};
const cold = celsiusToEmf('K', AIR_C);
const check = (TC1: ThermalHistory, TC2 = log(false)) =>
  checkProbes(
    [
      { name: 'TC1', history: TC1 },
      { name: 'TC2', history: TC2 },
    ],
    STEPS,
  );

describe('a check of the probes before the weld', () => {
  it('finds nothing wrong with sound probes', () => {
    for (const { faults, readsLowK, arcK } of check(log(true))) {
      expect(faults).toEqual([]);
      expect([readsLowK, arcK]).toEqual([0, 0]);
    }
  });

  it('finds two wires swapped at one probe, by what it shows', () => {
    const [bad, good] = check(log(true, (c) => emfToCelsius('K', 2 * cold - celsiusToEmf('K', c))));
    expect(bad!.faults.join(' ')).toMatch(/two wires swapped/);
    expect(good!.faults).toEqual([]);
  });

  it.each(['J', 'T', 'N'] as const)('finds type %s wire on an input set to K', (other) => {
    const [bad] = check(
      log(true, (c) => emfToCelsius('K', cold + celsiusToEmf(other, c) - celsiusToEmf(other, AIR_C))),
    );
    expect(bad!.faults.length).toBeGreaterThan(other === 'T' ? -1 : 0);
    if (bad!.faults.length > 0)
      expect(bad!.faults.join(' ')).toMatch(new RegExp(`type (${other}|[A-Z]) wire`));
    else expect(Math.abs(bad!.readsLowK)).toBeLessThan(4);
  });

  it('finds probes swapped at the plugs', () => {
    const found = check(log(false), log(true));
    expect(found.flatMap(({ faults }) => faults).join(' ')).toMatch(/TC1 was warmed and TC2 moved/);
  });

  it('finds an offset and the arc, and they widen the verdict on the weld', () => {
    const [found] = check(log(true, (c, t) => c - 4.5 + (t > 250 ? 6 * Math.sin(t) : 0)));
    expect(found!.readsLowK).toBeCloseTo(4.5, 0);
    expect(found!.arcK).toBeGreaterThan(3);
    const weld = thermalHistory([0, 30, 60, 900], [22, 240, 200, 30]);
    const low = (byChannel?: { readonly check: typeof found }) =>
      judge(weld, { alloy: '6061-T6', attachment: 'welded wires', ...byChannel }).channels[0]!.peakC;
    expect(low({ check: found }).high).toBeGreaterThan(low().high + 4);
  });

  it('a fault it found clears nothing', () => {
    const [found] = check(log(true, (c) => emfToCelsius('K', 2 * cold - celsiusToEmf('K', c))));
    const rows = Array.from({ length: 60 }, (_, t) => `${t},${(22 + 10 * Math.sin(t / 20)).toFixed(1)}`);
    const weld = readLog(Buffer.from(`time (s),TC1 (°C)\n${rows.join('\n')}\n`));
    expect(judge(weld, { alloy: '6061-T6' }).chanceKept).not.toBeNull();
    expect(judge(weld, { alloy: '6061-T6', byChannel: { TC1: { check: found } } }).chanceKept).toBeNull();
  });

  it('asks for the altitude, and refuses steps without readings or with a probe that is not there', () => {
    const one = [{ name: 'TC1', history: log(true) }];
    expect(() => checkProbes(one, [{ what: 'boiling water', fromS: 80, toS: 110 }])).toThrow(
      /Where was the water boiled/,
    );
    expect(() => checkProbes(one, [{ what: 'ice water', fromS: 900, toS: 950 }])).toThrow(/too few readings/);
    expect(() => checkProbes(one, [{ what: 'one alone', channel: 'TC9', fromS: 1, toS: 9 }])).toThrow(
      /"TC9"/,
    );
    expect(() => checkProbes(one, [])).toThrow(/No step/);
  });
});
