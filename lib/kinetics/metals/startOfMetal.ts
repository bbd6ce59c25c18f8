import { rateAt } from './arrhenius';
import type { MetalState } from './metalState';
import type { PlausibleMetal } from './plausibleMetal';
import { delayedLeft } from './softening';

/** What is known of the part before the heat, beyond its alloy and temper. */
export interface MetalStart {
  /** 0.2 % yield measured on the part itself, MPa. */
  readonly measuredYieldMPa?: number;
  /** Why it lies below the metal's own; default `porous`. Means nothing for one that does not. */
  readonly whyLow?: WhyLow;
}

/**
 * What may make an aged part weaker than others of its temper: less metal in the section, less to harden with, too long
 * in the furnace, too short.
 */
export type WhyLow = 'porous' | 'lean' | 'over-aged' | 'less aged';
/** All of them, in the order in which draws take them. */
export const WHYS_LOW: readonly WhyLow[] = ['porous', 'lean', 'over-aged', 'less aged'];

/**
 * The state of a plausible metal before any heat, by the kind of its temper:
 *
 *  - peak-aged: all particles are there, no solute is left to harden;
 *  - under-aged: a share is there, the rest hardens in time as far as the peak yield allows;
 *  - over-aged: as peak-aged, but has already come along the softening curve by its own treatment. What that treatment
 *    left in solution (3 to 5 % of the particles at 227 to 246 °C) is not counted, so the first later heat dissolves it
 *    again: up to 1.7 % of the yield low, to the careful side;
 *  - naturally aged, quenched: all solute is in solution, in clusters or not; as cast: a part of it;
 *  - soft (O): nothing to lose, nothing to gain.
 *
 * A measured yield above the metal's own is a part nearer its peak: the floor stays, less is left to gain. One below
 * it is what `whyLow` says; porous: everything shrinks in proportion, so that it neither gains more nor keeps more than
 * an unmeasured one. Whoever does not know why asks `strengthAfter`, which leaves all four open.
 */
export function startOfMetal(metal: PlausibleMetal, given: MetalStart = {}): MetalState {
  const { measuredYieldMPa, whyLow = 'porous' } = given;
  const own = metal.startYieldMPa;
  if (measuredYieldMPa !== undefined && measuredYieldMPa < own && whyLow !== 'porous')
    switch (metal.kind) {
      case 'peak-aged':
      case 'under-aged':
      case 'over-aged':
        return weakStart(metal, measuredYieldMPa, whyLow);
      default: // Not aged: nothing to be over-aged or lean in that the proportion does not say.
    }
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
    // What solute an aged temper has left lies beside particles that it can grow on.
    nuclei: 1,
    rested: 0,
    aged: 0,
    agedDose: 0,
  };
  const over = start - floorMPa;
  // Particles that dissolve leave no more behind than they were worth: a spike raises no yield.
  const loose = { solutionMPa: Math.min(solutionMPa, over) };
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
      return { ...common, ...loose, hardeningMPa: over, original: 1, soluble: 0 };
    case 'over-aged': {
      const { tempC, timeS } = metal.treatment ?? { tempC: 20, timeS: 0 };
      const dose = timeS * rateAt(metal.softening, tempC);
      const delay = metal.delay ? timeS * rateAt(metal.delay, tempC) : Number.MAX_VALUE;
      const left = delayedLeft(dose, metal.softeningPower, delay);
      return { ...common, ...loose, hardeningMPa: over / left, original: 1, soluble: 0, dose, delay };
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
        nuclei: 0,
        rested: clustered,
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
        ...(metal.kind === 'as cast' ? { nuclei: 0, rested: 1 } : {}),
      };
    }
  }
}

/** No part is so over-aged that less than this of its hardening is left. */
const LEAST_LEFT = 0.02;

/** An aged part weaker than its kind, for another reason than pores; `startMPa` is below the metal's own. */
function weakStart(metal: PlausibleMetal, startMPa: number, whyLow: Exclude<WhyLow, 'porous'>): MetalState {
  const { floorMPa, softeningPower: power } = metal;
  // Hardening is what lies above the floor; a part as weak as the floor has hardly any.
  const over = Math.max(startMPa - floorMPa, LEAST_LEFT * startMPa);
  const floor = startMPa - over;
  const share = over / (metal.startYieldMPa - floor);
  if (whyLow === 'lean') {
    const lean = {
      ...metal,
      startYieldMPa: startMPa,
      floorMPa: floor,
      peakYieldMPa: floor + share * Math.max(0, metal.peakYieldMPa - floor),
      solutionMPa: share * metal.solutionMPa,
      naturalMPa: share * metal.naturalMPa,
    };
    return startOfMetal(lean);
  }
  if (whyLow === 'less aged' && metal.kind !== 'over-aged') {
    const peakYieldMPa =
      metal.kind === 'peak-aged' ? metal.startYieldMPa : Math.max(metal.peakYieldMPa, metal.startYieldMPa);
    return startOfMetal({
      ...metal,
      kind: 'under-aged',
      startYieldMPa: startMPa,
      floorMPa: floor,
      peakYieldMPa,
    });
  }
  if (whyLow === 'less aged') {
    // An over-aged temper taken out too early stands as high as one stopped on its way down: only the dose is less.
    return startOfMetal(metal, { measuredYieldMPa: startMPa });
  }
  // Over-aged: its particles were all there and have come along the softening curve to what is left.
  const before = startOfMetal(metal);
  const hardeningMPa =
    metal.kind === 'under-aged'
      ? Math.max(metal.peakYieldMPa, metal.startYieldMPa) - floor
      : before.hardeningMPa;
  const left = Math.max(LEAST_LEFT, Math.min(1, over / hardeningMPa));
  return {
    ...before,
    startYieldMPa: startMPa,
    floorMPa: floor,
    hardeningMPa: over / left,
    original: 1,
    soluble: 0,
    clustered: 0,
    clusterable: 1,
    nuclei: 1,
    rested: 0,
    dose: left < 1 ? (1 / left - 1) ** (1 / power) : 0,
    delay: Number.MAX_VALUE,
  };
}
