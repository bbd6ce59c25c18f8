import { evenSpread } from '../../statistics';
import type { PlanKnob, PlanKnobs } from '../calibration/planKnobs';
import { knobAt } from './planUnknowns';
import { quadraticTermCount } from './surfaceTerms';

/** Ends of the design, in standard errors. */
const AXIAL_Z = 2.2;
const CUBE_Z = 2.2;
/** Runs for every term of the surface but its cubes. */
const RUNS_PER_TERM = 2.2;

/** Factors that do as much together as all of them over the heat capacity: ∂T/∂t = ∇·(k/c ∇T) + q/c. */
const IS_OVER_HEAT = new Set(['power', 'film', 'contact', 'conductivity']);
const HEAT = 'heat capacity';
/** Of these the surface has cubes too; of others they only follow the scatter of the runs. */
const CUBED = new Set(['power', 'contact']);

/** Directions of the surface: the logarithm of each unknown in standard errors, what acts over the heat capacity divided by it. */
export interface Axis {
  readonly name: string;
  readonly nominal: number;
  readonly perLog: number;
  readonly overHeat?: number;
}

/** The directions a surface has; the heat capacity has none of its own. */
export function axesOf(unknowns: readonly PlanKnob[]): Axis[] {
  const heat = unknowns.find(({ name }) => name === HEAT);
  return unknowns
    .filter((knob) => knob !== heat)
    .map(({ name, nominal, low, high }) => ({
      name,
      nominal,
      perLog: (2 * 1.645) / Math.log(high / low),
      ...(heat && IS_OVER_HEAT.has(name) ? { overHeat: heat.nominal } : {}),
    }));
}

/** The axes of which a surface has cubes. */
export const cubedOf = (axes: readonly Axis[]): number[] =>
  axes.flatMap(({ name }, i) => (CUBED.has(name) ? [i] : []));

/** Where on the axes a job lies. */
export const pointOf = (axes: readonly Axis[], knobs: PlanKnobs): Float64Array =>
  Float64Array.from(axes, ({ name, nominal, perLog, overHeat }) => {
    const heat = overHeat === undefined ? 0 : Math.log(knobs[HEAT]! / overHeat);
    return perLog * (Math.log(knobs[name]! / nominal) - heat);
  });

/** The jobs a surface is laid through. */
export interface SurfaceDesign {
  /** The heat capacity last. */
  readonly unknowns: readonly PlanKnob[];
  readonly axes: readonly Axis[];
  readonly middle: PlanKnobs;
  /** Both ends of every unknown by itself, the first one's first, then points spread through the cube. */
  readonly around: readonly PlanKnobs[];
}

/** The design for what is not known; the same seed gives the same. */
export function surfaceDesign(given: readonly PlanKnob[], seed: number): SurfaceDesign {
  const unknowns = [
    ...given.filter((knob) => knob.name !== HEAT),
    ...given.filter((knob) => knob.name === HEAT),
  ];
  const axes = axesOf(unknowns);
  const count = unknowns.length;
  const ends = Array.from({ length: 2 * count }, (_, i) =>
    unknowns.map((_, k) => (k === i >> 1 ? (i % 2 ? AXIAL_Z : -AXIAL_Z) : 0)),
  );
  const spread = Math.max(4, Math.ceil(RUNS_PER_TERM * quadraticTermCount(axes.length)) - ends.length - 1);
  const inside = Array.from({ length: spread }, (_, i) =>
    unknowns.map((_, k) => CUBE_Z * (2 * evenSpread(i + 1000 * (seed % 900), k) - 1)),
  );
  const jobAt = (z: readonly number[]): PlanKnobs =>
    Object.fromEntries(unknowns.map((knob, k) => [knob.name, knobAt(knob, z[k]!)]));
  return {
    unknowns,
    axes,
    middle: jobAt(unknowns.map(() => 0)),
    around: [...ends, ...inside].map(jobAt),
  };
}
