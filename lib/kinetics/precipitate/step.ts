import { GAS_CONSTANT } from '../../quantity';
import { growthPaths } from './growthPaths';
import type { PrecipitateParameters } from './parameters';
import type { Solute } from './precipitateState';
import { capillaryMK } from './rates';
import { addSmallest, type ClassBuffer, classBuffer, copyBuffer, makeRoom, meanPower } from './sizeClasses';

/** Mg in the matrix that goes with a precipitate fraction f: C = (C0 − Cp f)/(1 − f), wt %. */
export function matrixMgWtPct(
  p: PrecipitateParameters,
  totalMgWtPct: number,
  volumeFraction: number,
): number {
  return (totalMgWtPct - p.precipitateMgWtPct * volumeFraction) / (1 - volumeFraction);
}

/** Si left in the matrix when particles have taken Mg down to `mgWtPct` wt %. */
export function matrixSiWtPct(p: PrecipitateParameters, total: Solute, mgWtPct: number): number {
  return Math.max(0, total.Si - p.siliconPerMagnesium * (total.Mg - mgWtPct));
}

/** Least Si the solubility product is taken to, wt %: below, Mg2Si has to share its Mg with a binary phase. */
const LEAST_SI_WT_PCT = 0.01;

/** What the Si in the matrix makes of the Mg solvus; 1 for the published set. */
function solvusFactor(p: PrecipitateParameters, total: Solute, mgWtPct: number): number {
  if (!p.silicon) return 1;
  const si = Math.max(LEAST_SI_WT_PCT, matrixSiWtPct(p, total, mgWtPct));
  return (p.silicon.referenceWtPct / si) ** p.silicon.exponent;
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
/** Least width of a class in ln r. */
const LEAST_WIDTH_LN = 1e-11;
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
export function stepper(p: PrecipitateParameters, total: Solute): Stepper {
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
    const factor = solvusFactor(p, total, mg);
    for (let j = 0; j < used; j++) {
      const ci = Math.min(factor * surface[j]!, halfPrecipitate);
      const r = nodeM[j]!;
      speed[j] = (mg - ci) / ((p.precipitateMgWtPct - ci) * r * r);
    }
    paths.set(speed, used);
  }

  /** Where an edge is after θ, ln(r/m); below the smallest radius: dissolved. */
  function moved(edgeLn: number, thetaM2: number): number {
    return SMALLEST_LN + SPACING_LN * paths.ahead((edgeLn - SMALLEST_LN) / SPACING_LN, thetaM2);
  }

  /** Moves the edges of `start` into `into`; what falls below the smallest radius is gone. */
  function move(thetaM2: number, into: ClassBuffer): void {
    into.count = 0;
    makeRoom(into, start.count + 1);
    let gone = 0;
    let lowest = SMALLEST_LN - 1;
    while (gone <= start.count) {
      lowest = moved(start.edgeLn[gone]!, thetaM2);
      if (lowest >= SMALLEST_LN) break;
      gone++;
    }
    if (gone > start.count) return;
    into.edgeLn[0] = lowest;
    if (gone > 0 && lowest > SMALLEST_LN + LEAST_WIDTH_LN) {
      // Of the class that straddles the smallest radius only the upper part is left.
      const from = SMALLEST_LN + paths.survivorBefore(thetaM2) * SPACING_LN;
      const low = start.edgeLn[gone - 1]!;
      const high = start.edgeLn[gone]!;
      const kept = Math.max(0, Math.min(1, (high - from) / (high - low)));
      addSmallest(into, SMALLEST_LN, start.perM3[gone - 1]! * kept);
    }
    for (let i = gone; i < start.count; i++) {
      const k = into.count++;
      into.perM3[k] = start.perM3[i]!;
      // Paths that meet (below rounding) must not make a class without width.
      into.edgeLn[k + 1] = Math.max(moved(start.edgeLn[i + 1]!, thetaM2), into.edgeLn[k]! + LEAST_WIDTH_LN);
    }
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
    const solvus = p.solvusWtPct * solvusFactor(p, total, mg);
    const drive = Math.log(mg / solvus) + p.solvusJPerMol / (GAS_CONSTANT * tempK);
    if (!(drive > 0)) return { perTheta: 0, radiusLn: LARGEST_LN };
    const barrier = (p.nucleationJPerMol / (GAS_CONSTANT * tempK)) ** 3 / drive ** 2;
    return {
      perTheta: (p.nucleationPerM3S / p.diffusivityM2PerS) * Math.exp(-barrier),
      radiusLn: Math.log((p.nucleusOverCritical * capillary) / (tempK * drive)),
    };
  }

  return (from, mgWtPct, tempK, thetaM2, into) => {
    const mgAfter = () => matrixMgWtPct(p, total.Mg, fraction(into));
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
      after = mgAfter();
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
    return mgAfter();
  };
}

function fraction({ count, edgeLn, perM3 }: ClassBuffer): number {
  let sum = 0;
  let low = count > 0 ? Math.exp(3 * edgeLn[0]!) : 0;
  for (let i = 0; i < count; i++) {
    const high = Math.exp(3 * edgeLn[i + 1]!);
    if (perM3[i]! > 0) sum += perM3[i]! * meanPower(low, high, edgeLn[i + 1]! - edgeLn[i]!, 3);
    low = high;
  }
  return (4 / 3) * Math.PI * sum;
}
