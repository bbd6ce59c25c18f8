import { dataCheck, refuseProblems, requireNumber, TemperbookError } from '../../../quantity';
import { requireThickness } from '../../requireThickness';
import { checkShape } from './checkShape';
import { planSchema } from './planSchema';
import type { PlatePass, PlatePlan } from './platePlan';
import { boundsOf } from './shape';

const MOST_CELLS = 4_000_000;
const TEMPERATURE = { low: -100, high: 2000 };
const problemsOfForm = dataCheck(planSchema, 'the plan');

/**
 * Checks the form of a plan, then every number of it that can be judged without cutting it into cells.
 * @throws TemperbookError
 */
export function checkPlan(plan: PlatePlan): void {
  refuseProblems('This plan', problemsOfForm(plan));
  const cellMm = requireNumber(plan.cellMm, 'cellMm', { low: 0.01, high: 1000 });
  for (const [i, region] of plan.part.entries()) {
    const name = region.name ?? `region ${i + 1}`;
    checkShape(region.shape, name);
    requireNumber(region.thicknessMm, `thicknessMm of ${name}`, { low: 0, high: 1000 });
    if (region.thicknessMm > 0) requireThickness(region.thicknessMm, `thicknessMm of ${name}`);
  }
  if (!plan.part.some((region) => region.thicknessMm > 0))
    throw new TemperbookError('The plan has no part', { expected: 'at least one region with a thickness' });
  const solid = plan.part.filter((region) => region.thicknessMm > 0).map((region) => boundsOf(region.shape));
  const span = (low: 0 | 1, high: 2 | 3) =>
    Math.max(...solid.map((b) => b[high])) - Math.min(...solid.map((b) => b[low]));
  const cells = (span(0, 2) / cellMm) * (span(1, 3) / cellMm);
  if (cells > MOST_CELLS)
    throw new TemperbookError('The plan has more cells than can be computed', {
      found: `${Math.round(cells)} cells of ${cellMm} mm`,
      expected: `at most ${MOST_CELLS}`,
      remedy: 'Choose larger cells or a smaller piece of the part',
    });
  const { convectionWPerM2K, emissivity, ambientC } = plan.surface;
  requireNumber(convectionWPerM2K, 'convectionWPerM2K', { low: 0, high: 1e5 });
  requireNumber(emissivity, 'emissivity', { low: 0, high: 1 });
  requireNumber(ambientC, 'ambientC', TEMPERATURE);
  for (const [i, contact] of (plan.contacts ?? []).entries()) {
    const name = contact.name ?? `contact ${i + 1}`;
    checkShape(contact.shape, name);
    requireNumber(contact.conductanceWPerM2K, `conductanceWPerM2K of ${name}`, { low: 0, high: 1e9 });
    requireNumber(contact.bodyC, `bodyC of ${name}`, { ...TEMPERATURE, low: -273.15 });
    if (contact.bodyHeatJPerK !== undefined)
      requireNumber(contact.bodyHeatJPerK, `bodyHeatJPerK of ${name}`, { low: 1e-3 });
  }
  requireNumber(plan.initialC, 'initialC', TEMPERATURE);
  for (const [i, { shape, tempC }] of (plan.preheat ?? []).entries()) {
    checkShape(shape, `preheat area ${i + 1}`);
    requireNumber(tempC, `tempC of preheat area ${i + 1}`, TEMPERATURE);
  }
  const names = plan.probes.map((probe) => probe.name);
  for (const [i, { name, xMm, yMm }] of plan.probes.entries()) {
    requireNumber(xMm, `xMm of probe "${name}"`);
    requireNumber(yMm, `yMm of probe "${name}"`);
    if (names.indexOf(name) !== i)
      throw new TemperbookError('Two probes have the same name', { found: `"${name}"` });
  }
  for (const [i, pass] of plan.passes.entries()) checkPass(pass, pass.name ?? `pass ${i + 1}`, plan);
  if ('coolForS' in plan.until) requireNumber(plan.until.coolForS, 'coolForS', { low: 0, high: 1e6 });
  else requireNumber(plan.until.coolToC, 'coolToC', TEMPERATURE);
}

function checkPass(pass: PlatePass, name: string, { cellMm, probes }: PlatePlan): void {
  const positive = { low: Number.MIN_VALUE };
  if (!(pass.travelMmPerS > 0))
    throw new TemperbookError(`${name} has no travel speed`, {
      found: `${pass.travelMmPerS} mm/s`,
      expected: 'a speed above zero',
      remedy: 'For a dwell give a short path and the speed that takes the dwell time',
    });
  requireNumber(pass.travelMmPerS, `travelMmPerS of ${name}`, { ...positive, high: 1000 });
  requireNumber(pass.netPowerW, `netPowerW of ${name}`, { ...positive, high: 1e6 });
  for (const [x, y] of pass.path) {
    requireNumber(x, `path of ${name}`);
    requireNumber(y, `path of ${name}`);
  }
  const [start, ...rest] = pass.path;
  if (!start || rest.every(([x, y]) => x === start[0] && y === start[1]))
    throw new TemperbookError(`The path of ${name} has no length`, {
      found: `${pass.path.length} point(s)`,
      expected: 'at least two different points',
    });
  const radius = pass.sourceRadiusMm;
  const radii = typeof radius === 'number' ? [radius] : [radius.acrossMm, radius.aheadMm, radius.behindMm];
  for (const mm of radii) {
    requireNumber(mm, `sourceRadiusMm of ${name}`, { ...positive, high: 1000 });
    if (mm < cellMm)
      throw new TemperbookError(`The cells are too coarse for the arc of ${name}`, {
        found: `cells of ${cellMm} mm and a source radius of ${mm} mm`,
        expected: 'cells no larger than the radius, better half of it',
        remedy: `Choose cells of ${Number((mm / 2).toPrecision(2))} mm`,
      });
  }
  const { waitS = 0, interpassC, atProbe } = pass.startAfter ?? {};
  requireNumber(waitS, `waitS of ${name}`, { low: 0, high: 1e6 });
  if (interpassC === undefined) return;
  requireNumber(interpassC, `interpassC of ${name}`, TEMPERATURE);
  if (!probes.some((probe) => probe.name === atProbe))
    throw new TemperbookError(`${name} waits for a probe that the plan does not have`, {
      found: `"${atProbe}"`,
      expected: probes.length ? `one of ${probes.map((probe) => `"${probe.name}"`).join(', ')}` : 'a probe',
    });
}
