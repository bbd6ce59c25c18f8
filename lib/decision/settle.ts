import { type AlloyCard, startTemper } from '../alloy';
import { vickersOfYield } from '../kinetics';
import { weightedQuantile } from '../statistics';
import type { StrengthAfter } from '../strength';
import { beforeMeasuring } from '../verify';

/** An uncertain place, and what its draws say. */
export interface Unsettled {
  readonly name: string;
  readonly card: AlloyCard;
  readonly temper: string;
  readonly strength: Pick<StrengthAfter, 'word' | 'blind' | 'draws'>;
  readonly allowanceFraction: number;
}

/**
 * What would settle an uncertain verdict: which measurement, where, how many readings and which number, worked out from the
 * draws (`beforeMeasuring`) for cold metal as the card has it. Empty when it is settled. Where heat may be hidden no draw
 * knows it, so the reading stands by itself.
 */
export function settleBy({ name, card, temper, strength, allowanceFraction }: Unsettled): string[] {
  if (strength.word !== 'uncertain') return [];
  const { entry } = startTemper(card, temper);
  const here = `beside the probe "${name}"`;
  const isCast = card.family !== 'Al-Mg-Si wrought';
  const hardness = isCast ? 'Brinell' : 'Vickers';
  const compare = `${hardness} hardness ${here} and, for comparison, on the same part far from the heat (at least three readings each${isCast ? ', away from pores' : ''})`;
  const reference = isCast
    ? entry.brinell?.value
    : vickersOfYield(weightedQuantile(strength.draws.startYieldMPa, 0.5));
  if (strength.blind.length > 0 || reference === undefined)
    return [`${compare}: equal within their scatter speaks for temper kept.`, conductivityOf(card, entry)];
  const { sentence } = beforeMeasuring(
    { name, card, draws: strength.draws },
    { kind: isCast ? 'brinell' : 'vickers', reference },
    allowanceFraction,
  );
  return [
    `${compare}. Were the cold metal ${Math.round(reference)} ${isCast ? 'HB' : 'HV'}: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`,
    conductivityOf(card, entry),
  ];
}

function conductivityOf(
  { family }: AlloyCard,
  { conductivityIacs }: ReturnType<typeof startTemper>['entry'],
): string {
  if (family !== 'Al-Mg-Si wrought')
    return 'Conductivity tells little here: castings in T6 and in T7 are printed within 1 % IACS of each other.';
  return conductivityIacs
    ? `Conductivity there against cold metal of the same part: softer with a higher reading (${conductivityIacs.value} % IACS is typical before) means over-aged, softer with the same or a lower one means dissolved, which ageing brings back.`
    : 'Conductivity there against cold metal of the same part: a higher reading means over-aged.';
}
