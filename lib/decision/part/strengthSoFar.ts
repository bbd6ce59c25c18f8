import {
  type Doubt,
  fixingDoubt,
  placeInRange,
  temperaturesAt,
  USUAL_WIRE,
  wireDoubts,
} from '../../exposure';
import { isothermal, type ThermalHistory, thermalHistory } from '../../history';
import type { ThermalLog } from '../../log';
import { knownOptions, requireList } from '../../quantity';
import { weightedQuantiles } from '../../statistics';
import { allowanceOf, isCloseToRule, type StrengthAfter, type VerdictWord } from '../../strength';
import { timesLeft } from '../budget';
import type { PlaceToJudge } from '../judgeChannel';
import { JUDGE_OPTIONS, type JudgeOptions } from '../judgeOptions';
import { limitsFor } from '../limits';
import { metalsNamed } from '../metalsNamed';
import { placesToJudge } from '../placesToJudge';
import { weighedPart } from './weighedPart';

/** What a heat that still goes on has done to one place up to the last reading, were it cooled at once. */
export interface PlaceSoFar {
  readonly name: string;
  /** `kept` and `lost` only where the draws are enough to tell, `kept` only where no time is blind. */
  readonly word: VerdictWord;
  /** Why nothing clears it, whatever its draws say. */
  readonly blind: readonly string[];
  /** Share of the allowance that is used, 1 for all of it: in the median draw, and at most in 95 of 100. */
  readonly usedShare: number;
  readonly usedAtMost: number;
  /**
   * How long the probe may go on reading so much, and the part then cool, before the allowance of the weakest five in a
   * hundred draws is used up, s; 0 where it is: at the last reading, and hotter.
   */
  readonly left: readonly { readonly tempC: number; readonly holdS: number }[];
  /** The shop's limit, °C; absent where the alloy has none. */
  readonly limitC?: number;
}

/** What a log that is still being written says of its places. */
export interface SoFar {
  readonly places: readonly PlaceSoFar[];
  readonly notJudged: readonly { readonly name: string; readonly because: string }[];
}

/** Time constant of the cooling that is counted, s: 6 mm plate of aluminium in still air at 25 W/m²K has 580 s. */
const COOLING_TAU_S = 580;
/** How much hotter than now it is asked for, K. */
const HOTTER_K = [0, 50, 110, 190, 300];
/** Longest hold asked about, s, and how finely. */
const HOLDS = { longestS: 3600, fine: 1.1 } as const;
/** Points of a cooling, as multiples of its time constant. */
const COOLING_AT = [0.1, 0.25, 0.45, 0.7, 1, 1.5, 2.2, 3, 4];

/**
 * `judge` for a log that goes on: same exposures, same metals, same lots, same 400 draws (more only where lots or sticks
 * leave fewer than 200), but its end is no end, so nothing is added for the cooling to come and nothing is blind because it
 * ends hot. Readings on the part wait for its end. Where the log is whole and cold the chance is that of `judge`, or, where
 * that went on to more draws, within three Monte Carlo errors of it. In `left` the cooling is counted.
 * @throws TemperbookError as `judge`.
 */
export function strengthSoFar(log: ThermalLog, given: JudgeOptions): SoFar {
  const options = metalsNamed(knownOptions(given, JUDGE_OPTIONS, 'strengthSoFar'));
  const allowance = allowanceOf(options.allowanceFraction);
  const { places, notJudged } = placesToJudge(log, options, allowance, undefined, true);
  const lots = requireList(options.lots ?? [], 'Lots');
  const { strengths, effectiveDraws } = weighedPart(places, { readings: [], lots }, { isRunning: true });
  return {
    places: places.map((one, k) => placeSoFar(one, strengths[k]!, effectiveDraws, allowance)),
    notJudged: notJudged.map(({ name, because }) => ({ name, because })),
  };
}

function placeSoFar(
  one: PlaceToJudge,
  strength: StrengthAfter,
  effectiveDraws: number,
  allowance: number,
): PlaceSoFar {
  const { nominal, low } = strength.yieldKeptFraction;
  const [shop] = limitsFor(one.card, one.limitC);
  const nowC = one.history.tempC[one.history.tempC.length - 1]!;
  const used = (kept: number): number => Math.max(0, (1 - kept) / allowance);
  return {
    name: one.name,
    word: isCloseToRule(strength.chanceOfRecorded, effectiveDraws) ? 'uncertain' : strength.word,
    blind: strength.blind.map(({ because }) => because),
    usedShare: used(nominal),
    usedAtMost: used(low),
    left: HOTTER_K.map((hotterK) => ({
      tempC: nowC + hotterK,
      holdS: holdLeftS(one, strength, nowC + hotterK, 1 - allowance),
    })),
    ...(shop ? { limitC: shop.limitC } : {}),
  };
}

/** Hold at a reading, then cooling, that 95 of 100 draws of record and metal still have. */
function holdLeftS(one: PlaceToJudge, strength: StrengthAfter, readingC: number, needed: number): number {
  const { ambientC, thermocouple = USUAL_WIRE, attachment = 'not stated' } = one.record!.probe;
  const history = isothermal(readingC, 1);
  const doubts: Doubt[] = [...wireDoubts(history, thermocouple), fixingDoubt(history, attachment, ambientC)];
  const room = new Float64Array(history.timeS.length);
  const metalC = (draw: number): number =>
    temperaturesAt(
      { history, doubts, blind: [], because: [] },
      (doubt) => placeInRange(doubt, draw),
      room,
    )[0]!;
  const heat = (draw: number, s: number): ThermalHistory => holdAndCool(metalC(draw), s, ambientC);
  return weightedQuantiles(timesLeft(strength, needed, heat, HOLDS), [0.05])[0]!;
}

function holdAndCool(tempC: number, holdS: number, ambientC: number): ThermalHistory {
  return thermalHistory(
    [0, holdS, ...COOLING_AT.map((taus) => holdS + taus * COOLING_TAU_S)],
    [tempC, tempC, ...COOLING_AT.map((taus) => ambientC + (tempC - ambientC) * Math.exp(-taus))],
  );
}
