import { describe, expect, it } from 'vitest';
import { loadAlloy } from '../../lib/alloy';
import { type PartState, planRecovery, recoveryTicket, ticketHtml, ticketText } from '../../lib/heattreat';
import { isothermal } from '../../lib/history';
import { ageingPractice, considerRecovery } from '../../lib/planning';
import { fc } from '../setup/fc';

const NOTHING_ON_IT = { threads: false, coating: false, inserts: false, machined: false };
const foot: PartState = {
  schedule: 'A356.0 T6 sand casting',
  places: [
    { name: 'lip', material: 'casting', alloy: 'A356.0', temper: 'T6', peakC: 380, thicknessMm: 8 },
    { name: 'weld', material: 'weld metal', peakC: 640, thicknessMm: 5 },
  ],
  filler: '4008',
  solutionTreatments: 1,
  thinnestWallMm: 8,
  longestMm: 180,
  holdsPressure: false,
  fittings: NOTHING_ON_IT,
};
const permissions = (state: PartState) =>
  Object.fromEntries(planRecovery(state).ways.map(({ kind, permission }) => [kind, permission]));
const objections = (state: PartState, kind: string) =>
  planRecovery(state)
    .ways.find((way) => way.kind === kind)!
    .objections.map(({ what }) => what)
    .join('\n');

describe('ways to go on with a part', () => {
  it('are open where nothing stands against them, but for the torch', () => {
    expect(permissions(foot)).toEqual({
      accept: 'possible',
      rest: 'possible',
      'age again': 'ask first',
      'full treatment': 'possible',
      'local treatment': 'forbidden',
      scrap: 'possible',
    });
    expect(objections(foot, 'age again')).toContain('How the weld metal takes ageing');
    expect(objections(foot, 'local treatment')).toContain('soft ring');
  });

  it('are all refused for what holds pressure, but for scrap', () => {
    const { scrap, ...others } = permissions({ ...foot, holdsPressure: true });
    expect(scrap).toBe('possible');
    expect(new Set(Object.values(others))).toEqual(new Set(['forbidden']));
  });

  it('end where the casting began to melt; weld metal has melted anyhow', () => {
    const burnt = { ...foot, places: [{ ...foot.places[0]!, peakC: 556 }] };
    expect(permissions(burnt)).toMatchObject({ accept: 'forbidden', 'full treatment': 'forbidden' });
    expect(objections(burnt, 'accept')).toContain('no heat treatment mends burnt metal');
  });

  it('go by the filler', () => {
    expect(permissions({ ...foot, filler: 'ER5356' })).toMatchObject({
      accept: 'possible',
      'age again': 'forbidden',
      'full treatment': 'forbidden',
    });
    expect(permissions({ ...foot, filler: '4043' })).toMatchObject({
      'age again': 'ask first',
      'full treatment': 'ask first',
    });
    const tube = {
      name: 'tube',
      material: 'wrought',
      alloy: '6061',
      temper: 'T6',
      peakC: 350,
      thicknessMm: 3,
    } as const;
    expect(permissions({ ...foot, filler: '4043', places: [...foot.places, tube] })).toMatchObject({
      'full treatment': 'possible',
    });
    const thick = { ...foot, filler: '4043', places: [{ ...tube, thicknessMm: 12 }] };
    expect(objections(thick, 'full treatment')).toContain('"tube", thicker than 10 mm');
    // Thick metal of the casting is no matter of dilution; a joint of a thickness nobody said is.
    const block = { ...foot.places[0]!, thicknessMm: 25 };
    const { thicknessMm: _, ...weld } = foot.places[1]!;
    expect(
      objections({ ...foot, filler: '4043', places: [block, foot.places[1]!, tube] }, 'full treatment'),
    ).toBe('');
    const asked = objections({ ...foot, filler: '4043', places: [block, weld, tube] }, 'full treatment');
    expect(asked).toMatch(/^How thick it is at "weld" is not said\. Filler 4043/);
  });

  it('ask about earlier treatments, thin walls, size, the furnace and what is on the part', () => {
    const full = (more: Partial<PartState>) => objections({ ...foot, ...more }, 'full treatment');
    expect(full({})).toBe('');
    expect(full({ solutionTreatments: 3 })).toContain('approval');
    expect(full({ thinnestWallMm: 2 })).toContain('warps in the quench');
    expect(full({ longestMm: 900 })).toContain('quenches unevenly');
    expect(full({ uniformityK: 28 })).toContain('begin to melt at 555 °C');
    expect(full({ wroughtSchedule: '6061 T6 extrusion and bar' })).toContain('One age for both metals');
    expect(full({ fittings: { ...NOTHING_ON_IT, threads: true } })).toContain('threads');
    expect(full({ fittings: { ...NOTHING_ON_IT, coating: true } })).toContain('plating');
    const ageing = objections({ ...foot, fittings: { ...NOTHING_ON_IT, threads: true } }, 'age again');
    expect(ageing).not.toContain('threads');
  });

  it('leave the strength that every other door gives', () => {
    const exposure = isothermal(380, 20);
    const places = [{ ...foot.places[0]!, exposure }, foot.places[1]!];
    const practice = ageingPractice(loadAlloy('A356.0'), 'T6');
    const { ways } = planRecovery({ ...foot, places }, { ageing: practice });
    const considered = considerRecovery(exposure, { alloy: 'A356.0', temper: 'T6' });
    (['accept', 'rest', 'age again', 'full treatment'] as const).forEach((kind, k) => {
      const [lip, weld] = ways.find((way) => way.kind === kind)!.strength;
      const { yieldKeptFraction, chanceKept, verdict } = considered[k]!;
      expect(lip!.after).toMatchObject({ yieldKeptFraction, chanceKept, word: verdict });
      expect(weld).toMatchObject({ after: null, because: expect.stringContaining('weld metal') });
    });
  });

  it('leave no number where nothing was recorded', () => {
    const [accept] = planRecovery(foot).ways;
    expect(accept!.strength[0]).toMatchObject({ after: null, because: 'what it saw is not recorded' });
  });

  it('refuse what no part can be', () => {
    expect(() => planRecovery({ ...foot, places: [] })).toThrow(/places whose strength matters/);
    expect(() => planRecovery({ ...foot, thinnestWallMm: -1 })).toThrow(/Thinnest wall/);
    expect(() => planRecovery({ ...foot, schedule: 'A356.0 T99' })).toThrow(/No heat-treat schedule/);
  });

  it('are never opened by knowing less', () => {
    const rank = { possible: 0, 'ask first': 1, forbidden: 2 } as const;
    const whole = fc.record({
      filler: fc.constantFrom('4043', '4008', '4643', '5356'),
      solutionTreatments: fc.integer({ min: 1, max: 5 }),
      thinnestWallMm: fc.constantFrom(2, 8),
      longestMm: fc.constantFrom(100, 900),
      holdsPressure: fc.boolean(),
      fittings: fc.record({
        threads: fc.boolean(),
        coating: fc.boolean(),
        inserts: fc.boolean(),
        machined: fc.boolean(),
      }),
    });
    const keys = [
      'solutionTreatments',
      'thinnestWallMm',
      'longestMm',
      'holdsPressure',
      'fittings',
      'peakC',
    ] as const;
    fc.assert(
      fc.property(whole, fc.constantFrom(...keys), (known, key) => {
        const state: PartState = { ...foot, ...known };
        const less: PartState =
          key === 'peakC'
            ? { ...state, places: state.places.map((place) => ({ ...place, peakC: null })) }
            : key === 'fittings'
              ? { ...state, fittings: { threads: null, coating: null, inserts: null, machined: null } }
              : { ...state, [key]: null };
        const [a, b] = [permissions(state), permissions(less)];
        // What forbids may become a question when it is not said; a question never becomes a permission.
        return Object.keys(a).every(
          (kind) => rank[b[kind] as keyof typeof rank] >= Math.min(1, rank[a[kind] as keyof typeof rank]),
        );
      }),
      { numRuns: 200, seed: 20263 },
    );
  });
});

