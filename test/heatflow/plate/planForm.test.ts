import { describe, expect, it } from 'vitest';
import plan from '../../../data/demo/mast-foot-two-probes-plan.json';
import { loadAlloy } from '../../../lib/alloy';
import { hottestMetal, type PlanShape, type PlatePlan, solvePlate, traverse } from '../../../lib/heatflow';
import { checkPlan } from '../../../lib/heatflow/plate/plan/checkPlan';
import { TemperbookError } from '../../../lib/quantity';
import { smallPlan } from './smallPlan';

/** A plan as JSON gives it, with whatever stands in it. */
type Loose = Record<string, unknown>;
const region = smallPlan().part[0]!;
const pass = smallPlan().passes[0]!;
const surface = smallPlan().surface;
const contact = { shape: { rectMm: [0, 0, 9, 9] }, conductanceWPerM2K: 500, bodyC: 20 };

function messageOf(change: Loose): string {
  try {
    checkPlan({ ...smallPlan(), ...change } as unknown as PlatePlan);
  } catch (error) {
    expect(error).toBeInstanceOf(TemperbookError);
    return (error as TemperbookError).message;
  }
  throw new Error('the plan was taken');
}

describe('a slip in the keys of a plan', () => {
  it.each<[Loose, RegExp]>([
    [
      { passes: [pass, { ...pass, startAfter: { interPassC: 60 } }] },
      /passes\[1\]\.startAfter\.interPassC: found a key .*did you mean interpassC\?/,
    ],
    [{ contact: [contact] }, /contact: found a key .*did you mean contacts\?/],
    [{ passes: [{ ...pass, startAfter: { atProbe: 'near' } }] }, /atProbe without interpassC/],
    [{ passes: [{ ...pass, startAfter: { interpassC: 60 } }] }, /interpassC without atProbe/],
    [{ surface: { ...surface, rim: 'insulatd' } }, /surface\.rim: found "insulatd".*"insulated"/],
    ...[0, 20, Number.NaN].map((faces): [Loose, RegExp] => [
      { contacts: [{ ...contact, faces }] },
      new RegExp(`contacts\\[0\\]\\.faces: found ${faces}, expected one of 1, 2`),
    ]),
    [{ part: [{ ...region, shape: { rectmm: [0, 0, 9, 9] } }] }, /part\[0\]\.shape\.rectmm.*mean rectMm\?/],
    [{ part: [{ ...region, shape: {} }] }, /part\[0\]\.shape: found \{\}, expected one of rectMm/],
    [{ part: [{ ...region, shape: { rectMm: [0, 0, 9] } }] }, /found \[0,0,9\], expected 4 numbers/],
    [{ part: [{ ...region, thicknessMm: Number.NaN }] }, /part\[0\]\.thicknessMm: found NaN/],
    [
      { part: [{ ...region, metal: { ...loadAlloy('6061').thermal } }] },
      /part\[0\]\.metal\.densityKgPerM3: found \{/,
    ],
    [{ until: { coolForS: 5, coolToC: 50 } }, /until: .* one of coolForS, coolToC/],
    [{ until: {} }, /until: found \{\}, expected one of/],
    [{ passes: [{ ...pass, path: [{ xMm: 1, yMm: 2 }] }] }, /path\[0\]: found .*"xMm".*a point \[x, y\]/],
    [{ passes: [{ ...pass, sourceRadiusMm: { acrossMm: 5, aheadMm: 5 } }] }, /"behindMm"/],
    [{ probes: [{ xMm: 5, yMm: 3 }] }, /probes\[0\]: found nothing, expected the key "name"/],
    [{ contacts: null }, /contacts: found null, expected a list/],
  ])('%j is told by its place', (change, message) => expect(messageOf(change)).toMatch(message));

  it('is told for every key that is missing, all at once', () => {
    const bare = { part: [{}], passes: [{}], surface: undefined, probes: undefined, until: undefined };
    const message = messageOf(bare);
    for (const key of ['surface', 'probes', 'until', 'shape', 'thicknessMm', 'metal'])
      expect(message).toContain(`expected the key "${key}"`);
    for (const key of ['path', 'sourceRadiusMm'])
      expect(message).toMatch(new RegExp(`passes\\[0\\]: found nothing, expected the key "${key}"`));
    expect(message).toContain('8 problems');
  });

  it.each([undefined, null, [], 'plan.json'])('%j is no plan', (nonsense) => {
    expect(() => solvePlate(nonsense as unknown as PlatePlan)).toThrow(/the plan: found .*cellMm, part/);
  });
});

describe('a sound plan', () => {
  it('may hold everything the types allow', () => {
    const { thermal } = loadAlloy('6061');
    const full: PlatePlan = {
      about: 'everything',
      ...smallPlan(),
      part: [
        region,
        {
          shape: { circleMm: [5, 5, 3] },
          thicknessMm: 4,
          metal: {
            densityKgPerM3: thermal.densityKgPerM3.value,
            conductivityWPerMK: thermal.conductivityTable!,
            specificHeatJPerKgK: { tempC: [20, 300], value: [900, 1000], source: 'measured' },
            latentHeatJPerKg: thermal.latentHeatJPerKg.value,
            solidusC: thermal.solidusC.value,
            liquidusC: thermal.liquidusC.value,
          },
        },
      ],
      surface: { ...surface, rim: 'insulated' },
      contacts: [{ ...contact, name: 'clamp', shape: region.shape, bodyHeatJPerK: 800, faces: 2 }],
      preheat: [
        {
          shape: {
            polygonMm: [
              [0, 0],
              [9, 0],
              [0, 9],
            ],
          },
          tempC: 80,
        },
      ],
      passes: [
        { ...pass, name: 'root', startAfter: { waitS: 5 } },
        {
          ...pass,
          sourceRadiusMm: { acrossMm: 4, aheadMm: 4, behindMm: 6 },
          startAfter: { waitS: 5, interpassC: 90, atProbe: 'near' },
        },
      ],
      probes: [
        ...smallPlan().probes,
        ...traverse({ name: 'line', fromMm: [30, 20], towardMm: [30, 40], distancesMm: [4, 8] }),
      ],
      until: { coolToC: 60 },
    };
    expect(() => checkPlan(full)).not.toThrow();
    expect(() => checkPlan(plan as unknown as PlatePlan)).not.toThrow();
  });
});

describe('the area of hottestMetal', () => {
  const result = solvePlate(smallPlan({ passes: [], until: { coolForS: 0 } }));
  it.each<[unknown, RegExp]>([
    [{ rect: [0, 0, 9, 9] }, /rect: found a key .*rectMm/],
    [undefined, /the area: found nothing/],
    [{ rectMm: [9, 0, 0, 9] }, /shape of the area has no area/],
  ])('%j is refused in words', (area, message) => {
    expect(() => hottestMetal(result, area as PlanShape)).toThrow(TemperbookError);
    expect(() => hottestMetal(result, area as PlanShape)).toThrow(message);
  });
});
