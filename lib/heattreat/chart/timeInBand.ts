import type { Span } from './chartStages';
import { firstAfter } from './firstAfter';
import type { ChartSensor } from './sensorRoles';

/** Time in a band: the longest run without a break, and all runs together, s. */
export interface BandTime {
  readonly longestS: number;
  readonly sumS: number;
  /** Where the longest run lies. */
  readonly longest?: Span;
  readonly runs: readonly Span[];
}

/** What the load sensors did within a window of the chart. */
export interface HoldCount {
  /** Every load sensor recorded and inside. */
  readonly proved: BandTime;
  /** The same if every sensor had been inside wherever it was not recorded. */
  readonly possible: BandTime;
  readonly hottest: { readonly tempC: number; readonly atS: number; readonly sensor: string };
  /** Hottest that the coldest sensor became: a hold that never reached its band shows it here. */
  readonly coldestBest: { readonly tempC: number; readonly atS: number; readonly sensor: string };
  /** The sensor that held up the start of the longest run; the coldest at its best where there is none. */
  readonly lastIn: string;
  /** Coldest reading between the first and the last run inside. */
  readonly dip?: { readonly tempC: number; readonly atS: number; readonly sensor: string };
  /** Greatest spread between load sensors while inside, K. */
  readonly spread: { readonly kelvin: number; readonly atS: number };
  /** Some load sensor was not recorded for so long within the window, s. */
  readonly unrecordedS: number;
}

/**
 * Soak as pyrometry counts it: from where the coldest load sensor reaches the lower limit, by straight line
 * between samples, to where it leaves; time with any sensor outside the band does not count. Exact for straight
 * lines: on each interval the time inside is the intersection of one stretch for each sensor. Source: counting
 * rule of SAE AMS 2770/2771 practice (from memory) and T.O. 1-1A-9.
 */
export function timeInBand(
  loads: readonly ChartSensor[],
  window: Span,
  band: { readonly lowC: number; readonly highC: number },
): HoldCount {
  const grid = commonTimes(loads, window);
  const traces = loads.map(({ history }) => onGrid(history, grid));
  const proved = new RunCounter();
  const possible = new RunCounter();
  let hottest = { tempC: Number.NEGATIVE_INFINITY, atS: grid[0]!, sensor: loads[0]!.name };
  let coldestBest = { ...hottest };
  let spread = { kelvin: 0, atS: grid[0]! };
  let unrecordedS = 0;
  const coldest = new Float64Array(grid.length);
  const coldestBy = new Uint16Array(grid.length);
  for (let i = 0; i < grid.length; i++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < traces.length; k++) {
      const c = traces[k]!.tempC[i]!;
      if (c < low) {
        low = c;
        coldestBy[i] = k;
      }
      if (c > high) {
        high = c;
        if (c > hottest.tempC) hottest = { tempC: c, atS: grid[i]!, sensor: loads[k]!.name };
      }
    }
    coldest[i] = low;
    if (low > coldestBest.tempC && low < Number.POSITIVE_INFINITY)
      coldestBest = { tempC: low, atS: grid[i]!, sensor: loads[coldestBy[i]!]!.name };
    if (low >= band.lowC && high <= band.highC && high - low > spread.kelvin)
      spread = { kelvin: high - low, atS: grid[i]! };
    if (i === 0) continue;
    const from = grid[i - 1]!;
    const span = grid[i]! - from;
    let start = 0;
    let end = 1;
    let missing = false;
    for (let k = 0; k < traces.length; k++) {
      const { tempC, missing: gone } = traces[k]!;
      if (gone[i]) {
        missing = true;
        continue;
      }
      const a = tempC[i - 1]!;
      const b = tempC[i]!;
      if (a >= band.lowC && a <= band.highC && b >= band.lowC && b <= band.highC) continue;
      const [u, v] = shareInside(a, b, band.lowC, band.highC);
      if (u > start) start = u;
      if (v < end) end = v;
    }
    if (missing) unrecordedS += span;
    possible.add(from + start * span, from + end * span);
    if (!missing) proved.add(from + start * span, from + end * span);
  }
  const { longest } = proved.time();
  const start = longest ? Math.max(0, grid.findIndex((t) => t >= longest.fromS) - 1) : -1;
  const dip = lowestBetween(proved.runs(), grid, coldest, coldestBy, band.lowC, loads);
  return {
    proved: proved.time(),
    possible: possible.time(),
    hottest,
    coldestBest,
    lastIn: start < 0 ? coldestBest.sensor : loads[coldestBy[start]!]!.name,
    ...(dip ? { dip } : {}),
    spread,
    unrecordedS,
  };
}

