import { readFileSync } from 'node:fs';
import { dataCheck, refuseProblems, TemperbookError } from '../../quantity';
import { membersHash } from '../../strength';
import { type Coupon, checkCoupon } from './coupon';
import { type CouponAnswer, couponWeights } from './couponWeights';

/** Name and version of the form. */
const LOT_CARD_FORM = 'temperbook lot card 1';

/** This shop's own metal: the coupons of one lot, and which plausible metals they were weighed with. */
export interface LotCard {
  readonly form: typeof LOT_CARD_FORM;
  readonly name: string;
  readonly alloy: string;
  readonly temper: string;
  readonly membersHash: string;
  readonly coupons: readonly Coupon[];
}

const numbers = { type: 'array', items: { type: 'number' } };
const SCHEMA = {
  type: 'object',
  required: ['form', 'name', 'alloy', 'temper', 'membersHash', 'coupons'],
  additionalProperties: false,
  properties: {
    form: { const: LOT_CARD_FORM },
    name: { type: 'string', minLength: 1, description: 'what the shop calls the lot' },
    alloy: { type: 'string', description: 'alloy, such as A356.0' },
    temper: { type: 'string', description: 'temper before the heat, such as T6' },
    membersHash: { type: 'string', description: 'which plausible metals were weighed, as the kit wrote it' },
    coupons: {
      type: 'array',
      minItems: 1,
      description: 'at least one coupon',
      items: {
        type: 'object',
        required: ['name', 'heat', 'kind', 'before', 'after'],
        properties: {
          name: { type: 'string' },
          kind: { type: 'string' },
          before: { type: 'number' },
          after: { type: 'number' },
          heat: {
            type: 'object',
            anyOf: [
              { required: ['tempC', 'timeS', 'into', 'thicknessMm'] },
              { required: ['timeS', 'tempC'], properties: { timeS: numbers, tempC: numbers } },
            ],
            description: 'a dip (tempC, timeS, into, thicknessMm) or a log (timeS, tempC)',
          },
        },
      },
    },
  },
};
const problems = dataCheck(SCHEMA, 'the card');

/** The card of a lot from its coupons. @throws TemperbookError listing what is wrong with it, and as `checkCoupon`. */
export function lotCard(lot: Pick<LotCard, 'name' | 'alloy' | 'temper' | 'coupons'>): LotCard {
  const { name, alloy, temper, coupons } = lot;
  const card: LotCard = { form: LOT_CARD_FORM, name, alloy, temper, membersHash: membersHash(), coupons };
  refuseProblems('This lot', problems(JSON.parse(JSON.stringify(card))));
  for (const coupon of coupons) checkCoupon(coupon);
  return card;
}

/** The text of a card's JSON file. */
export const lotCardText = (card: LotCard): string => `${JSON.stringify(card, undefined, 1)}\n`;

/**
 * What the lot of a card is, for `lots` of `judge` and of a metal: its coupons are weighed anew, so a card says nothing that
 * its coupons do not.
 * @throws TemperbookError when it is no such card, when it was made with other plausible metals, and as `couponWeights`.
 */
export function lotOfCard(card: unknown, file?: string): CouponAnswer {
  refuseProblems('This lot card', problems(card), file === undefined ? {} : { file });
  const { name, alloy, temper, membersHash: found, coupons } = card as LotCard;
  if (found !== membersHash())
    throw new TemperbookError(`The card of the lot "${name}" was made with other plausible metals`, {
      file,
      found: `members ${found}`,
      expected: `members ${membersHash()}`,
      remedy: 'Make it again from its coupons (lotCard), and look at what moved',
    });
  return couponWeights(name, { alloy, temper }, coupons);
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
