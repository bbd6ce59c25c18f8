import { celsiusToKelvin, dataCheck, refuseProblems, requireNumber, TemperbookError } from '../../quantity';
import { STEFAN_BOLTZMANN } from '../surfaceLoss';
import type { HeatPulse, LumpedJob } from './lumpedJob';
import { lumpedSchema } from './lumpedSchema';

/** A checked job as arrays: part i of n. */
export interface LumpedSystem {
  readonly startC: Float64Array;
  /** J/K. */
  readonly capacity: Float64Array;
  /** W/K between parts, row by row, symmetric. */
  readonly conductance: readonly Float64Array[];
  readonly pulses: readonly (HeatPulse & { readonly index: number })[];
  /** Heat lost through the skin of part i, W, and its slope, W/K. */
  loss(i: number, tempC: number): { readonly watts: number; readonly slope: number };
}

const problemsOfForm = dataCheck(lumpedSchema, 'the job');

/** Checks a job and lays it out. */
export function lumpedSystem(job: LumpedJob): LumpedSystem {
  refuseProblems('This job', problemsOfForm(job));
  const { parts, links = [], pulses = [], surroundingsC } = job;
  if (parts.length === 0) throw new TemperbookError('A network needs at least one part');
  requireNumber(job.untilS, 'untilS', { low: Number.MIN_VALUE });
  requireNumber(surroundingsC, 'surroundingsC', { low: -100, high: 1000 });
  const names = parts.map((part) => part.name);
  const twice = names.find((name, i) => names.indexOf(name) !== i);
  if (twice !== undefined) throw new TemperbookError(`Two parts are called "${twice}"`);
  const indexOf = (name: string) => {
    const index = names.indexOf(name);
    if (index >= 0) return index;
    throw new TemperbookError(`No part is called "${name}"`, { expected: `one of ${names.join(', ')}` });
  };

  const conductance = parts.map(() => new Float64Array(parts.length));
  for (const { between, conductanceWPerK } of links) {
    const [a, b] = [indexOf(between[0]), indexOf(between[1])];
    if (a === b) throw new TemperbookError(`A link joins "${between[0]}" to itself`);
    requireNumber(conductanceWPerK, `The conductance between ${between.join(' and ')}`, { low: 0 });
    conductance[a]![b]! += conductanceWPerK;
    conductance[b]![a]! += conductanceWPerK;
  }
  for (const { part, fromS, toS, powerW } of pulses) {
    requireNumber(powerW, `The power of a pulse into ${part}`);
    if (!(fromS >= 0 && toS > fromS && toS < Infinity))
      throw new TemperbookError(`A pulse into ${part} has no time to act`, {
        found: `from ${fromS} s to ${toS} s`,
        expected: 'a start of 0 s or later and an end after it',
      });
  }

  const ambientFourth = celsiusToKelvin(surroundingsC) ** 4;
  const positive = { low: Number.MIN_VALUE };
  const skins = parts.map(({ name, surface }) => {
    const film = requireNumber(surface?.filmWPerM2K ?? 0, `The film coefficient of ${name}`, { low: 0 });
    const emissivity = requireNumber(surface?.emissivity ?? 0, `The emissivity of ${name}`, {
      low: 0,
      high: 1,
    });
    const area = requireNumber(surface?.areaMm2 ?? 0, `The skin of ${name}`, { low: 0 }) / 1e6;
    return { convection: film * area, radiation: emissivity * STEFAN_BOLTZMANN * area };
  });
  return {
    startC: Float64Array.from(parts, (p) =>
      requireNumber(p.startC, `The start of ${p.name}`, { low: -200, high: 2000 }),
    ),
    capacity: Float64Array.from(
      parts,
      (p) =>
        requireNumber(p.massKg, `The mass of ${p.name}`, positive) *
        requireNumber(p.specificHeatJPerKgK, `The specific heat of ${p.name}`, { low: 50, high: 20_000 }),
    ),
    conductance,
    pulses: pulses.map((pulse) => ({ ...pulse, index: indexOf(pulse.part) })),
    loss: (i, tempC) => {
      const { convection, radiation } = skins[i]!;
      const kelvin = celsiusToKelvin(tempC);
      return {
        watts: convection * (tempC - surroundingsC) + radiation * (kelvin ** 4 - ambientFourth),
        slope: convection + 4 * radiation * kelvin ** 3,
      };
    },
  };
}