describe('the ticket', () => {
  const plan = planRecovery(foot);
  const way = (kind: string) => plan.ways.find((one) => one.kind === kind)!;

  it('says what was welded, what to do and what to send back', () => {
    const text = ticketText(recoveryTicket(plan, way('full treatment'), { part: 'HB-07' }));
    for (const part of [
      'HB-07',
      'Filler: 4008',
      'Solution: every load sensor from 532 °C',
      'Straighten at once',
    ])
      expect(text).toContain(part);
    expect(text).toMatch(/Hardness and conductivity at: lip; weld/);
    expect(ticketText(recoveryTicket(plan, way('age again')))).toContain('No solution treatment, no quench');
  });

  it('asks for the band that both metals take', () => {
    const both = planRecovery({ ...foot, wroughtSchedule: '6061 T6 extrusion and bar' });
    const full = both.ways.find(({ kind }) => kind === 'full treatment')!;
    expect(ticketText(recoveryTicket(both, full))).toContain('from 532 °C (990 °F) to 543 °C (1009 °F)');
    const age = both.ways.find(({ kind }) => kind === 'age again')!;
    expect(age.objections.map(({ what }) => what).join()).toContain('One age for both metals');
  });

  it('is one page that needs nothing else, whatever the names hold', () => {
    const html = ticketHtml(recoveryTicket(plan, way('full treatment'), { part: '<b>&"7"' }));
    expect(html).toContain('&lt;b&gt;&amp;&quot;7&quot;');
    expect(html).not.toMatch(/https?:/);
  });

  it('is not written for what is forbidden', () => {
    expect(() => recoveryTicket(plan, way('local treatment'))).toThrow(/no ticket/);
    const refused = planRecovery({ ...foot, filler: '5356' });
    expect(() =>
      recoveryTicket(refused, refused.ways.find(({ kind }) => kind === 'full treatment')!),
    ).toThrow(/5356/);
  });
});
