import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../../lib/alloy';
import { isothermal } from '../../../lib/history';
import {
  advanceMetal,
  checkStartYield,
  evidenceHash,
  evidenceTable,
  plausibleMetals,
  startOfMetal,
} from '../../../lib/kinetics';
import { checkMembers, memberTable } from '../../../lib/kinetics/metals/memberTable';

describe('members and evidence', () => {
  it('belong together', () => {
    expect(memberTable().evidenceHash).toBe(evidenceHash());
    expect(memberTable().count).toBeGreaterThanOrEqual(4000);
  });

  it('members of other evidence are refused', () => {
    const rows = evidenceTable();
    const first = rows.findIndex(({ use }) => use === 'fit');
    const other = rows.map((row, i) => (i === first ? { ...row, lot: 'another' } : row));
    expect(() => checkMembers(memberTable(), evidenceHash(other))).toThrow(
      /fitted to other evidence.*npm run fit/s,
    );
  });

  it('a lost value is found', () => {
    const table = memberTable();
    const columns = { ...table.columns, power: table.columns.power!.slice(1) };
    expect(() => checkMembers({ ...table, columns })).toThrow(/column "power"/);
  });
});

const sorted = (values: readonly number[]): number[] => [...values].sort((a, b) => a - b);
const keptOf = (alloy: string, tempC: number, timeS: number, count: number): number[] =>
  sorted(
    plausibleMetals(alloy, 'T6', count).metals.map((metal) => {
      const { yieldKept } = advanceMetal(metal, startOfMetal(metal), isothermal(tempC, timeS));
      return yieldKept[1]!;
    }),
  );

describe('the sample', () => {
  it.each([
    ['6061', 300, 10],
    ['A356.0', 260, 600],
    ['6061', 230, 1800],
  ])('%s at %d °C for %d s: the first 400 say what all say', (alloy, tempC, timeS) => {
    const few = keptOf(alloy, tempC, timeS, 400);
    const all = keptOf(alloy, tempC, timeS, memberTable().count);
    for (const p of [0.05, 0.25, 0.5, 0.75, 0.95]) {
      const value = all[Math.floor(p * all.length)]!;
      // Two standard deviations of 400 plain random draws, for all five at once.
      const share = few.filter((kept) => kept < value).length / few.length;
      expect(Math.abs(share - p)).toBeLessThan(2 * Math.sqrt((p * (1 - p)) / 400));
    }
  });

  it('member i is the same draw for casting and tube', () => {
    const [tube, cast] = [plausibleMetals('6061', 'T6', 50), plausibleMetals('A356.0', 'T6', 50)];
    tube.metals.forEach((metal, i) => {
      expect(cast.metals[i]!.softening.energyJPerMol).toBe(metal.softening.energyJPerMol);
      expect(cast.metals[i]!.family).toBe(metal.family);
    });
    expect(tube.metals.filter(({ family }) => family === 'curve')).toHaveLength(25);
  });

  it("a shop's own card falls back on its family, wider, and says so", () => {
    const own = { ...structuredClone(loadAlloy('6061')), designation: 'shop alloy', otherNames: [] };
    const spread = (metals: ReturnType<typeof plausibleMetals>['metals']): number => {
      const clocks = sorted(metals.map(({ softening }) => Math.log(softening.timeS)));
      return clocks[380]! - clocks[20]!;
    };
    const answer = plausibleMetals(own, 'T6', 400);
    expect(answer.because.join(' ')).toMatch(/No measured row is about shop alloy/);
    expect(spread(answer.metals)).toBeGreaterThan(1.15 * spread(plausibleMetals('6061', 'T6', 400).metals));
  });
});

describe('ends of the curve', () => {
  // 6061-O over 6061-T6: 55 over 276 MPa (ASM typical values), and where the handbook's exposure curves end, 0.19 to 0.20.
  it('6061 ends where the O temper lies', () => {
    const floors = sorted(plausibleMetals('6061', 'T6', 400).metals.map(({ floorMPa }) => floorMPa / 276));
    expect(floors[200]!).toBeGreaterThan(0.175);
    expect(floors[200]!).toBeLessThan(0.21);
  });

  // A356-T6 becomes T7 in 8 h at 227 °C: 165 over 185 MPa (ASM Handbook vol. 2, permanent mould).
  it('A356-T6 after 8 h at 227 °C holds what T7 has of T6', () => {
    const kept = keptOf('A356.0', 227, 28_800, 400);
    expect(kept[20]!).toBeLessThan(165 / 185);
    expect(kept[380]!).toBeGreaterThan(165 / 185);
  });
});

describe('a measured start', () => {
  const cast = plausibleMetals('A356.0', 'T6', 40);

  it('outside what the temper can be is refused with the range', () => {
    const band = loadAlloy('A356.0').tempers.T6!.yieldMPa;
    expect(() => checkStartYield(cast, 0.79 * band.low)).toThrow(/Expected: 132 to 300 MPa/);
    expect(() => checkStartYield(cast, 1.3 * band.high)).toThrow(/is not A356.0-T6/);
    checkStartYield(cast, 200);
  });

  it('below the own yield never makes later heat look safer', () => {
    for (const metal of cast.metals)
      for (const [tempC, timeS] of [
        [227, 600],
        [280, 10],
        [350, 5],
        [250, 7200],
      ] as const) {
        const heat = isothermal(tempC, timeS);
        const low = startOfMetal(metal, { measuredYieldMPa: 0.85 * metal.startYieldMPa });
        const unstated = advanceMetal(metal, startOfMetal(metal), heat).yieldKept[1]!;
        expect(advanceMetal(metal, low, heat).yieldKept[1]!).toBeLessThanOrEqual(unstated + 1e-9);
      }
  });
});
