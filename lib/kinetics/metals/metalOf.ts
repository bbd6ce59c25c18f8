import { type AlloyCard, findTemper, isQuenched, type TemperEntry } from '../../alloy';
import type { Sourced } from '../../quantity';
import type { MemberDraw } from './memberDraw';
import { metalConstants } from './metalConstants';
import type { PlausibleMetal, TemperKind } from './plausibleMetal';

/** Reference temperatures of the clocks of a draw, °C. */
const SOFTENING_C = 200;
const DELAY_C = 260;
const DISSOLUTION_C = 375;
const AGEING_C = 185;
const NATURAL_C = 20;
const REST_FORGOTTEN_C = 250;
/** A card's band is taken as 5 to 95 %: 1.645 standard deviations to each side. */
const BAND_SCORE = 1.645;

/** What a row of evidence knows better than a draw. */
export interface KnownOfLot {
  /** Clock of the lot, ln time, in place of the part's own. */
  readonly lotClockLn?: number;
  readonly startYieldMPa?: number;
}

/** The temper as the card knows it, and 'W', freshly quenched, which no card lists. */
export interface NamedTemper {
  readonly name: string;
  readonly kind: TemperKind;
  readonly entry: TemperEntry | null;
}

/**
 * The metal that a draw makes of an alloy and temper.
 * @throws TemperbookError naming the tempers of the card.
 */
export function metalOf(
  draw: MemberDraw,
  card: AlloyCard,
  { name, kind, entry }: NamedTemper,
  known: KnownOfLot = {},
): PlausibleMetal {
  const cast = card.family === 'Al-Si-Mg casting';
  const clock =
    clockOf(draw, card) + (known.lotClockLn ?? draw.scatter * scatterWider(card) * lotScore(draw, cast));
  const floorMPa = floorOf(draw, card, cast);
  const solution = cast ? draw.otherCast : draw.solution;
  const freshMPa = fromBand(card.dissolution.floorYieldMPa, solution);
  const naturalMPa = Math.max(
    0,
    fromBand(card.naturalAgeing.gainMPa, cast ? draw.naturalCast : draw.naturalWrought),
  );
  const solutionMPa = Math.min(Math.max(0, freshMPa - floorMPa), looseMPa(draw, card, name, floorMPa));
  const constants = metalConstants();
  const ageingClock = constants.ageingLotScatterLn.value * (cast ? draw.ageingCast : draw.ageingWrought);
  const start = known.startYieldMPa ?? startOf(entry, cast ? draw.startCast : draw.startWrought);
  const startYieldMPa = start ?? floorMPa + solutionMPa;
  return {
    family: draw.delayed ? 'delayed' : 'curve',
    alloy: card.designation,
    temper: name,
    kind,
    startYieldMPa,
    floorMPa: Math.min(floorMPa, startYieldMPa),
    peakYieldMPa: peakOf(draw, card, kind, name, startYieldMPa),
    solutionMPa,
    naturalMPa,
    clusteredAtStart: clusteredAtStart(kind, cast ? draw.naturalCast : draw.naturalWrought),
    softening: arrhenius(draw.softenLn + clock, SOFTENING_C, draw.softenKJ),
    softeningPower: draw.power,
    delay: draw.delayed ? arrhenius(draw.delayLn + clock, DELAY_C, draw.delayKJ) : null,
    dissolution: arrhenius(draw.dissolveLn, DISSOLUTION_C, draw.dissolveKJ),
    solvusC: draw.solvusC,
    solvusJPerMol: 1000 * draw.solvusKJ,
    ageing: arrhenius(draw.ageLn + (cast ? draw.ageingClockCast : 0) + ageingClock, AGEING_C, draw.ageKJ),
    nucleiOverAgeing: Math.exp(draw.nucleiLn),
    // A356 peaks after 4 h at 180 °C whatever the natural ageing before: H. Möller et al. 2010, abstract.
    restBrake: cast ? 1 : Math.exp(draw.restLn),
    restForgotten: {
      timeS: constants.restForgottenS.value,
      atC: REST_FORGOTTEN_C,
      energyJPerMol: constants.restForgottenJPerMol.value,
    },
    agesFastestC: constants.agesFastestC[card.family].value,
    noAgeingFromC: cast ? draw.noAgeingCastC : draw.noAgeingWroughtC,
    coarseCatch: draw.coarseCatch,
    clusters: arrhenius(draw.clusterLn, NATURAL_C, draw.clusterKJ),
    treatment: treatmentOf(kind, entry),
    ultimateLoss: cast ? null : [draw.ultimateA, draw.ultimateB, draw.ultimateC],
  };
}

/**
 * The most that solute in solution can add, MPa. Metal aged from the casting heat (T5, T51) was never solution treated:
 * no more is loose in it than made the as-cast part stronger than annealed, so a spike does not raise it.
 */
