import { lastAtOrBefore, stretches, type ThermalHistory, tempAt, thermalHistory } from '../../history';
import { formatDuration, formatTemp } from '../../quantity';
import type { BlindTime, Doubt } from '../exposure';
import { peak } from '../peak';
import { SLOWEST_FOR_A_PASS_S } from './betweenReadings';
import { type PartRates, partRates } from './partRates';
import type { ProbeRecord } from './probe';
import { stopsEarly } from './stopsEarly';

/** A record with its gaps drawn through, what may have happened in them, and what nothing bounds. */
export interface GapFindings {
  /** The record with straight lines across the gaps that are bounded; the others stay gaps. */
  readonly history: ThermalHistory;
  /** The most the metal may have been hotter than `history`, K at every sample; all 0 without a gap. */
  readonly worstK: Float64Array;
  readonly blind: readonly BlindTime[];
  readonly because: readonly string[];
}

/** At or below this a part loses nothing in hours: what stays below is not worth a word, °C. */
const QUIET_C = 150;
/** What two probes showed together may be exceeded by this factor, and by this much, K. */
const NEIGHBOUR_FACTOR = 1.5;
const NEIGHBOUR_MARGIN_K = 20;
/**
 * Where the two never showed how they go together, and for an arc that comes nearer than any they showed, the rise may be
 * this many times the neighbour's: peaks of a passing arc in thick metal fall with the square of the distance (Rosenthal), so
 * a probe three times as far sees a ninth.
 */
const UNSEEN_FACTOR = 9;
/**
 * Heat set down at a probe may warm its neighbour only so much later: a line source in a plate does so at r²/(4D) at the latest, 94 s
 * at 150 mm (D 6 · 10⁻⁵ m²/s; H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, 10.3).
 */
const LATER_S = 100;
/** Points drawn inside a gap, and inside one no longer than readings may be apart. */
const POINTS = 24;
const FEW_POINTS = 3;

interface Gap {
  readonly fromS: number;
  readonly toS: number;
  /** Reading before and after; absent where the probe had not begun or had stopped, to the end of the log. */
  readonly beforeC?: number;
  readonly afterC?: number;
}

/**
 * What may have happened while a probe had no reading. Inside a gap the metal can have heated as fast as this part does
 * under an arc and must be back at the next reading (`partRates`); at every moment at which another probe has a reading,
 * it stayed within half as much again of what the two showed together elsewhere, or nine times the neighbour's rise where they
 * showed nothing; and what the neighbour rose since the gap began may be a ninth of what the metal did. A gap
 * with readings on both sides, and a neighbour all along or no longer than readings may be apart, is a doubt with that worst
 * case as long as it stays below melting. Any other must stay so cool that nothing is lost; else it is blind.
 */
