import { peak } from '../exposure';
import type { ThermalHistory } from '../history';
import { PRECIPITATE_LIMIT_C } from '../kinetics';
import { formatPercent, formatTemp, judged } from '../quantity';
import type { ModelLine } from './modelLine';
import type { PrecipitateSet } from './precipitateSets';

/**
 * What the precipitate model says with each of its sets of constants, or why a set is left out. The low end is its
 * lowest on the way, of the record and of the worst it may have hidden (`worse`): what a short heat takes, a longer one
 * gives back (retrogression), but how fast has not been measured, so it is not counted on.
 */
export function precipitateLines(
  sets: readonly PrecipitateSet[],
  history: ThermalHistory,
  worse: readonly ThermalHistory[] = [],
): ModelLine[] {
  const topC = peak(history).tempC;
  return sets.map((set) => {
    if ('leftOut' in set) return leftOut(set.name, set.leftOut);
    if (topC > PRECIPITATE_LIMIT_C)
      return leftOut(
        set.name,
        `the metal reached ${formatTemp(topC)}; on slow cooling from above ${formatTemp(PRECIPITATE_LIMIT_C)} it lets too much form again.`,
      );
    return precipitateLine(set, history, worse);
  });
}

const leftOut = (model: string, why: string): ModelLine => ({
  model,
  governs: false,
  reason: `Left out: ${why}`,
});

function precipitateLine(
  { name, model, start, off }: Exclude<PrecipitateSet, { readonly leftOut: string }>,
  history: ThermalHistory,
  worse: readonly ThermalHistory[],
): ModelLine {
  const { yieldKeptFraction: kept, remarks } = model.advance(start, history);
  const end = kept[kept.length - 1]!;
  const onTheWay = lowest(kept);
  const hidden = worse
    .filter((heat) => peak(heat).tempC <= PRECIPITATE_LIMIT_C)
    .map((heat) => lowest(model.advance(start, heat).yieldKeptFraction));
  return {
    model: name,
    yieldKeptFraction: judged(end, [onTheWay, ...hidden], '1', [
      'Its low end is its lowest on the way, on the worst the record may have hidden; it has no band of its own.',
    ]),
    governs: false,
    reason: [
      'Informs, and the band reaches to it: it follows the particles themselves.',
      `Its own start is ${formatPercent(Math.abs(off))} too ${off < 0 ? 'weak' : 'strong'}.`,
      ...remarks.map(({ text }) => text),
      ...dip(end, onTheWay, Math.min(onTheWay, ...hidden)),
    ].join(' '),
  };
}

/** A dip by this much is worth a word. */
const NOTICEABLE = 0.05;

/** Why a short heat may be judged worse than a longer one, or than the record as read. */
function dip(end: number, onTheWay: number, atWorst: number): string[] {
  const why =
    'A short heat first dissolves the finest particles (retrogression), a longer one forms them again; how fast nobody has measured, so the band reaches down to it.';
  if (end - onTheWay >= NOTICEABLE) return [`On the way it was down to ${formatPercent(onTheWay)}. ${why}`];
  if (end - atWorst >= NOTICEABLE)
    return [`On the worst the record may have hidden it is down to ${formatPercent(atWorst)}. ${why}`];
  return [];
}

const lowest = (kept: Float64Array): number => kept.reduce((least, fraction) => Math.min(least, fraction));
