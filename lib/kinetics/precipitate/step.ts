import { GAS_CONSTANT } from '../../quantity';
import { growthPaths } from './growthPaths';
import type { PrecipitateParameters } from './parameters';
import { capillaryMK } from './rates';
import { addSmallest, type ClassBuffer, classBuffer, copyBuffer } from './sizeClasses';

/** Mg in the matrix that goes with a precipitate fraction f: C = (C0 − Cp f)/(1 − f), wt %. */
export function matrixMgWtPct(
  p: PrecipitateParameters,
  totalMgWtPct: number,
  volumeFraction: number,
): number {
  return (totalMgWtPct - p.precipitateMgWtPct * volumeFraction) / (1 - volumeFraction);
}

/** One step of the size classes, `from` → `into`; returns the matrix Mg reached, wt %. */
export type Stepper = (
  from: ClassBuffer,
  mgWtPct: number,
  tempK: number,
  thetaM2: number,
  into: ClassBuffer,
) => number;

/** Radii where growth speed is worked out: below the first a particle counts as dissolved. */
const SMALLEST_LN = Math.log(0.3e-9);
const LARGEST_LN = Math.log(5e-6);
const NODES = 240;
const SPACING_LN = (LARGEST_LN - SMALLEST_LN) / (NODES - 1);

/** Nodes worked out beyond the largest particle: a step in which it grows 5 times is rejected for its error. */
const GROWTH_NODES = 40;

/** The mean matrix Mg of a step is solved to this share of itself. */
const MEAN_MG_TOLERANCE = 1e-5;
const MOST_TRIALS = 20;
/** Particles per m³ (one in a cubic centimetre) too few to open a class for. */
const NO_BIRTH_PER_M3 = 1e6;

/**
 * Makes the stepper for one alloy.
 *
 * Growth is implicit in the matrix: all particles move at the mean C̄ of the step, and C̄ must be the mean of
 * the exponential relaxation between the C before and the C that the moved particles leave behind. For short
 * steps this is the mid-point rule, for long ones (coarsening, where C follows the particles at once) C̄ is
 * simply the value that balances Mg, so no step length is unstable. The C returned is taken from the balance:
 * Mg is conserved to rounding. New particles, at the mean of the rates before and after, fill a class from the
 * radius they are born with to where the first of the step have grown.
 */
