import { describe, expect, it } from 'vitest';
import { furnaceWindow, planRoutes, straightening } from '../../lib/heattreat';
import { isothermal } from '../../lib/history';
import { strengthAfter } from '../../lib/strength';

const CASTING = 'A356.0 T6 sand casting';
const TUBE = '6061 T6 extrusion and bar';

describe('one furnace cycle for casting and tube', () => {
  it('has a solution temperature that melts neither, for a furnace that holds it', () => {
    const { solution, meltsFromC } = furnaceWindow([CASTING, TUBE], { uniformityK: 3 });
    // 532 to 544 °C of the casting and 516 to 543 °C of the tube; the weld begins to melt at 555 °C.
    expect(solution).toMatchObject({ lowC: 532, highC: 543, setC: 537.5, possible: true });
    expect(meltsFromC).toBe(555);
    expect(furnaceWindow([CASTING, TUBE]).solution).toMatchObject({ possible: false });
    expect(furnaceWindow([CASTING, TUBE]).solution!.because).toContain('holds ± 5.5 °C (9.9 °F)');
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

  it('leave the strength of metal bought in each temper, welded and heated on', () => {
    const welding = { casting: isothermal(300, 20), tube: isothermal(380, 20) };
    const routes = new Map(
      planRoutes({ ...job, welding }).routes.map((route) => [route.name, route.strength]),
    );
    const tube = (name: string) => routes.get(name)!.find(({ place }) => place === 'tube')!.yieldMPa!.nominal;
    const asWelded = strengthAfter(welding.tube, { alloy: '6061', temper: 'T6' }, { endOnly: true });
    expect(tube('T6, weld, use')).toBe(asWelded.yieldMPa.nominal);
    // What dissolved comes back in the ageing oven, all of it after a new treatment.
    expect(tube('T6, weld, age')).toBeGreaterThan(tube('T6, weld, use'));
    expect(tube('T6, weld, full treatment')).toBeGreaterThan(tube('T6, weld, age'));
    // An order in F and one in T6 end alike when everything is made new.
    expect(tube('F, weld, full treatment')).toBe(tube('T6, weld, full treatment'));
    for (const strength of routes.values())
      expect(strength.find(({ place }) => place === 'weld metal')).toMatchObject({ yieldMPa: null });
    expect(planRoutes(job).routes[0]!.strength).toEqual([]);
  });
});

it('says that nobody knows how long a part stays soft after the quench', () => {
  expect(straightening('A356.0')).toMatchObject({ stiffensAfterH: null, warmLimitC: null, stableAfterH: 96 });
});
