import type { Point } from './moments';

/** How a section resists twisting. */
export interface Torsion {
  /** Saint-Venant torsion constant J, mm⁴. */
  readonly constantMm4: number;
  /** Largest shear stress per unit of torque, 1/mm³: τ = T times this. */
  readonly stressPerNmm: number;
  /** A sharp inner corner of an outline, where the stress has no bound. */
  readonly sharpAtMm?: Point;
}