function looseMPa(draw: MemberDraw, card: AlloyCard, temper: string, floorMPa: number): number {
  const cast = card.family === 'Al-Si-Mg casting' ? card.tempers.F : undefined;
  if (cast === undefined || !temper.startsWith('T5')) return Number.POSITIVE_INFINITY;
  return Math.max(0, fromBand(cast.yieldMPa, draw.otherCast) - floorMPa);
}

const arrhenius = (lnS: number, atC: number, kJPerMol: number) => ({
  timeS: Math.exp(lnS),
  atC,
  energyJPerMol: 1000 * kJPerMol,
});

const fromBand = ({ value, low, high }: Sourced, score: number): number =>
  value + ((score > 0 ? high - value : value - low) * score) / BAND_SCORE;

const lotScore = (draw: MemberDraw, cast: boolean): number => (cast ? draw.lotCast : draw.lotWrought);

/** Alloys the fit knows by name; a shop's own card of the family falls back on them. */
const FITTED_ALLOYS = ['6061', '6063', '6082', '356.0', 'A356.0'];
/** Whether rows of evidence are about this alloy itself. */
export const isFittedAlloy = ({ designation }: AlloyCard): boolean => FITTED_ALLOYS.includes(designation);

/** An alloy that no row is about scatters from its family like a lot and an alloy together: √2 as wide and more. */
const scatterWider = (card: AlloyCard): number => (isFittedAlloy(card) ? 1 : 1.5);

function clockOf(draw: MemberDraw, { designation, family }: AlloyCard): number {
  if (family === 'Al-Si-Mg casting') return draw.clockCast;
  return designation === '6063' ? draw.clock6063 : designation === '6082' ? draw.clock6082 : 0;
}

function floorOf(draw: MemberDraw, { designation, overageing, tempers }: AlloyCard, cast: boolean): number {
  if (cast) return draw.floorCast;
  if (designation === '6061') return draw.floor6061;
  const soft = tempers.O?.yieldMPa ?? Object.values(overageing.curves)[0]!.floorYieldMPa;
  return fromBand(soft, draw.otherWrought);
}

const startOf = (entry: TemperEntry | null, score: number): number | null =>
  entry ? Math.max(entry.yieldMPa.low * 0.8, fromBand(entry.yieldMPa, score)) : null;

function peakOf(
  draw: MemberDraw,
  card: AlloyCard,
  kind: TemperKind,
  temper: string,
  startMPa: number,
): number {
  if (card.family !== 'Al-Si-Mg casting')
    return startOf(card.tempers.T6 ?? null, draw.startWrought) ?? 2 * startMPa;
  const { castPeakScatter, asCastPeakOverStart, t5PeakOverStart } = metalConstants();
  const scatter = 1 + castPeakScatter.value * draw.otherCast;
  if (kind === 'as cast') return startMPa * asCastPeakOverStart.value * scatter;
  if (temper.startsWith('T5')) return startMPa * Math.max(1, t5PeakOverStart.value * scatter);
  return draw.peakCast * scatter;
}

/**
 * Zones made for hours at 154 °C grow when heated on; only what clustered in the cold after ageing reverts, and with
 * few vacancies left that is little. Nobody measured how little: up to a half, the middle a quarter.
 */
const LOGISTIC_OF_NORMAL = 1.702;

const clusteredAtStart = (kind: TemperKind, score: number): number =>
  kind === 'naturally aged' || kind === 'as cast'
    ? 1
    : metalConstants().mostClusteredWhenAged.value / (1 + Math.exp(-LOGISTIC_OF_NORMAL * score));

const treatmentOf = (kind: TemperKind, entry: TemperEntry | null): PlausibleMetal['treatment'] =>
  kind === 'over-aged' && entry?.ageing
    ? { tempC: entry.ageing.tempC.value, timeS: entry.ageing.timeS.value }
    : null;

/**
 * How a temper stands to the peak of its hardening, by its name and card.
 * @throws TemperbookError naming the tempers of the card.
 */
export function namedTemper(card: AlloyCard, temper: string): NamedTemper {
  if (isQuenched(temper)) return { name: 'W', kind: 'quenched', entry: null };
  const { name, entry } = findTemper(card, temper);
  return { name, kind: kindOf(card, name, entry), entry };
}

function kindOf({ family }: AlloyCard, name: string, entry: TemperEntry): TemperKind {
  if (name === 'O') return 'soft';
  if (name === 'F') return family === 'Al-Si-Mg casting' ? 'as cast' : 'soft';
  if (name.startsWith('T4') || name.startsWith('T1')) return 'naturally aged';
  if (name.startsWith('T7') || name === 'T51') return 'over-aged';
  if (family === 'Al-Si-Mg casting') return 'under-aged';
  return entry.underAged ? 'under-aged' : 'peak-aged';
}
