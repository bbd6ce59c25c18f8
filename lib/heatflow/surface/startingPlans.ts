import { loadAlloy } from '../../alloy';
import { formatTemp } from '../../quantity';
import { alloyAt, nearestWeld } from '../hottestMetal';
import type { PlanPoint, PlanShape, PlatePass, PlatePlan } from '../plate';

/** A way to run a job, by name. */
export interface StartingPlan {
  readonly name: string;
  readonly plan: PlatePlan;
}

const COOL_C = 50;
/** A copper or aluminium bar beside the weld, put on with paste: about 2,000 W/m²K, 1.5 kJ/K; from here to there, mm. */
const CHILL = { fromMm: 25, toMm: 40, conductanceWPerM2K: 2000, bodyHeatJPerK: 1500 } as const;
/** A pass of skip order is cut into so many pieces, welded first, last, middle. */
const SKIP_ORDER = [0, 2, 1] as const;
/** A probe for an interpass limit stays so far from the weld, mm. */
const PROBE_FROM_MM = 8;
/** Without a wait of its own a split pass waits so long for its second half, s. */
const SPLIT_WAIT_S = 60;

/**
 * Ways to run a job that a shop would try first, to be compared (`comparePlans`): as drawn; each pass after the first waits
 * until the part is down to 50 °C; a chill bar beside the weld on the casting; each pass in three pieces, the ends
 * before the middle; every pass in two of half the heat, with a wait between. A way the plan has no room for is left out.
 */
export function startingPlans(plan: PlatePlan): StartingPlan[] {
  const chilled = withChill(plan);
  return [
    { name: 'as drawn', plan },
    ...(plan.passes.length > 1
      ? [{ name: `wait to ${formatTemp(COOL_C)}`, plan: waitsFor(plan, COOL_C) }]
      : []),
    ...(chilled ? [{ name: 'chill bar', plan: chilled }] : []),
    { name: 'skip order', plan: { ...plan, passes: plan.passes.flatMap(skipped) } },
    { name: 'smaller passes', plan: { ...plan, passes: plan.passes.flatMap(halved) } },
  ];
}

function waitsFor(plan: PlatePlan, interpassC: number): PlatePlan {
  const asked = plan.passes.find(({ startAfter }) => startAfter?.atProbe)?.startAfter?.atProbe;
  const near = plan.probes
    .map((probe) => ({ probe, mm: nearestWeld(plan, [probe.xMm, probe.yMm]).distanceMm }))
    .filter(({ mm }) => mm >= PROBE_FROM_MM)
    .sort((a, b) => a.mm - b.mm)[0]?.probe.name;
  const spot = asked === undefined && near === undefined ? beside(plan, CHILL.fromMm) : undefined;
  const atProbe = asked ?? near ?? 'interpass';
  return {
    ...plan,
    ...(spot ? { probes: [...plan.probes, { name: atProbe, xMm: spot[0], yMm: spot[1] }] } : {}),
    passes: plan.passes.map((pass, k) => (k === 0 ? pass : { ...pass, startAfter: { interpassC, atProbe } })),
  };
}

/** A bar along the longest leg of the first pass, on the casting where there is one beside it. */
function withChill(plan: PlatePlan): PlatePlan | undefined {
  const side = sideOf(plan, (CHILL.fromMm + CHILL.toMm) / 2);
  if (!side) return undefined;
  const { from, to, normal } = side;
  const at = ([x, y]: PlanPoint, mm: number): PlanPoint => [x + mm * normal[0], y + mm * normal[1]];
  const shape: PlanShape = {
    polygonMm: [at(from, CHILL.fromMm), at(to, CHILL.fromMm), at(to, CHILL.toMm), at(from, CHILL.toMm)],
  };
  const bar = {
    name: 'chill bar',
    shape,
    conductanceWPerM2K: CHILL.conductanceWPerM2K,
    bodyC: plan.initialC,
    bodyHeatJPerK: CHILL.bodyHeatJPerK,
  };
  return { ...plan, contacts: [...(plan.contacts ?? []), bar] };
}

function sideOf(
  plan: PlatePlan,
  mm: number,
): { readonly from: PlanPoint; readonly to: PlanPoint; readonly normal: PlanPoint } | undefined {
  const legs = plan.passes.flatMap(({ path }) =>
    path
      .slice(1)
      .map((to, i) => ({ from: path[i]!, to, mm: Math.hypot(to[0] - path[i]![0], to[1] - path[i]![1]) })),
  );
  const leg = legs.sort((a, b) => b.mm - a.mm)[0];
  if (!leg || leg.mm === 0) return undefined;
  const { from, to } = leg;
  const [nx, ny] = [-(to[1] - from[1]) / leg.mm, (to[0] - from[0]) / leg.mm];
  const sides = ([1, -1] as const).flatMap((way) => {
    const normal: PlanPoint = [way * nx, way * ny];
    const middle: PlanPoint = [
      (from[0] + to[0]) / 2 + mm * normal[0],
      (from[1] + to[1]) / 2 + mm * normal[1],
    ];
    const alloy = alloyAt(plan, middle);
    return alloy === undefined ? [] : [{ from, to, normal, alloy }];
  });
  return sides.find(({ alloy }) => loadAlloy(alloy).family === 'Al-Si-Mg casting') ?? sides[0];
}

function beside(plan: PlatePlan, mm: number): PlanPoint | undefined {
  const side = sideOf(plan, mm);
  if (!side) return undefined;
  const { from, to, normal } = side;
  return [(from[0] + to[0]) / 2 + mm * normal[0], (from[1] + to[1]) / 2 + mm * normal[1]];
}

/** A pass in pieces, the ends before the middle; only the first waits as the pass did. A dwell stays as it is. */
function skipped(pass: PlatePass, index: number): PlatePass[] {
  const { path, arcOnS, name = `pass ${index + 1}`, startAfter, beside: second, ...rest } = pass;
  if (path.length !== 2 || second || typeof pass.amps === 'object' || typeof pass.netPowerW === 'object')
    return [pass];
  const pieces = SKIP_ORDER.length;
  const at = (share: number): PlanPoint => [
    path[0]![0] + share * (path[1]![0] - path[0]![0]),
    path[0]![1] + share * (path[1]![1] - path[0]![1]),
  ];
  return SKIP_ORDER.map((piece, k) => ({
    ...rest,
    name: `${name}, piece ${k + 1}`,
    path: [at(piece / pieces), at((piece + 1) / pieces)],
    ...(arcOnS === undefined ? {} : { arcOnS: arcOnS / pieces }),
    ...(k === 0 && startAfter ? { startAfter } : {}),
  }));
}

/** A pass in two, each twice as fast and with half the filler; the second waits as the pass did. */
function halved(pass: PlatePass, index: number): PlatePass[] {
  const { name = `pass ${index + 1}`, travelMmPerS, travelMmPerMin, arcOnS, fillerMm2, startAfter } = pass;
  const half: PlatePass = {
    ...pass,
    ...(travelMmPerS === undefined ? {} : { travelMmPerS: 2 * travelMmPerS }),
    ...(travelMmPerMin === undefined ? {} : { travelMmPerMin: 2 * travelMmPerMin }),
    ...(arcOnS === undefined ? {} : { arcOnS: arcOnS / 2 }),
    ...(fillerMm2 === undefined ? {} : { fillerMm2: fillerMm2 / 2 }),
  };
  return [
    { ...half, name: `${name}, first half` },
    {
      ...half,
      name: `${name}, second half`,
      startAfter: index > 0 && startAfter ? startAfter : { waitS: SPLIT_WAIT_S },
    },
  ];
}
