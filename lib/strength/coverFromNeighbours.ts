import { type Stretch, stretches, type ThermalHistory, tempAt, thermalHistory } from '../history';

/** A history with its unrecorded time filled from other probes, and what could not be filled. */
export interface CoveredHistory {
  readonly history: ThermalHistory;
  /** Time filled from other probes or held at the hotter end of a gap, s. */
  readonly assumedS: number;
  /** Time before the first or after the last sample for which no probe has a reading, s. */
  readonly unknownS: number;
}

/** The steps at the ends of a filled stretch take this long, s. */
const EDGE_S = 0.001;

/**
 * The worst the metal under a probe may have seen while the probe did not record: at every moment the hottest
 * reading any probe of the log has, and inside a gap at least the hotter of its two ends. An assumption, made
 * for the worst case only: the other probes may sit on cooler metal.
 * @param spanS start and end of the log, s.
 */
export function coverFromNeighbours(
  history: ThermalHistory,
  neighbours: readonly ThermalHistory[],
  spanS: readonly [number, number],
): CoveredHistory {
  const { timeS, tempC } = history;
  const recorded = neighbours.flatMap((other) => stretches(other).map((stretch) => ({ other, stretch })));
  const times: number[] = [];
  const temps: number[] = [];
  let assumedS = 0;
  let unknownS = 0;

  const push = (t: number, temp: number): void => {
    if (times.length && t <= times[times.length - 1]!) return;
    times.push(t);
    temps.push(temp);
  };
  const fill = (fromS: number, toS: number, atLeastC: number): void => {
    if (toS - fromS <= 2 * EDGE_S) return;
    const inside = [fromS + EDGE_S, ...sampleTimes(recorded, fromS, toS), toS - EDGE_S];
    let known = false;
    for (const t of inside) {
      const hottest = hottestAt(recorded, t);
      if (hottest > Number.NEGATIVE_INFINITY) known = true;
      if (Math.max(hottest, atLeastC) > Number.NEGATIVE_INFINITY) push(t, Math.max(hottest, atLeastC));
    }
    if (known || atLeastC > Number.NEGATIVE_INFINITY) assumedS += toS - fromS;
    else unknownS += toS - fromS;
  };

  fill(spanS[0], timeS[0]!, Number.NEGATIVE_INFINITY);
  stretches(history).forEach(({ first, last }, k, all) => {
    for (let i = first; i <= last; i++) push(timeS[i]!, tempC[i]!);
    const next = all[k + 1];
    if (next) fill(timeS[last]!, timeS[next.first]!, Math.max(tempC[last]!, tempC[next.first]!));
  });
  fill(timeS[timeS.length - 1]!, spanS[1], Number.NEGATIVE_INFINITY);
  return { history: thermalHistory(times, temps), assumedS, unknownS };
}

interface Recorded {
  readonly other: ThermalHistory;
  readonly stretch: Stretch;
}

function hottestAt(recorded: readonly Recorded[], t: number): number {
  let hottest = Number.NEGATIVE_INFINITY;
  for (const { other, stretch } of recorded)
    if (t >= other.timeS[stretch.first]! && t <= other.timeS[stretch.last]!)
      hottest = Math.max(hottest, tempAt(other, t));
  return hottest;
}

/** Times strictly inside, of all probes together, ascending and each once. */
function sampleTimes(recorded: readonly Recorded[], fromS: number, toS: number): number[] {
  const times = new Set<number>();
  for (const { other, stretch } of recorded)
    for (let i = stretch.first; i <= stretch.last; i++)
      if (other.timeS[i]! > fromS + EDGE_S && other.timeS[i]! < toS - EDGE_S) times.add(other.timeS[i]!);
  return [...times].sort((a, b) => a - b);
}
