import { rateAt } from './arrhenius';
import type { MetalState } from './metalState';
import type { PlausibleMetal } from './plausibleMetal';
import { delayedLeft } from './softening';

/** What is known of the part before the heat, beyond its alloy and temper. */
export interface MetalStart {
  /** 0.2 % yield measured on the part itself, MPa. */
  readonly measuredYieldMPa?: number;
}

/**
 * The state of a plausible metal before any heat, by the kind of its temper:
 *
 *  - peak-aged: all particles are there, no solute is left to harden;
 *  - under-aged: a share is there, the rest hardens in time as far as the peak yield allows;
 *  - over-aged: as peak-aged, but has already come along the softening curve by its own treatment;
 *  - naturally aged, quenched: all solute is in solution, in clusters or not; as cast: a part of it;
 *  - soft (O): nothing to lose, nothing to gain.
 *
 * A measured yield above the metal's own is a part nearer its peak: the floor stays, less is left to gain. One below
 * it may be a lean, porous, less aged or over-aged part; as nobody knows which, everything shrinks in proportion, so
 * that it neither gains more nor keeps more than an unmeasured one.
 */
export function startOfMetal(metal: PlausibleMetal, { measuredYieldMPa }: MetalStart = {}): MetalState {
  const own = metal.startYieldMPa;
  const start = measuredYieldMPa ?? own;
  const scale = Math.min(1, start / own);
  const floorMPa = Math.min(metal.floorMPa * scale, start);
  const solutionMPa = metal.solutionMPa * scale;
  const naturalMPa = metal.naturalMPa * scale;
  const common = {
    startYieldMPa: start,
    floorMPa,
    solutionMPa,
    naturalMPa,
    dose: 0,
    delay: metal.delay ? 0 : Number.MAX_VALUE,
    dissolution: 0,
    clustered: 0,
    clusterable: 1,
    aged: 0,
    agedDose: 0,
  };
  const over = start - floorMPa;
  switch (metal.kind) {
    case 'soft':
      return {
        ...common,
        floorMPa: start,
        hardeningMPa: 0,
        solutionMPa: 0,
        naturalMPa: 0,
        original: 1,
        soluble: 0,
      };
    case 'peak-aged':
      return { ...common, hardeningMPa: over, original: 1, soluble: 0 };
    case 'over-aged': {
      const { tempC, timeS } = metal.treatment ?? { tempC: 20, timeS: 0 };
      const dose = timeS * rateAt(metal.softening, tempC);
      const delay = metal.delay ? timeS * rateAt(metal.delay, tempC) : Number.MAX_VALUE;
      const left = delayedLeft(dose, metal.softeningPower, delay);
      return { ...common, hardeningMPa: over / left, original: 1, soluble: 0, dose, delay };
    }
    case 'naturally aged':
    case 'quenched': {
      // Whatever the solute in solution does not explain of the yield is grain and dispersoids.
      const clustered = metal.kind === 'quenched' ? 0 : 1;
      const fit = Math.min(1, start / (solutionMPa + clustered * naturalMPa));
      const rest = start - fit * (solutionMPa + clustered * naturalMPa);
      return {
        ...common,
        floorMPa: rest,
        solutionMPa: fit * solutionMPa,
        naturalMPa: fit * naturalMPa,
        hardeningMPa: Math.max(0, metal.peakYieldMPa * scale - rest),
        original: 0,
        soluble: 1,
        clustered,
      };
    }
    case 'as cast':
    case 'under-aged': {
      // start = floor + H p + (solution + natural)(1 − p), H = peak − floor
      const clustered = metal.clusteredAtStart;
      const peak = Math.max(metal.peakYieldMPa * scale, start);
      const hardeningMPa = peak - floorMPa;
      const dissolvedMPa = Math.min(solutionMPa + clustered * naturalMPa, over);
      const original = Math.min(1, (over - dissolvedMPa) / Math.max(hardeningMPa - dissolvedMPa, 1e-9));
      return {
        ...common,
        hardeningMPa,
        original,
        soluble: 1 - original,
        solutionMPa: Math.min(solutionMPa, dissolvedMPa),
        naturalMPa:
          clustered > 0 ? Math.max(0, dissolvedMPa - Math.min(solutionMPa, dissolvedMPa)) / clustered : 0,
        clustered,
        clusterable: clustered,
      };
    }
  }
}
