import { type ThermalHistory, thermalHistory } from '../../lib/history';
import { seededRandom } from '../../lib/statistics';

/** An invented part under an arc: what was done to it and what the trace should show. */
export interface InventedWeld {
  readonly history: ThermalHistory;
  readonly arcStartsS: readonly number[];
  /** Bulk temperature at each arc start, °C. */
  readonly interpassC: readonly number[];
}

/**
 * A part of one temperature in 20 °C air (τ 400 s) plus, near the arc, a bell-shaped rise of `bellK` that
 * peaks 8 s after arc start; each pass lifts the bulk by `bulkK` over 16 s. Normal noise of `sigmaK`.
 */
export function inventedWeld(options: {
  readonly waitsS: readonly number[];
  readonly intervalS: number;
  readonly sigmaK: number;
  readonly seed: number;
  readonly bellK?: number;
  readonly bulkK?: number;
}): InventedWeld {
  const { waitsS, intervalS, sigmaK, seed, bellK = 200, bulkK = 60 } = options;
  const random = seededRandom(seed);
  const arcStartsS: number[] = [];
  let atS = 120;
  for (const waitS of waitsS) {
    arcStartsS.push(atS);
    atS += waitS;
  }
  const bulkAt = (t: number): number => {
    let sum = 20;
    for (const startS of arcStartsS) {
      const lasting = Math.min(Math.max(t - startS, 0), 16);
      const afterwards = Math.max(t - startS - 16, 0);
      sum += ((bulkK * lasting) / 16) * Math.exp(-afterwards / 400);
    }
    return sum;
  };
  const n = Math.ceil(atS / intervalS);
  const timeS = Float64Array.from({ length: n }, (_, i) => i * intervalS);
  const tempC = timeS.map((t) => {
    const bell = arcStartsS.reduce(
      (sum, startS) => sum + bellK * Math.exp(-(((t - startS - 8) / 4) ** 2)),
      0,
    );
    return bulkAt(t) + bell + sigmaK * random.normal();
  });
  return { history: thermalHistory(timeS, tempC), arcStartsS, interpassC: arcStartsS.map(bulkAt) };
}
