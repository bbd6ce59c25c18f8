import { propertyAt } from '../../../alloy';
import type { MetalProperties, PropertyValue } from '../plan/platePlan';

/** Bins of a `MetalTable`: about 1.6 K of solid metal each. */
const BINS = 1024;
/** Numbers kept per bin: temperature and its slope, heat capacity, relative conductivity and its slope. */
export const PER_BIN = 5;
const COLDEST_C = -100;
const HOTTEST_C = 1200;

/**
 * Temperature, heat capacity and conductivity of a metal as functions of the heat stored in it, in bins of
 * equal heat. Stored heat is the unknown of the plate solver: latent heat is then just a stretch where the
 * temperature rises slowly, and no heat can be lost by stepping over it.
 */
export interface MetalTable {
  /** Heat stored per bin, J/mm³; bin 0 begins at −100 °C, stored heat 0. */
  readonly heatPerBin: number;
  readonly bins: number;
  /** Bin i at `i * PER_BIN`: [°C at its start, K per bin, J/mm³K, k / `conductivity` at its start, change per bin]. */
  readonly rows: Float64Array;
  /** Conductivity at 20 °C, W/mm K. */
  readonly conductivity: number;
  /** Where the table ends, °C: 1200, or 100 above the last temperature the metal's properties name. */
  readonly endsAtC: number;
  /** J/mm³ at a temperature. */
  heatAt(tempC: number): number;
}

/** Builds the table; properties are taken as checked. Outside −100 °C…`endsAtC` both ends go on as they are. */
export function metalTable(metal: MetalProperties): MetalTable {
  const nodes = heatNodes(metal);
  const heatAt = (tempC: number) => interpolate(nodes.tempC, nodes.heat, tempC);
  const heatPerBin = nodes.heat[nodes.heat.length - 1]! / BINS;
  const conductivity = valueAt(metal.conductivityWPerMK, 20) / 1000;
  const rows = new Float64Array(BINS * PER_BIN);
  for (let bin = 0; bin < BINS; bin++) {
    const from = interpolate(nodes.heat, nodes.tempC, bin * heatPerBin);
    const to = interpolate(nodes.heat, nodes.tempC, (bin + 1) * heatPerBin);
    const share = (tempC: number) => valueAt(metal.conductivityWPerMK, tempC) / 1000 / conductivity;
    rows.set(
      [from, to - from, heatPerBin / (to - from), share(from), share(to) - share(from)],
      bin * PER_BIN,
    );
  }
  return { heatPerBin, bins: BINS, rows, conductivity, endsAtC: nodes.tempC.at(-1)!, heatAt };
}

/** Stored heat at every temperature where the heat capacity bends, and in between often enough to be smooth. */
function heatNodes(metal: MetalProperties): { tempC: number[]; heat: number[] } {
  const { specificHeatJPerKgK: specificHeat, latentHeatJPerKg: latent = 0, solidusC, liquidusC } = metal;
  const bends = [
    ...(typeof specificHeat === 'number' ? [] : specificHeat.tempC),
    ...(latent > 0 ? [solidusC!, liquidusC!] : []),
  ];
  const hottest = Math.max(HOTTEST_C, ...bends.map((t) => t + 100));
  const steps = Array.from({ length: 2000 }, (_, i) => COLDEST_C + ((hottest - COLDEST_C) * i) / 1999);
  const tempC = [...new Set([...steps, ...bends])].filter((t) => t >= COLDEST_C).sort((a, b) => a - b);
  const density = metal.densityKgPerM3 * 1e-9;
  const heat = [0];
  for (let i = 1; i < tempC.length; i++) {
    const [from, to] = [tempC[i - 1]!, tempC[i]!];
    const middle = (from + to) / 2;
    const sensible = valueAt(specificHeat, middle) * (to - from);
    const melting =
      latent > 0 && middle > solidusC! && middle < liquidusC!
        ? (latent * (to - from)) / (liquidusC! - solidusC!)
        : 0;
    heat.push(heat[i - 1]! + density * (sensible + melting));
  }
  return { tempC, heat };
}

/** A property at a temperature. */
export const valueAt = (property: PropertyValue, tempC: number): number =>
  typeof property === 'number' ? property : propertyAt(property, tempC);

/** Straight line between the two nodes around x, and beyond the ends the line of the last two. */
function interpolate(xs: readonly number[], ys: readonly number[], x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if (xs[mid]! <= x) low = mid;
    else high = mid;
  }
  return ys[low]! + ((ys[high]! - ys[low]!) * (x - xs[low]!)) / (xs[high]! - xs[low]!);
}
