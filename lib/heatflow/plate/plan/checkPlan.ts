import { dataCheck, refuseProblems, requireNumber, TemperbookError } from '../../../quantity';
import { requireThickness } from '../../requireThickness';
import { checkJoins } from './checkJoins';
import { checkMoments } from './checkMoments';
import { checkPass } from './checkPass';
import { checkShape } from './checkShape';
import { checkWaits } from './checkWaits';
import { planSchema } from './planSchema';
import type { PlatePlan } from './platePlan';
import { boundsOf } from './shape';

const MOST_CELLS = 4_000_000;
const MOST_LAYERS = 32;
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
    if (region.topMm !== undefined)
      requireNumber(region.topMm, `topMm of ${name}`, { low: -1000, high: 1000 });
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
  if (plan.layers !== undefined && plan.layers !== 'auto') {
    requireNumber(plan.layers as number, 'layers', { low: 1, high: MOST_LAYERS });
    if (!Number.isInteger(plan.layers))
      throw new TemperbookError('Layers are counted whole', {
        found: String(plan.layers),
        expected: '1 to 32',
      });
  }
  const names = plan.probes.map((probe) => probe.name);
  for (const [i, { name, xMm, yMm, depthMm, face }] of plan.probes.entries()) {
    if (depthMm !== undefined) {
      requireNumber(depthMm, `depthMm of probe "${name}"`, { low: 0, high: 1000 });
      if (face !== undefined)
        throw new TemperbookError(`Probe "${name}" has a face and a depth`, { remedy: 'Give one of them' });
    }
    requireNumber(xMm, `xMm of probe "${name}"`);
    requireNumber(yMm, `yMm of probe "${name}"`);
    if (names.indexOf(name) !== i)
      throw new TemperbookError('Two probes have the same name', { found: `"${name}"` });
  }
  for (const [i, pass] of plan.passes.entries()) checkPass(pass, pass.name ?? `pass ${i + 1}`, plan);
  checkJoins(plan);
  checkMoments(plan);
  if ('coolForS' in plan.until) requireNumber(plan.until.coolForS, 'coolForS', { low: 0, high: 1e6 });
  else requireNumber(plan.until.coolToC, 'coolToC', TEMPERATURE);
  checkWaits(plan);
}
