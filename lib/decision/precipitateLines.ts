import { type AlloyCard, findTemper } from '../alloy';
import { peak } from '../exposure';
import type { ThermalHistory } from '../history';
import { type PrecipitateModel, type PrecipitateOptions, precipitateModel } from '../kinetics';
import { formatPercent, judged, TemperbookError } from '../quantity';
import type { ModelLine } from './verdict';

/** A start a part can have that is to keep its temper. */
export type AgedStart = string | { readonly temper: string; readonly measuredYieldMPa: number };

/** Further off than this, the model's temper is not the part's temper, and its change says little. */
const MOST_OFF = 0.2;

/** The sets of constants asked, in the order of their lines. */
export const PRECIPITATE_SETS = ['published', 'calibrated'] as const;
/** One of them. */
export type PrecipitateSet = (typeof PRECIPITATE_SETS)[number];

/** A set that may speak of a temper, and by which share its own start is off that of the card. */
export interface SetInRange {
  readonly model: PrecipitateModel;
  readonly off: number;
}

/**
 * The precipitate model with a set of constants whose own temper is the card's.
 * @throws TemperbookError saying why it is not.
 */
export function precipitateInRange(
  card: AlloyCard,
  temper: string,
  options: PrecipitateOptions & { readonly parameters: PrecipitateSet },
): SetInRange {
  const model = precipitateModel(card, options);
  const ownMPa = model.start(temper).start.yieldMPa;
  const cardMPa = findTemper(card, temper).entry.yieldMPa.value;
  const off = ownMPa / cardMPa - 1;
  if (Math.abs(off) <= MOST_OFF) return { model, off };
  throw new TemperbookError(
    `its own ${card.designation}-${temper} has ${Math.round(ownMPa)} MPa where the card has ${Math.round(cardMPa)}, so it does not know how this temper got its strength.`,
  );
}

/**
 * What the precipitate model says with each of its sets of constants, or why a set is left out. The low end is its
 * lowest on the way, of the record and of the worst it may have hidden (`worse`): what a short heat takes, a longer one
 * gives back (retrogression), but how fast has not been measured, so it is not counted on.
 */
export function precipitateLines(
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
  worse: readonly ThermalHistory[] = [],
): ModelLine[] {
  return PRECIPITATE_SETS.map((parameters) => {
    const model = `precipitate model, ${parameters} set`;
    try {
      return precipitateLine(model, parameters, history, card, from, worse);
    } catch (error) {
      if (!(error instanceof TemperbookError)) throw error;
      return { model, governs: false, reason: `Left out: ${error.message}` };
    }
  });
}

function precipitateLine(
  name: string,
  parameters: PrecipitateSet,
  history: ThermalHistory,
  card: AlloyCard,
  from: AgedStart,
  worse: readonly ThermalHistory[],
): ModelLine {
  const temper = typeof from === 'string' ? from : from.temper;
  const { model, off } = precipitateInRange(card, temper, { parameters });
  const measuredYieldMPa = findTemper(card, temper).entry.yieldMPa.value;
  const start = model.start(typeof from === 'string' ? { temper, measuredYieldMPa } : from);
  const { yieldKeptFraction: kept, remarks } = model.advance(start, history);
  const outside = remarks.filter(({ quantity }) => quantity !== 'start');
  if (outside.length > 0) throw new TemperbookError(outside.map(({ text }) => text).join(' '));
  const end = kept[kept.length - 1]!;
  const lows = worse.flatMap((heat) => {
    if (peak(heat).tempC > HOTTEST_C) return [];
    return [lowest(model.advance(start, heat).yieldKeptFraction)];
  });
  return {
    model: name,
    yieldKeptFraction: judged(end, [lowest(kept), ...lows], '1', [
      'Its low end is its lowest on the way, on the worst the record may have hidden; it has no band of its own.',
    ]),
    governs: false,
    reason: [
      'Informs, and the band reaches to it: it follows the particles themselves.',
      `Its own start is ${formatPercent(Math.abs(off))} too ${off < 0 ? 'weak' : 'strong'}.`,
      ...remarks.map(({ text }) => text),
      ...retrogression(kept),
    ].join(' '),
  };
}

/** The precipitate model answers for itself up to here, °C (`temperatureRemarks`). */
export const HOTTEST_C = 500;

/** A dip that came back by this much is worth a word. */
const CAME_BACK = 0.05;

/** Why a short heat may be judged worse than a longer one. */
function retrogression(kept: Float64Array): string[] {
  const least = lowest(kept);
  if (kept[kept.length - 1]! - least < CAME_BACK) return [];
  return [
    `On the way it was down to ${formatPercent(least)}: a short heat first dissolves the finest particles (retrogression), a longer one forms them again. How fast nobody has measured, so the band reaches down to it.`,
  ];
}

const lowest = (kept: Float64Array): number => kept.reduce((least, fraction) => Math.min(least, fraction));