export function gapDoubts(record: ProbeRecord): GapFindings {
  const { history, neighbours, probe, spanS, restarts = [], meltsFromC } = record;
  const gaps = gapsOf(history, spanS);
  if (gaps.length === 0)
    return { history, worstK: new Float64Array(history.timeS.length), blind: [], because: [] };
  const rates = partRates([history, ...neighbours]);
  const seen = neighbours.map((other) => seenBy(other, history, probe.ambientC));
  const times: number[] = [];
  const temps: number[] = [];
  const worst: number[] = [];
  const gapAfter: number[] = [];
  const blind: BlindTime[] = [];
  const because: string[] = [];
  const push = (t: number, temp: number, worstC: number): void => {
    times.push(t);
    temps.push(temp);
    worst.push(Math.max(0, worstC - temp));
  };
  const fill = (gap: Gap): boolean => {
    if (restarts.some(([fromS, toS]) => gap.fromS <= fromS && toS <= gap.toS)) {
      blind.push({
        fromS: gap.fromS,
        toS: gap.toS,
        because: `The recording starts anew ${formatDuration(gap.fromS - spanS[0])} into the log, after a time that nothing tells: heat in between is not recorded. Judge the parts by themselves with what came before, or measure there.`,
      });
      return false;
    }
    const inside = worstInside(gap, rates, seen, probe.ambientC);
    const top = Math.max(...inside.map(({ worstC }) => worstC));
    const lengthS = gap.toS - gap.fromS;
    const hasBothEnds = gap.beforeC !== undefined && gap.afterC !== undefined;
    const isWatched = inside.every(({ byNeighbours }) => Number.isFinite(byNeighbours));
    const isBounded =
      hasBothEnds && (isWatched || lengthS <= SLOWEST_FOR_A_PASS_S) ? top < meltsFromC : top < QUIET_C;
    if (!isBounded) {
      blind.push({
        fromS: gap.fromS,
        toS: gap.toS,
        because: `The probe has no trusted reading for ${formatDuration(lengthS)} from ${formatDuration(gap.fromS - spanS[0])} into the log, and neither its own readings nor the other probes bound what the metal saw meanwhile: measure there${gap.afterC === undefined ? ', or cut the log where the probe was taken off the finished part' : ''}.`,
      });
      return false;
    }
    for (const { atS, lineC, worstC } of inside) push(atS, lineC, worstC);
    if (top > QUIET_C)
      because.push(
        `The probe has no trusted reading for ${formatDuration(lengthS)} from ${formatDuration(gap.fromS - spanS[0])} into the log; the metal may have reached ${formatTemp(top)} meanwhile.`,
      );
    return true;
  };
  const [before] = gaps.filter(({ beforeC }) => beforeC === undefined);
  const [after] = gaps.filter(({ afterC }) => afterC === undefined);
  if (before) fill(before);
  let k = 0;
  const between = gaps.filter((gap) => gap.beforeC !== undefined && gap.afterC !== undefined);
  for (const { first, last } of stretches(history)) {
    for (let i = first; i <= last; i++) push(history.timeS[i]!, history.tempC[i]!, history.tempC[i]!);
    const next = between[k++];
    if (next && !fill(next)) gapAfter.push(times.length - 1);
  }
  if (after) fill(after);
  return {
    history: thermalHistory(times, temps, gapAfter),
    worstK: Float64Array.from(worst),
    blind,
    because,
  };
}

/** The worst case of the gaps as a doubt. */
export function gapDoubt({ worstK }: GapFindings): Doubt[] {
  if (worstK.every((k) => k === 0)) return [];
  return [
    {
      kind: 'gap',
      of: 'time the probe did not record',
      spread: { shape: 'even', low: 0, high: 1 },
      shiftK: worstK,
    },
  ];
}

function gapsOf(history: ThermalHistory, spanS: readonly [number, number]): Gap[] {
  const { timeS, tempC, gapAfter } = history;
  const last = timeS.length - 1;
  const inner = Array.from(gapAfter ?? [], (i) => ({
    fromS: timeS[i]!,
    toS: timeS[i + 1]!,
    beforeC: tempC[i]!,
    afterC: tempC[i + 1]!,
  }));
  return [
    ...(timeS[0]! > spanS[0] ? [{ fromS: spanS[0], toS: timeS[0]!, afterC: tempC[0]! }] : []),
    ...inner,
    ...(stopsEarly(history, spanS) ? [{ fromS: timeS[last]!, toS: spanS[1], beforeC: tempC[last]! }] : []),
  ];
}

interface Inside {
  readonly atS: number;
  readonly lineC: number;
  readonly worstC: number;
  /** What the other probes allow; infinite where none has a reading. */
  readonly byNeighbours: number;
}

interface Seen {
  readonly other: ThermalHistory;
  readonly startsS: Float64Array;
  readonly endsS: Float64Array;
  readonly factor: number;
}

