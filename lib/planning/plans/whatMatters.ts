import { placeInRange, runAt } from '../../exposure';
import type { PlanKnob, PlanKnobs } from '../../heatflow';
import { effectiveNumber } from '../../statistics';
import { PLAN_DOUBT } from './planExposure';

/** How much of the spread of a result one unknown makes by itself. */
export interface Matter {
  readonly of: string;
  /** Share of the variance, 0 to 1. */
  readonly share: number;
}

/** The jobs a result was drawn over, and what each draw weighs; default all alike. */
export interface WeighedJobs {
  readonly unknowns: readonly PlanKnob[];
  readonly knobs: readonly PlanKnobs[];
  readonly weights?: Float64Array | undefined;
}

/** Parts of the range: few where there are few draws, so that chance stays small in each. */
const MOST_BINS = 20;

/**
 * What makes the spread of a result over draws: for every unknown the variance of the mean within parts of its range, over
 * the whole variance (first-order index), less what chance makes of it; for the metal the variance with the heat as planned. What is left comes of
 * several together. Largest first. Source: Saltelli et al., Global Sensitivity Analysis, Wiley 2008, ch. 4.
 */
export function whatMatters(
  values: Float64Array,
  { unknowns, knobs, weights = new Float64Array(values.length).fill(1) }: WeighedJobs,
  withHeatAsPlanned: Float64Array,
): Matter[] {
  const whole = varianceOf(values, weights);
  if (whole === 0) return [];
  const count = values.length;
  const effective = effectiveNumber(weights);
  const bins = Math.max(4, Math.min(MOST_BINS, Math.round(Math.sqrt(effective) / 2)));
  // The job that strengthAfter took for each draw.
  const taken = Array.from(values, (_, i) => {
    const place = placeInRange({ kind: 'heat flow', of: PLAN_DOUBT }, i);
    return knobs[runAt({ runsK: knobs }, place)]!;
  });
  const matters = unknowns.map(({ name, label }): Matter => {
    const order = Uint32Array.from(values, (_, i) => i).sort((a, b) => taken[a]![name]! - taken[b]![name]!);
    const binWeights = new Float64Array(bins);
    const means = Float64Array.from({ length: bins }, (_, bin) => {
      const [from, to] = [Math.floor((bin * count) / bins), Math.floor(((bin + 1) * count) / bins)];
      let sum = 0;
      let total = 0;
      for (const i of order.subarray(from, to)) {
        sum += weights[i]! * values[i]!;
        total += weights[i]!;
      }
      binWeights[bin] = total;
      return total > 0 ? sum / total : 0;
    });
    const byChance = (whole * bins) / effective;
    return { of: label, share: Math.min(1, Math.max(0, varianceOf(means, binWeights) - byChance) / whole) };
  });
  const metal = {
    of: 'how this metal answers heat',
    share: Math.min(1, varianceOf(withHeatAsPlanned, weights.subarray(0, withHeatAsPlanned.length)) / whole),
  };
  const all = [...matters, metal].sort((a, b) => b.share - a.share);
  const rest = 1 - all.reduce((sum, { share }) => sum + share, 0);
  return rest > 0.01 ? [...all, { of: 'several of them together', share: rest }] : all;
}

function varianceOf(values: Float64Array, weights: Float64Array): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = values.reduce((sum, value, i) => sum + weights[i]! * value, 0) / total;
  return values.reduce((sum, value, i) => sum + weights[i]! * (value - mean) ** 2, 0) / total;
}
