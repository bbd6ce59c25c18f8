import { requireNumber, TemperbookError } from '../../quantity';
import type { Point, SectionProperties } from '../shape/moments';

/** One load case at the joint: forces and moments, or nominal stress from one's own analysis. */
export type SectionLoad = {
  readonly name?: string;
  /** The load may be this share larger or smaller; 0 unless given. */
  readonly doubtFraction?: number;
} & (ForceLoad | StressLoad);

/** Forces at the centroid of the section, N and N mm; zero unless given. */
export interface ForceLoad {
  /** Along the member, tension positive. */
  readonly axialN?: number;
  readonly shearXN?: number;
  readonly shearYN?: number;
  /** Bends about the x axis: tension at +y. */
  readonly momentXNmm?: number;
  /** Bends about the y axis: tension at +x. */
  readonly momentYNmm?: number;
  readonly torsionNmm?: number;
}

/** Nominal stress along the member on full metal at a place, and how it changes across the section. */
export interface StressLoad {
  readonly stressMPa: number;
  readonly atMm: Point;
  /** Change of the stress per mm along x and y; zero unless given. */
  readonly gradientMPaPerMm?: Point;
}

/** A load as forces, with the name and doubt of its case. */
export interface LoadCase extends Required<ForceLoad> {
  readonly name: string;
  readonly doubtFraction: number;
}

const FORCES = ['axialN', 'shearXN', 'shearYN', 'momentXNmm', 'momentYNmm', 'torsionNmm'] as const;

/**
 * Reads load cases. A nominal stress σ at a place with gradient g is the linear field of the forces N = A σ(centroid),
 * M_x = g_x I_xy + g_y I_x, M_y = g_x I_y + g_y I_xy on full metal.
 * @throws TemperbookError without a load, for a load of nothing, a key that is not known, or a doubt of all of it.
 */
export function loadCases(
  loads: SectionLoad | readonly SectionLoad[],
  full: SectionProperties,
): readonly LoadCase[] {
  const list: readonly SectionLoad[] = Array.isArray(loads) ? loads : [loads as SectionLoad];
  if (list.length === 0) throw new TemperbookError('A section is sized to at least one load');
  return list.map((load, i) => {
    const name = load.name ?? (list.length > 1 ? `case ${i + 1}` : 'the load');
    checkKeys(load, name);
    const doubtFraction = requireNumber(load.doubtFraction ?? 0, `doubtFraction of ${name}`, {
      low: 0,
      high: 0.9,
    });
    const forces = 'stressMPa' in load ? forcesOf(load, full, name) : load;
    const whole = Object.fromEntries(
      FORCES.map((key) => [
        key,
        requireNumber(forces[key] ?? 0, `${key} of ${name}`, { low: -1e12, high: 1e12 }),
      ]),
    ) as unknown as Required<ForceLoad>;
    if (FORCES.every((key) => whole[key] === 0))
      throw new TemperbookError(`${name} is no load`, {
        found: 'all forces zero',
        expected: `one of ${FORCES.join(', ')}, or stressMPa with atMm`,
      });
    return { ...whole, name, doubtFraction };
  });
}

function forcesOf(load: StressLoad, full: SectionProperties, name: string): ForceLoad {
  const stress = requireNumber(load.stressMPa, `stressMPa of ${name}`, { low: -1000, high: 1000 });
  const [gx, gy] = load.gradientMPaPerMm ?? [0, 0];
  if (!Array.isArray(load.atMm))
    throw new TemperbookError(`${name}: a nominal stress needs the place it holds for`, {
      expected: 'atMm: [x, y]',
    });
  const [xc, yc] = full.centroidMm;
  const mean = stress - gx * (load.atMm[0] - xc) - gy * (load.atMm[1] - yc);
  return {
    axialN: full.areaMm2 * mean,
    momentXNmm: gx * full.productMomentMm4 + gy * full.secondMomentXMm4,
    momentYNmm: gx * full.secondMomentYMm4 + gy * full.productMomentMm4,
  };
}

function checkKeys(load: SectionLoad, name: string): void {
  const known = [...FORCES, 'name', 'doubtFraction', 'stressMPa', 'atMm', 'gradientMPaPerMm'];
  const strange = Object.keys(load).find((key) => !known.includes(key));
  if (strange)
    throw new TemperbookError(`${name} has a key the kit does not know`, {
      found: strange,
      expected: `one of ${known.join(', ')}`,
    });
  if ('stressMPa' in load && FORCES.some((key) => key in load))
    throw new TemperbookError(`${name} gives both a stress and forces`, { remedy: 'Give one of them' });
}
