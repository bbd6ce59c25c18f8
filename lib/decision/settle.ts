import { type AlloyCard, startTemper } from '../alloy';
import { vickersOfYield } from '../kinetics';
import { weightedQuantile } from '../statistics';
import type { StrengthAfter } from '../strength';
import { beforeMeasuring, besidePlace, type MeasuringPlan, type ReadPlace, suggestCoupon } from '../verify';

/** An uncertain place, and what its draws say. */
export interface Unsettled {
  readonly name: string;
  readonly card: AlloyCard;
  readonly temper: string;
  readonly strength: Pick<StrengthAfter, 'word' | 'blind' | 'draws' | 'weights'>;
  readonly allowanceFraction: number;
}

/** What would settle an uncertain verdict, in sentences, and what each measurement is decided by. */
export interface Settling {
  readonly steps: readonly string[];
  readonly plans: readonly MeasuringPlan[];
}

/**
 * What would settle an uncertain verdict: which measurement, where, how many readings and which number, worked out from the
 * draws (`beforeMeasuring`) for cold metal as the card has it. Empty when it is settled. Where heat may be hidden no draw
 * knows it, so the reading stands by itself.
 */
export function settleBy({ name, card, temper, strength, allowanceFraction }: Unsettled): Settling {
  if (strength.word !== 'uncertain') return { steps: [], plans: [] };
  const { entry } = startTemper(card, temper);
  const isCast = card.family !== 'Al-Mg-Si wrought';
  const startMPa = weightedQuantile(strength.draws.startYieldMPa, 0.5, strength.weights);
  const reference = isCast ? entry.brinell?.value : vickersOfYield(startMPa);
  if (strength.blind.length > 0 || reference === undefined) {
    const alone = `${isCast ? 'Brinell' : 'Vickers'} hardness ${besidePlace(name)} and on cold metal of the same ${isCast ? 'casting, away from pores' : 'part'}, at least three readings each: equal within their scatter speaks for temper kept.`;
    return { steps: [alone, ...conductivityOf(card, entry)], plans: [] };
  }
  const place = { name, card, draws: strength.draws, weights: strength.weights };
  const hardness = beforeMeasuring(
    place,
    { kind: isCast ? 'brinell' : 'vickers', reference },
    allowanceFraction,
  );
  const bars = beforeMeasuring(place, { kind: 'yield', reference: startMPa }, allowanceFraction);
  const bar = { kind: 'yield', before: startMPa } as const;
  return {
    plans: [hardness, bars],
    steps: [
      hardness.sentence,
      `Tensile bars cut there and from cold metal, which ends this part. ${bars.sentence}`,
      ...couponStep(place, {
        alloy: card,
        temper,
        ...(isCast ? bar : { kind: 'vickers', before: reference }),
      }),
      ...conductivityOf(card, entry),
    ],
  };
}

/** A coupon that narrows the answer by less than this is not worth a bath. */
const WORTH_A_COUPON = 0.1;

/** The coupon of this lot that would narrow the answer most, where one would. */
function couponStep({ draws, weights }: ReadPlace, metal: Parameters<typeof suggestCoupon>[1]): string[] {
  const [best] = suggestCoupon(draws, metal, weights);
  if (!best || best.sdAfter > (1 - WORTH_A_COUPON) * best.sdBefore) return [];
  return [`${best.sentence} Weigh it with temperbook lot.`];
}

/** In castings it tells little: T6 and T7 are printed within 1 % IACS of each other. */
function conductivityOf(
  { family }: AlloyCard,
  { conductivityIacs }: ReturnType<typeof startTemper>['entry'],
): string[] {
  if (family !== 'Al-Mg-Si wrought') return [];
  const typical = conductivityIacs ? ` (${conductivityIacs.value} % IACS is typical before)` : '';
  return [
    `Conductivity there against cold metal of the same part${typical}: softer with a higher reading means over-aged, softer with the same or a lower one means dissolved, which ageing brings back. Meter good to 1 % IACS; meter, standards and part within 3 °C (5 °F); no paint above 0.08 mm (MIL-STD-1537C).`,
  ];
}
