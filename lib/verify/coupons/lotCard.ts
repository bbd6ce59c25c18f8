import { readFileSync } from 'node:fs';
import { membersHash } from '../../kinetics';
import { dataCheck, refuseProblems, schema, TemperbookError } from '../../quantity';
import { effectiveNumber } from '../../statistics';
import { type ChartFinding, chartLot } from './chartLot';
import { type Coupon, checkCoupon } from './coupon';
import { type CouponAnswer, couponWeights } from './couponWeights';

/** Name and version of the form. */
const LOT_CARD_FORM = 'temperbook lot card 1';

/** This shop's own metal: the coupons of one lot and what its furnace chart says, and which plausible metals they were weighed with. */
export interface LotCard {
  readonly form: typeof LOT_CARD_FORM;
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly membersHash: string;
  /** What its furnace chart says of the metal before the heat. */
  readonly chart?: ChartFinding;
  /** Empty where a chart is all there is. */
  readonly coupons: readonly Coupon[];
}

const { closed, listOf, number, open, text } = schema;
const course = (what: string) => listOf(what, number('a number'));
const SCHEMA = closed(
  undefined,
  {
    form: { const: LOT_CARD_FORM },
    name: { ...text('what the shop calls the lot'), minLength: 1 },
    alloy: text('alloy, such as A356.0'),
    temper: text('temper before the heat, such as T6'),
    membersHash: text('which plausible metals were weighed, as the kit wrote it'),
    coupons: listOf(
      'the coupons; at least one, unless a chart is told',
      open('a coupon', {
        name: text('what you call it'),
        kind: text('what was read on it'),
        before: number('the reading before'),
        after: number('the reading after'),
        heat: {
          type: 'object',
          anyOf: [
            { required: ['tempC', 'timeS', 'into', 'thicknessMm'] },
            { required: ['timeS', 'tempC'], properties: { timeS: course('s'), tempC: course('°C') } },
          ],
          description: 'a dip (tempC, timeS, into, thicknessMm) or a log (timeS, tempC)',
        },
      }),
    ),
  },
  {
    chart: closed('what a furnace chart said, as the kit wrote it', {
      schedule: text('the schedule it was held against'),
      sentence: text('what it said'),
      ofSchedule: { ...number('yield over that of the schedule'), exclusiveMinimum: 0, maximum: 3 },
      rangeMPa: { ...number('by how much the schedule’s own range moves the yield, MPa'), minimum: 0 },
    }),
  },
);
const problems = dataCheck(SCHEMA, 'the card');

/** The card of a lot from its coupons, its furnace chart or both. @throws TemperbookError listing what is wrong with it, and as `checkCoupon`. */
export function lotCard(lot: Pick<LotCard, 'name' | 'alloy' | 'temper' | 'chart' | 'coupons'>): LotCard {
  const { name, alloy, temper, chart, coupons } = lot;
  const card: LotCard = {
    form: LOT_CARD_FORM,
    name,
    alloy,
    temper,
    membersHash: membersHash(),
    ...(chart === undefined ? {} : { chart }),
    coupons,
  };
  refuseProblems('This lot', problems(JSON.parse(JSON.stringify(card))));
  if (coupons.length === 0 && chart === undefined)
    throw new TemperbookError(`Nothing is told of the lot "${name}"`, {
      found: 'neither coupons nor a chart',
      expected: 'at least one coupon, or the furnace chart of the lot',
    });
  for (const coupon of coupons) checkCoupon(coupon);
  return card;
}

/** The text of a card's JSON file. */
export const lotCardText = (card: LotCard): string => `${JSON.stringify(card, undefined, 1)}\n`;

/** Cards that were weighed, by what stands on them: a job asks for its lot when it is checked and whenever it is judged. */
const weighed = new Map<string, CouponAnswer>();

/**
 * What the lot of a card is, for `lots` of `judge` and of a metal: its coupons and its chart are weighed anew, so a card says
 * nothing that they do not.
 * @throws TemperbookError when it is no such card, when it was made with other plausible metals, and as `couponWeights`.
 */
export function lotOfCard(card: unknown, file?: string): CouponAnswer {
  refuseProblems('This lot card', problems(card), file === undefined ? {} : { file });
  const { name, alloy, temper, membersHash: found, chart, coupons } = card as LotCard;
  if (found !== membersHash())
    throw new TemperbookError(`The card of the lot "${name}" was made with other plausible metals`, {
      file,
      found: `members ${found}`,
      expected: `members ${membersHash()}`,
      remedy: 'Make it again from its coupons and its chart (lotCard), and look at what moved',
    });
  const text = JSON.stringify(card);
  const known = weighed.get(text);
  if (known !== undefined) return known;
  const byCoupons = couponWeights(name, { alloy, temper }, coupons);
  const answer =
    chart === undefined ? byCoupons : withChart(byCoupons, chartLot(name, { alloy, temper }, chart));
  weighed.set(text, answer);
  return answer;
}

function withChart(byCoupons: CouponAnswer, byChart: ReturnType<typeof chartLot>): CouponAnswer {
  const weights = byCoupons.weights.map((weight, i) => weight * byChart.weights[i]!);
  return {
    ...byCoupons,
    countsChart: true,
    weights,
    because: [...byChart.because, ...byCoupons.because],
    effectiveMembers: effectiveNumber(weights),
  };
}

/** The lot of a card's JSON file. @throws TemperbookError as `lotOfCard`, and when the file cannot be read. */
export function readLotCard(path: string): CouponAnswer {
  let value: unknown;
  try {
    value = JSON.parse(readFileSync(path, 'utf8'));
  } catch (error) {
    throw new TemperbookError('The lot card cannot be read', { file: path, found: (error as Error).message });
  }
  return lotOfCard(value, path);
}
