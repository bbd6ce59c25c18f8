import { outlineTorsion } from './outlineTorsion';
import { type SectionBody, sectionBody } from './sectionBody';
import type { SectionShape } from './sectionShape';
import type { Torsion } from './torsionConstants';
import { lengthOf } from './wall';

/**
 * Saint-Venant torsion, warping free:
 *
 * - round tube, exact: J = π(D⁴ − d⁴)/32, τ = T D/(2 J);
 * - other closed sections, thin walls (Bredt): J = 4 A_m²/∮ds/t, τ = T/(2 A_m t), A_m inside the mid-line;
 * - flat bar, exact series (Saint-Venant): J = β b t³, β → 1/3;
 * - open sections: the sum of their walls as flat bars, τ = T t_max/J at the thickest;
 * - solid outlines: Prandtl's stress function by finite elements, see `outlineTorsion`.
 *
 * Bredt is good to a few per cent up to walls of a tenth
 * of the width. Source: S. Timoshenko & J. N. Goodier, Theory of Elasticity, ch. 10. A bar 2 : 1 has β = 0.229
 * and τ = T/(0.246 b t²).
 */
export function torsionOf(shape: SectionShape, body: SectionBody = sectionBody(shape)): Torsion {
  if (body.walls.length === 0) return outlineTorsion(body.solid);
  if (shape.kind === 'round tube') {
    const [outer, inner] = [shape.outsideMm, shape.outsideMm - 2 * shape.wallMm];
    const constantMm4 = (Math.PI * (outer ** 4 - inner ** 4)) / 32;
    return { constantMm4, stressPerNmm: outer / 2 / constantMm4 };
  }
  if (body.enclosedMm2 !== undefined) {
    const around = body.walls.reduce((sum, w) => sum + lengthOf(w) / w.thicknessMm, 0);
    const thinnest = Math.min(...body.walls.map((w) => w.thicknessMm));
    return {
      constantMm4: (4 * body.enclosedMm2 ** 2) / around,
      stressPerNmm: 1 / (2 * body.enclosedMm2 * thinnest),
    };
  }
  const bars = body.walls.map((w) => flatBar(lengthOf(w), w.thicknessMm));
  const constantMm4 = bars.reduce((sum, bar) => sum + bar.constantMm4, 0);
  // All walls twist alike: each carries its share J_i/J.
  return {
    constantMm4,
    stressPerNmm: Math.max(...bars.map((bar) => (bar.stressPerNmm * bar.constantMm4) / constantMm4)),
  };
}

/** Saint-Venant's series for a rectangle; twenty odd terms leave less than 1e-6. */
function flatBar(widthMm: number, thicknessMm: number): Torsion {
  const [b, t] = [Math.max(widthMm, thicknessMm), Math.min(widthMm, thicknessMm)];
  let [stiff, peak] = [0, 0];
  for (let n = 1; n < 40; n += 2) {
    const reach = (n * Math.PI * b) / (2 * t);
    stiff += Math.tanh(reach) / n ** 5;
    peak += 1 / (n ** 2 * Math.cosh(Math.min(reach, 300)));
  }
  const constantMm4 = b * t ** 3 * (1 / 3 - (64 * t * stiff) / (Math.PI ** 5 * b));
  return { constantMm4, stressPerNmm: (t / constantMm4) * (1 - (8 / Math.PI ** 2) * peak) };
}
