import { describe, expect, it } from 'vitest';
import { furnaceWindow, planRoutes, straightening } from '../../lib/heattreat';
import { judged } from '../../lib/quantity';

const CASTING = 'A356.0 T6 sand casting';
const TUBE = '6061 T6 extrusion and bar';

describe('one furnace cycle for casting and tube', () => {
  it('has a solution temperature that melts neither, for a furnace that holds it', () => {
    const { solution, meltsFromC } = furnaceWindow([CASTING, TUBE], { uniformityK: 3 });
    // 532 to 544 °C of the casting and 516 to 543 °C of the tube; the weld begins to melt at 555 °C.
    expect(solution).toMatchObject({ lowC: 532, highC: 543, setC: 537.5, possible: true });
    expect(meltsFromC).toBe(555);
    expect(furnaceWindow([CASTING, TUBE]).solution).toMatchObject({ possible: false });
    expect(furnaceWindow([CASTING, TUBE]).solution!.because).toContain('holds ± 5.5 K');
    expect(solution!.leastS).toBe(12 * 3600);
  });

  it('has no age in common by the schedules, and says why', () => {
    expect(furnaceWindow([CASTING, TUBE], { uniformityK: 1 }).age).toMatchObject({ possible: false });
    expect(furnaceWindow([CASTING, TUBE]).age!.because).toContain('no temperature in common');
    // 154 to 160 °C would do for both, but three to five hours against eighteen would not.
    const sheet = furnaceWindow([CASTING, '6061 T6 sheet and plate']).age!;
    expect(sheet.because).toContain('no time in common');
    expect(furnaceWindow(['6063 T6 extrusion', TUBE]).age).toMatchObject({ possible: true, setC: 177 });
  });

  it('does not depend on the order of the metals', () => {
    expect(furnaceWindow([TUBE, CASTING]).solution!.setC).toBe(furnaceWindow([CASTING, TUBE]).solution!.setC);
    expect(() => furnaceWindow([CASTING])).toThrow(/two schedules/);
  });
});

describe('orders of work', () => {
  const job = { castingSchedule: CASTING, tubeSchedule: TUBE, filler: '4043', uniformityK: 3 };

  it('are buy, weld, and what follows, with days and what speaks against each', () => {
    const { routes } = planRoutes(job);
    expect(new Set(routes.map(({ name }) => name)).size).toBe(routes.length);
    for (const { steps, days, against } of routes) {
      expect(days).toBe(steps.reduce((sum, step) => sum + step.days, 0));
      expect(against.length).toBeGreaterThan(0);
    }
    expect(routes.filter(({ forbidden }) => forbidden)).toEqual([]);
  });

  it('are forbidden where the filler does not stand it', () => {
    const forbidden = planRoutes({ ...job, filler: '5356' }).routes.filter((route) => route.forbidden);
    expect(forbidden.map(({ name }) => name)).toEqual([
      'T6, weld, age',
      'T4, weld, age',
      'T4, weld, powder oven',
      'F, weld, full treatment',
      'T6, weld, full treatment',
    ]);
  });

  it('carry strengths of a model passed in, place by place', () => {
    const asked: string[] = [];
    const { routes } = planRoutes({
      ...job,
      strengthAt: (place, bought, after) => {
        asked.push(`${place} ${bought} ${after === 'new treatment' ? after : after ? 'heat' : 'as welded'}`);
        return place === 'weld metal' ? null : judged(150, [100, 200], 'MPa', []);
      },
    });
    expect(routes[0]!.strength.map(({ place }) => place)).toEqual(['casting', 'tube', 'weld metal']);
    expect(asked).toContain('casting F new treatment');
    expect(asked).toContain('tube T6 as welded');
    expect(asked).toContain('tube T4 heat');
  });
});

it('says that nobody knows how long a part stays soft after the quench', () => {
  expect(straightening('A356.0')).toMatchObject({ stiffensAfterH: null, warmLimitC: null, stableAfterH: 96 });
});