export function stepper(p: PrecipitateParameters, totalMgWtPct: number): Stepper {
  const paths = growthPaths(NODES, SPACING_LN);
  const capillary = capillaryMK(p);
  const halfPrecipitate = 0.5 * p.precipitateMgWtPct;
  const nodeM = Float64Array.from({ length: NODES }, (_, j) => Math.exp(SMALLEST_LN + j * SPACING_LN));
  const surface = new Float64Array(NODES);
  const speed = new Float64Array(NODES);
  const start = classBuffer();
  let surfaceTempK = Number.NaN;
  let surfaceNodes = 0;
  let used = 0;

  /** Mg at the particle surface per node (Gibbs–Thomson); kept while the temperature stays. */
  function setSurface(tempK: number, upTo: number): void {
    used = Math.min(NODES, upTo);
    if (tempK === surfaceTempK && used <= surfaceNodes) return;
    surfaceTempK = tempK;
    surfaceNodes = used;
    const solvus = Math.log(p.solvusWtPct) - p.solvusJPerMol / (GAS_CONSTANT * tempK);
    for (let j = 0; j < used; j++)
      surface[j] = Math.min(Math.exp(solvus + capillary / (nodeM[j]! * tempK)), halfPrecipitate);
  }

  /** d(ln r)/dθ = (C − Ci)/(Cp − Ci)/r² at each node. */
  function setSpeed(mg: number): void {
    for (let j = 0; j < used; j++) {
      const ci = surface[j]!;
      const r = nodeM[j]!;
      speed[j] = (mg - ci) / ((p.precipitateMgWtPct - ci) * r * r);
    }
    paths.set(speed, used);
  }

  /** Moves the edges of `start` into `into`; what falls below the smallest radius is gone. */
  function move(thetaM2: number, into: ClassBuffer): void {
    into.count = 0;
    let survivors = 0;
    while (survivors <= start.count) {
      const moved = paths.ahead((start.edgeLn[survivors]! - SMALLEST_LN) / SPACING_LN, thetaM2);
      if (moved >= 0) {
        into.edgeLn[0] = SMALLEST_LN + moved * SPACING_LN;
        break;
      }
      survivors++;
    }
    if (survivors > start.count) return;
    let k = 0;
    if (survivors > 0) {
      // Of the class that straddles the smallest radius only the upper part is left.
      const from = SMALLEST_LN + paths.survivorBefore(thetaM2) * SPACING_LN;
      const low = start.edgeLn[survivors - 1]!;
      const high = start.edgeLn[survivors]!;
      const kept = Math.max(0, Math.min(1, (high - from) / (high - low)));
      into.edgeLn[1] = into.edgeLn[0]!;
      into.edgeLn[0] = SMALLEST_LN;
      into.perM3[0] = start.perM3[survivors - 1]! * kept;
      k = into.edgeLn[1]! > SMALLEST_LN && kept > 0 ? 1 : 0;
      if (k === 0) into.edgeLn[0] = into.edgeLn[1]!;
    }
    for (let i = survivors; i < start.count; i++, k++) {
      into.perM3[k] = start.perM3[i]!;
      into.edgeLn[k + 1] =
        SMALLEST_LN + SPACING_LN * paths.ahead((start.edgeLn[i + 1]! - SMALLEST_LN) / SPACING_LN, thetaM2);
    }
    into.count = k;
  }

  /** How fast the particles can move Mg: relaxation number of the matrix over the step. */
  function relaxation(thetaM2: number): number {
    let sum = 0;
    for (let i = 0; i < start.count; i++)
      sum += start.perM3[i]! * Math.exp(0.5 * (start.edgeLn[i]! + start.edgeLn[i + 1]!));
    return 4 * Math.PI * thetaM2 * sum;
  }

  /** Births per m³ in θ and the ln of their radius, 1.05 r*; none below the solvus. */
  function births(mg: number, tempK: number): { perTheta: number; radiusLn: number } {
    const drive = Math.log(mg / p.solvusWtPct) + p.solvusJPerMol / (GAS_CONSTANT * tempK);
    if (!(drive > 0)) return { perTheta: 0, radiusLn: LARGEST_LN };
    const barrier = (p.nucleationJPerMol / (GAS_CONSTANT * tempK)) ** 3 / drive ** 2;
    return {
      perTheta: (p.nucleationPerM3S / p.diffusivityM2PerS) * Math.exp(-barrier),
      radiusLn: Math.log((p.nucleusOverCritical * capillary) / (tempK * drive)),
    };
  }

  return (from, mgWtPct, tempK, thetaM2, into) => {
    copyBuffer(from, start);
    const first = births(mgWtPct, tempK);
    if (first.perTheta * thetaM2 > NO_BIRTH_PER_M3 && first.radiusLn < LARGEST_LN) {
      if (start.count === 0) {
        start.edgeLn[0] = first.radiusLn + 1e-9;
        addSmallest(start, first.radiusLn, 0);
      } else if (first.radiusLn < start.edgeLn[0]! - 1e-9) addSmallest(start, first.radiusLn, 0);
    }
    const top = start.count > 0 ? start.edgeLn[start.count]! : SMALLEST_LN;
    setSurface(tempK, Math.ceil((top - SMALLEST_LN) / SPACING_LN) + GROWTH_NODES);
    const z = relaxation(thetaM2);
    const late = z < 1e-3 ? 0.5 + z / 12 : 1 / -Math.expm1(-z) - 1 / z;
    let mean = mgWtPct;
    let after = mgWtPct;
    for (let trial = 0; trial < MOST_TRIALS; trial++) {
      setSpeed(mean);
      move(thetaM2, into);
      after = matrixMgWtPct(p, totalMgWtPct, fraction(into));
      const correction = (mean - (1 - late) * mgWtPct - late * after) / (1 + late * z);
      if (Math.abs(correction) < MEAN_MG_TOLERANCE * mean) break;
      mean = Math.max(mean - correction, 0.1 * mean);
    }
    const second = births(after, tempK);
    const born = 0.5 * (first.perTheta + second.perTheta) * thetaM2;
    if (born > NO_BIRTH_PER_M3 && into.count > 0) {
      const radiusLn = second.perTheta > 0 ? second.radiusLn : first.radiusLn;
      if (radiusLn < into.edgeLn[0]!) addSmallest(into, radiusLn, born);
      else {
        let k = 0;
        while (k < into.count - 1 && into.edgeLn[k + 1]! < radiusLn) k++;
        into.perM3[k]! += born;
      }
    }
    return matrixMgWtPct(p, totalMgWtPct, fraction(into));
  };
}

function fraction({ count, edgeLn, perM3 }: ClassBuffer): number {
  let sum = 0;
  let low = count > 0 ? Math.exp(3 * edgeLn[0]!) : 0;
  for (let i = 0; i < count; i++) {
    const high = Math.exp(3 * edgeLn[i + 1]!);
    if (perM3[i]! > 0) sum += (perM3[i]! * (high - low)) / (edgeLn[i + 1]! - edgeLn[i]!);
    low = high;
  }
  return (4 / 9) * Math.PI * sum;
}