/** The straight line and the worst case at points inside a gap; infinite where nothing bounds it. */
function worstInside(
  { fromS, toS, beforeC, afterC }: Gap,
  { heatingKPerS, coolingKPerS }: PartRates,
  seen: readonly Seen[],
  ambientC: number,
): Inside[] {
  const points = toS - fromS <= SLOWEST_FOR_A_PASS_S ? FEW_POINTS : POINTS;
  return Array.from({ length: points }, (_, k) => {
    const atS = fromS + ((k + 0.5) / points) * (toS - fromS);
    const share = (atS - fromS) / (toS - fromS);
    const ends = [beforeC ?? afterC!, afterC ?? beforeC!] as const;
    const lineC = ends[0] + share * (ends[1] - ends[0]);
    const rising = beforeC === undefined ? Number.POSITIVE_INFINITY : beforeC + heatingKPerS * (atS - fromS);
    const falling = afterC === undefined ? Number.POSITIVE_INFINITY : afterC + coolingKPerS * (toS - atS);
    const beside = seen.flatMap(({ other, factor, ...recorded }) =>
      isRecorded(recorded, atS)
        ? [
            Math.max(
              ambientC + NEIGHBOUR_MARGIN_K + factor * Math.max(0, hottestFrom(other, atS) - ambientC),
              lineC +
                NEIGHBOUR_MARGIN_K +
                UNSEEN_FACTOR * Math.max(0, hottestFrom(other, atS) - tempAt(other, fromS)),
            ),
          ]
        : [],
    );
    // A neighbour that has no time left to feel it bounds nothing, unless the probe itself was read again.
    const isTooLate = afterC === undefined && atS > toS - LATER_S;
    const byNeighbours = beside.length > 0 && !isTooLate ? Math.max(...beside) : Number.POSITIVE_INFINITY;
    return { atS, lineC, byNeighbours, worstC: Math.max(lineC, Math.min(rising, falling, byNeighbours)) };
  });
}

/** The most a neighbour shows at a time, or so soon after that heat set down then may be behind it. */
function hottestFrom(other: ThermalHistory, atS: number): number {
  const { timeS, tempC } = other;
  let hottestC = tempAt(other, atS);
  for (let i = lastAtOrBefore(timeS, atS) + 1; i < timeS.length && timeS[i]! <= atS + LATER_S; i++)
    hottestC = Math.max(hottestC, tempC[i]!);
  return hottestC;
}

/** Whether a time lies in a recorded stretch; the stretches' first and last times ascending. */
function isRecorded({ startsS, endsS }: Pick<Seen, 'startsS' | 'endsS'>, atS: number): boolean {
  const k = lastAtOrBefore(startsS, atS);
  return k >= 0 && atS <= endsS[k]!;
}

function seenBy(other: ThermalHistory, own: ThermalHistory, ambientC: number): Seen {
  const recorded = stretches(other);
  const startsS = Float64Array.from(recorded, ({ first }) => other.timeS[first]!);
  const endsS = Float64Array.from(recorded, ({ last }) => other.timeS[last]!);
  return { other, startsS, endsS, factor: ratioTo({ other, startsS, endsS }, own, ambientC) };
}

/** How much more a probe may have risen than its neighbour, by what both showed where they were warm. */
function ratioTo(
  { other, ...recorded }: Omit<Seen, 'factor'>,
  own: ThermalHistory,
  ambientC: number,
): number {
  const otherTop = peak(other);
  let most = 1;
  let isSeen = false;
  const step = Math.max(1, Math.floor(own.timeS.length / 500));
  for (let i = 0; i < own.timeS.length; i += step) {
    const atS = own.timeS[i]!;
    if (!isRecorded(recorded, atS)) continue;
    const rise = tempAt(other, atS) - ambientC;
    // Ratios of small rises say nothing.
    if (rise < 0.2 * (otherTop.tempC - ambientC) || rise < NEIGHBOUR_MARGIN_K) continue;
    isSeen = true;
    most = Math.max(most, (own.tempC[i]! - ambientC) / rise);
  }
  return isSeen ? NEIGHBOUR_FACTOR * most : UNSEEN_FACTOR;
}
