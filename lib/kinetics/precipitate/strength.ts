import type { PrecipitateParameters } from './parameters';
import { type ClassBuffer, meanPower } from './sizeClasses';

/** What the size classes add up to. */
export interface ParticleSums {
  readonly numberPerM3: number;
  readonly volumeFraction: number;
  /** Number mean of the radius, m; 0 without particles. */
  readonly meanRadiusM: number;
  /** Number mean of min(r / r_c, 1). */
  readonly meanObstacle: number;
  /** The same, weighted by r: the chance that a slip plane meets the particle. */
  readonly metObstacle: number;
}

/** Adds up the size classes; means within a class are exact for an even spread over ln r. */
export function particleSums({ count, edgeLn, perM3 }: ClassBuffer, shearRadiusM: number): ParticleSums {
  let number = 0;
  let cube = 0;
  let radius = 0;
  let obstacle = 0;
  let met = 0;
  let low = count > 0 ? Math.exp(edgeLn[0]!) : 0;
  for (let i = 0; i < count; i++) {
    const high = Math.exp(edgeLn[i + 1]!);
    const n = perM3[i]!;
    if (n > 0) {
      const width = edgeLn[i + 1]! - edgeLn[i]!;
      number += n;
      cube += n * meanPower(low * low * low, high * high * high, width, 3);
      radius += n * meanPower(low, high, width, 1);
      const each = meanObstacle(low, high, width, shearRadiusM);
      obstacle += n * each;
      met += n * each * meanPower(low, high, width, 1);
    }
    low = high;
  }
  return number > 0
    ? {
        numberPerM3: number,
        volumeFraction: (4 / 3) * Math.PI * cube,
        meanRadiusM: radius / number,
        meanObstacle: obstacle / number,
        metObstacle: met / radius,
      }
    : { numberPerM3: 0, volumeFraction: 0, meanRadiusM: 0, meanObstacle: 0, metObstacle: 0 };
}

/** Mean of min(r / r_c, 1) over a class. */
function meanObstacle(low: number, high: number, widthLn: number, shear: number): number {
  if (low >= shear) return 1;
  if (high <= shear) return meanPower(low, high, widthLn, 1) / shear;
  return ((shear - low) / shear + Math.log(high / shear)) / widthLn;
}

/**
 * Strength from particles, MPa: σp = M/(b r̄) (2βGb²)^(−1/2) (3f/2π)^(1/2) F̄^(3/2) with F = 2βGb² min(r/r_c, 1):
 * sheared below r_c, bypassed above. (3f/2π)^(1/2)/r̄ is (2 N r̄)^(1/2), the particles per length of slip plane, for
 * particles of one size; the slip-plane average uses that, and the F of the particles met.
 */
export function particleStrengthMPa(p: PrecipitateParameters, sums: ParticleSums): number {
  if (sums.numberPerM3 === 0) return 0;
  const lineForce = 2 * p.lineTension * p.shearModulusPa * p.burgersM ** 2;
  const perLength = p.slipPlaneAverage
    ? Math.sqrt(2 * sums.numberPerM3 * sums.meanRadiusM)
    : Math.sqrt((3 * sums.volumeFraction) / (2 * Math.PI)) / sums.meanRadiusM;
  const obstacle = p.slipPlaneAverage ? sums.metObstacle : sums.meanObstacle;
  return (((p.taylorFactor * lineForce) / p.burgersM) * perLength * obstacle ** 1.5) / 1e6;
}

/** Strength from solute, MPa: σss = Σ k C^(2/3), C in wt % of the matrix. */
export function solutionStrengthMPa(
  { solutionMPa: k }: PrecipitateParameters,
  wtPct: { readonly Mg: number; readonly Si: number; readonly Cu: number },
): number {
  return k.Mg * wtPct.Mg ** (2 / 3) + k.Si * wtPct.Si ** (2 / 3) + k.Cu * wtPct.Cu ** (2 / 3);
}
