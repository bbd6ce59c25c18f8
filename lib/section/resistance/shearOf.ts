import type { SectionBody } from '../shape/sectionBody';
import { shearStressPerN } from '../shape/shear';
import type { Torsion } from '../shape/torsionConstants';
import type { ShearStress } from './sectionCheck';

/** Shear of a load on full metal; what a direction costs is worked out once, and only if it is loaded. */
export function shearOf(body: SectionBody, torsion: () => Torsion): ShearStress {
  const known = new Map<'x' | 'y', number>();
  const perN = (direction: 'x' | 'y'): number => {
    const value = known.get(direction) ?? shearStressPerN(body, direction);
    known.set(direction, value);
    return value;
  };
  return ({ shearXN, shearYN, torsionNmm }) => {
    let tau = 0;
    if (shearXN !== 0) tau += Math.abs(shearXN) * perN('x');
    if (shearYN !== 0) tau += Math.abs(shearYN) * perN('y');
    if (torsionNmm !== 0) tau += Math.abs(torsionNmm) * torsion().stressPerNmm;
    return tau;
  };
}
