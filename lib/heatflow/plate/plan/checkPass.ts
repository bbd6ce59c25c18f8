import { requireNumber, TemperbookError } from '../../../quantity';
import { heatInput } from '../../heatInput';
import { travelMmPerS } from './passArc';
import type { AlongPath, PlatePass, PlatePlan } from './platePlan';

const POSITIVE = { low: Number.MIN_VALUE };
const TEMPERATURE = { low: -100, high: 2000 };

/** Checks the numbers of one pass. @throws TemperbookError */
export function checkPass(pass: PlatePass, name: string, plan: PlatePlan): void {
  checkPath(pass, name);
  checkPace(pass, name);
  checkPower(pass, name);
  checkRadius(pass, name, plan.cellMm);
  if (pass.fillerMm2 !== undefined)
    requireNumber(pass.fillerMm2, `fillerMm2 of ${name}`, { low: 0, high: 1000 });
  if (pass.beside) {
    requireNumber(pass.beside.share, `beside.share of ${name}`, { low: 0, high: 1 });
    if (pass.beside.path.length === 0 || (isDwell(pass.beside.path) && !isDwell(pass.path)))
      throw new TemperbookError(`The second path of ${name} has no length`, {
        found: `${pass.beside.path.length} point(s)`,
        expected: 'a path as the first has, on the other leg',
      });
  }
  checkStart(pass, name, plan);
}

const isDwell = (path: PlatePass['path']): boolean =>
  path.every(([x, y]) => x === path[0]![0] && y === path[0]![1]);

function checkPath({ path, arcOnS }: PlatePass, name: string): void {
  for (const [x, y] of path) {
    requireNumber(x, `path of ${name}`);
    requireNumber(y, `path of ${name}`);
  }
  if (path.length > 0 && (!isDwell(path) || arcOnS !== undefined)) return;
  throw new TemperbookError(`The path of ${name} has no length`, {
    found: `${path.length} point(s)`,
    expected: 'at least two different points; for a tack or a torch that stays, one point and arcOnS',
  });
}

function checkPace(pass: PlatePass, name: string): void {
  const given = (['travelMmPerS', 'travelMmPerMin', 'arcOnS'] as const).filter(
    (key) => pass[key] !== undefined,
  );
  if (given.length !== 1)
    throw new TemperbookError(`${name} needs one pace`, {
      found: given.length === 0 ? 'none' : given.map((key) => `${key} ${pass[key]}`).join(' and '),
      expected: 'one of travelMmPerS, travelMmPerMin, arcOnS',
    });
  if (pass.arcOnS !== undefined) {
    requireNumber(pass.arcOnS, `arcOnS of ${name}`, { ...POSITIVE, high: 1e5 });
    return;
  }
  if (isDwell(pass.path))
    throw new TemperbookError(`${name} dwells on one point and needs its time`, {
      found: `${given[0]} ${pass[given[0]!]}`,
      expected: 'arcOnS, s',
    });
  const speed = travelMmPerS(pass);
  if (!(speed > 0))
    throw new TemperbookError(`${name} has no travel speed`, {
      found: `${pass[given[0]!]} ${given[0] === 'travelMmPerMin' ? 'mm/min' : 'mm/s'}`,
      expected: 'a speed above zero',
      remedy: 'To weld the other way turn the path round; for a dwell give one point and arcOnS',
    });
  requireNumber(speed, `travel speed of ${name} in mm/s`, { ...POSITIVE, high: 1000 });
}

function checkPower(pass: PlatePass, name: string): void {
  const { netPowerW, amps, volts, process, efficiency } = pass;
  if ((netPowerW === undefined) === (amps === undefined))
    throw new TemperbookError(`${name} needs its heat once`, {
      found: netPowerW === undefined ? 'neither netPowerW nor amps' : 'netPowerW beside amps',
      expected: 'netPowerW, or amps with volts and process',
    });
  if (netPowerW !== undefined) {
    if (volts !== undefined || efficiency !== undefined)
      throw new TemperbookError(
        `${name} gives netPowerW beside ${volts === undefined ? 'an efficiency' : 'volts'}`,
        {
          remedy: 'netPowerW is what enters the part: give it alone, or amps, volts and process',
        },
      );
    for (const watt of valuesOf(netPowerW, `netPowerW of ${name}`))
      requireNumber(watt, `netPowerW of ${name}`, { ...POSITIVE, high: 1e6 });
    return;
  }
  if (volts === undefined || process === undefined)
    throw new TemperbookError(`${name} gives amps without ${volts === undefined ? 'volts' : 'the process'}`, {
      expected: 'amps with volts and process',
    });
  for (const ampere of valuesOf(amps!, `amps of ${name}`))
    heatInput({ amps: ampere, volts, process, travelMmPerS: 1 });
  if (efficiency !== undefined) requireNumber(efficiency, `efficiency of ${name}`, { low: 0.05, high: 1 });
}

function valuesOf(along: number | AlongPath, what: string): readonly number[] {
  if (typeof along === 'number') return [along];
  const { atMm, value } = along;
  if (atMm.length !== value.length || atMm.length === 0)
    throw new TemperbookError(`The curve of ${what} needs as many values as places, and at least one`, {
      found: `${atMm.length} places and ${value.length} values`,
    });
  for (const [i, mm] of atMm.entries())
    requireNumber(mm, `place ${i + 1} of ${what}`, { low: i > 0 ? atMm[i - 1]! + 1e-9 : 0 });
  return value;
}

function checkRadius({ sourceRadiusMm: radius }: PlatePass, name: string, cellMm: number): void {
  const radii = typeof radius === 'number' ? [radius] : [radius.acrossMm, radius.aheadMm, radius.behindMm];
  for (const mm of radii) {
    requireNumber(mm, `sourceRadiusMm of ${name}`, { ...POSITIVE, high: 1000 });
    if (mm < cellMm)
      throw new TemperbookError(`The cells are too coarse for the arc of ${name}`, {
        found: `cells of ${cellMm} mm and a source radius of ${mm} mm`,
        expected: 'cells no larger than the radius, better half of it',
        remedy: `Choose cells of ${Number((mm / 2).toPrecision(2))} mm`,
      });
  }
}

function checkStart({ startAfter }: PlatePass, name: string, { probes }: PlatePlan): void {
  const { waitS = 0, interpassC, atProbe } = startAfter ?? {};
  requireNumber(waitS, `waitS of ${name}`, { low: 0, high: 1e6 });
  if (interpassC === undefined) return;
  requireNumber(interpassC, `interpassC of ${name}`, TEMPERATURE);
  if (!probes.some((probe) => probe.name === atProbe))
    throw new TemperbookError(`${name} waits for a probe that the plan does not have`, {
      found: `"${atProbe}"`,
      expected: probes.length ? `one of ${probes.map((probe) => `"${probe.name}"`).join(', ')}` : 'a probe',
    });
}
