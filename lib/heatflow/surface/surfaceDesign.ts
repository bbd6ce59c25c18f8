import { evenSpread } from '../../statistics';
import type { PlanKnob, PlanKnobs } from '../calibration/planKnobs';
import { knobAt } from './planUnknowns';
import { type SurfaceTerm, surfaceTerms } from './surfaceTerms';

/** Ends of the design, in standard errors. */
const AXIAL_Z = 2.2;
const CUBE_Z = 2.2;
/** Runs for every term of the surface. */
const RUNS_PER_TERM = 2.5;

/**
 * What does as much together as all of it over the heat capacity: ∂T/∂t = ∇·(k/c ∇T) + q/c. The heat capacity by itself changes
 * only what else holds heat: what melts, what glows, a chill's body. For that a straight line will do.
 */
const IS_OVER_HEAT = new Set(['power', 'film', 'contact', 'conductivity']);
const HEAT = 'heat capacity';
/**
 * What a surface has beyond its squares. A clamp levels off at both ends of its band; so does heat that melts more, and how
 * much that is goes by conductivity and travel speed too.
 */
const BEYOND = [
  ['contact', 'contact', 'contact'],
  ['power', 'power', 'power'],
  ['power', 'power', 'conductivity'],
  ['power', 'power', 'travel speed'],
] as const;

/** Directions of the surface: the logarithm of each unknown in standard errors, what acts over the heat capacity divided by it. */
export interface Axis {
  readonly name: string;
  readonly nominal: number;
  readonly perLog: number;
  readonly overHeat?: number;
}

/** The directions a surface has, in the order of the unknowns. */
export function axesOf(unknowns: readonly PlanKnob[]): Axis[] {
  const heat = unknowns.find(({ name }) => name === HEAT);
  return unknowns.map(({ name, nominal, low, high }) => ({
    name,
    nominal,
    perLog: (2 * 1.645) / Math.log(high / low),
    ...(heat && IS_OVER_HEAT.has(name) ? { overHeat: heat.nominal } : {}),
  }));
}

/** The terms of a surface over these directions. */
export const termsOf = (axes: readonly Axis[]): readonly SurfaceTerm[] =>
  surfaceTerms(
    axes.map(({ name }) => name !== HEAT),
    BEYOND.map((names) => names.map((name) => axes.findIndex((axis) => axis.name === name))).filter((term) =>
      term.every((a) => a >= 0),
    ),
  );

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
  const spread = Math.max(4, Math.ceil(RUNS_PER_TERM * termsOf(axes).length) - ends.length - 1);
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