/** Joins stretches that touch into runs. */
class RunCounter {
  private readonly found: { fromS: number; toS: number }[] = [];

  add(fromS: number, toS: number): void {
    if (!(toS > fromS)) return;
    const last = this.found[this.found.length - 1];
    if (last && fromS - last.toS <= 1e-9 * Math.abs(fromS)) last.toS = toS;
    else this.found.push({ fromS, toS });
  }

  runs(): readonly Span[] {
    return this.found;
  }

  time(): BandTime {
    let sumS = 0;
    let longest: Span | undefined;
    for (const run of this.found) {
      sumS += run.toS - run.fromS;
      if (!longest || run.toS - run.fromS > longest.toS - longest.fromS) longest = run;
    }
    return {
      sumS,
      longestS: longest ? longest.toS - longest.fromS : 0,
      ...(longest ? { longest } : {}),
      runs: this.found,
    };
  }
}

/** The part of an interval, 0 … 1, on which the line from a to b lies between low and high. */
function shareInside(a: number, b: number, low: number, high: number): readonly [number, number] {
  if (a === b) return a >= low && a <= high ? [0, 1] : [1, 0];
  const atLow = (low - a) / (b - a);
  const atHigh = (high - a) / (b - a);
  return [Math.max(0, Math.min(atLow, atHigh)), Math.min(1, Math.max(atLow, atHigh))];
}

/** All times any of the sensors was sampled at within the window, and its ends. */
function commonTimes(loads: readonly ChartSensor[], { fromS, toS }: Span): Float64Array {
  const axes = [...new Set(loads.map(({ history }) => history.timeS))];
  const parts = axes.map((timeS) => timeS.subarray(firstAfter(timeS, fromS), firstAfter(timeS, toS)));
  const all = new Float64Array(2 + parts.reduce((sum, part) => sum + part.length, 0));
  all[0] = fromS;
  let count = 1;
  for (const part of parts) {
    all.set(part, count);
    count += part.length;
  }
  all[count] = toS;
  // One axis is in order already, but for its ends being times of samples.
  if (parts.length > 1) all.sort();
  return all.filter((t, i) => i === 0 || t > all[i - 1]!);
}

/** A trace at the times of the grid, and on which intervals (by their later end) it was not recorded. */
interface GridTrace {
  readonly tempC: Float64Array;
  readonly missing: Uint8Array;
}

/** Straight between samples, NaN outside of the trace and inside its gaps. */
function onGrid({ timeS, tempC, gapAfter }: ChartSensor['history'], grid: Float64Array): GridTrace {
  const values = new Float64Array(grid.length).fill(Number.NaN);
  const missing = new Uint8Array(grid.length);
  const gaps = new Set(gapAfter);
  let i = -1;
  for (let g = 0; g < grid.length; g++) {
    const t = grid[g]!;
    // The grid holds every sample of the trace, so an interval lies between two neighbours of it.
    if (g > 0 && (i < 0 || i + 1 >= timeS.length || (gaps.size > 0 && gaps.has(i)))) missing[g] = 1;
    while (i + 1 < timeS.length && timeS[i + 1]! <= t) i++;
    if (i < 0) continue;
    if (timeS[i] === t) values[g] = tempC[i]!;
    else if (i + 1 < timeS.length && !gaps.has(i))
      values[g] = tempC[i]! + ((t - timeS[i]!) / (timeS[i + 1]! - timeS[i]!)) * (tempC[i + 1]! - tempC[i]!);
  }
  return { tempC: values, missing };
}

function lowestBetween(
  runs: readonly Span[],
  grid: Float64Array,
  coldest: Float64Array,
  coldestBy: Uint16Array,
  lowC: number,
  loads: readonly ChartSensor[],
): HoldCount['dip'] {
  if (runs.length < 2) return undefined;
  let dip: HoldCount['dip'];
  for (let i = 0; i < grid.length; i++) {
    if (grid[i]! < runs[0]!.fromS || grid[i]! > runs[runs.length - 1]!.toS || coldest[i]! >= lowC) continue;
    if (!dip || coldest[i]! < dip.tempC)
      dip = { tempC: coldest[i]!, atS: grid[i]!, sensor: loads[coldestBy[i]!]!.name };
  }
  return dip;
}
