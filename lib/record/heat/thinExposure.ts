import type { Doubt, Exposure } from '../../exposure';
import { stretches, type ThermalHistory } from '../../history';

/** No line between two samples is further off than this anyway, K. */
const CLOSE_ENOUGH_K = 0.02;
/** Below this a degree does a quarter of the harm, °C. */
const COLD_C = 100;
const COLD_WEIGHT = 0.25;

/**
 * An exposure with at most `most` of its own samples (more only where the ends of its stretches alone are more). The
 * sample goes in next that history and hotter histories miss most, until nothing is missed by 0.02 K. Nothing hot
 * is lost between two samples: what a doubt adds there counts like the reading itself.
 */
export function thinExposure(exposure: Exposure, most: number): Exposure {
  const { history, doubts } = exposure;
  if (history.timeS.length <= most) return exposure;
  const kept = keptSamples(history, curvesOf(exposure), most);
  const pick = (values: Float64Array): Float64Array => Float64Array.from(kept, (i) => values[i]!);
  const gaps = new Set(history.gapAfter ?? []);
  const gapAfter = kept.flatMap((i, k) => (gaps.has(i) ? [k] : []));
  return {
    ...exposure,
    history: {
      timeS: pick(history.timeS),
      tempC: pick(history.tempC),
      ...(gapAfter.length > 0 ? { gapAfter: Uint32Array.from(gapAfter) } : {}),
    },
    doubts: doubts.map(
      (doubt): Doubt =>
        'runsK' in doubt
          ? { ...doubt, runsK: doubt.runsK.map(pick) }
          : { ...doubt, shiftK: pick(doubt.shiftK) },
    ),
  };
}

/** The history and, per doubt, what it adds. */
const curvesOf = ({ history, doubts }: Exposure): Float64Array[] => [
  history.tempC,
  ...doubts.flatMap((doubt) => ('runsK' in doubt ? doubt.runsK : [doubt.shiftK])),
];

/** A stretch between two kept samples, and the sample its straight lines miss most. */
interface Span {
  readonly first: number;
  readonly last: number;
  readonly worst: number;
  readonly missedK: number;
}

function keptSamples(history: ThermalHistory, curves: readonly Float64Array[], most: number): number[] {
  const parts = stretches(history);
  const kept = new Set(parts.flatMap(({ first, last }) => [first, last]));
  const open = parts.map(({ first, last }) => spanOf(history, curves, first, last));
  while (kept.size < most && open.length > 0) {
    let at = 0;
    for (let k = 1; k < open.length; k++) if (open[k]!.missedK > open[at]!.missedK) at = k;
    const { first, last, worst, missedK } = open[at]!;
    if (missedK <= CLOSE_ENOUGH_K) break;
    kept.add(worst);
    open[at] = spanOf(history, curves, first, worst);
    open.push(spanOf(history, curves, worst, last));
  }
  return [...kept].sort((a, b) => a - b);
}

function spanOf(
  { timeS, tempC }: ThermalHistory,
  curves: readonly Float64Array[],
  first: number,
  last: number,
): Span {
  let worst = first;
  let missedK = 0;
  for (const curve of curves) {
    const slope = (curve[last]! - curve[first]!) / (timeS[last]! - timeS[first]! || 1);
    for (let i = first + 1; i < last; i++) {
      const line = curve[first]! + slope * (timeS[i]! - timeS[first]!);
      const missed = Math.abs(curve[i]! - line) * (tempC[i]! < COLD_C ? COLD_WEIGHT : 1);
      if (missed > missedK) {
        missedK = missed;
        worst = i;
      }
    }
  }
  return { first, last, worst, missedK };
}
