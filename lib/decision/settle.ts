import { type AlloyCard, startTemper } from '../alloy';
import { vickersOfYield } from '../kinetics';
import type { VerdictWord } from '../strength';

/**
 * What would settle an uncertain verdict: which measurement, where, against what. Empty when it is settled.
 * Wrought 6xxx: `vickersOfYield` turns the yield asked for into a hardness. Castings have no such relation, so the
 * comparison is with cold metal of the same casting.
 */
export function settleBy(
  channel: { readonly name: string; readonly verdict: VerdictWord },
  card: AlloyCard,
  temper: string,
  neededFraction: number,
): string[] {
  if (channel.verdict !== 'uncertain') return [];
  const { entry } = startTemper(card, temper);
  const here = `beside the probe "${channel.name}"`;
  const conductivity = entry.conductivityIacs
    ? `Conductivity there against cold metal of the same part: softer with a higher reading (${entry.conductivityIacs.value} % IACS is typical before) means over-aged, softer with the same or a lower one means dissolved, which ageing brings back.`
    : 'Conductivity there against cold metal of the same part: a higher reading means over-aged.';
  if (card.family === 'Al-Mg-Si wrought') {
    const vickers = Math.round(vickersOfYield(neededFraction * entry.yieldMPa.value));
    return [
      `Vickers hardness ${here}: ${vickers} HV or more speaks for ${Math.round(neededFraction * 100)} % of the yield of ${temper} (HV = 0.33 × yield + 16).`,
      conductivity,
    ];
  }
  return [
    `Brinell hardness ${here} and, for comparison, on the same casting far from the heat (at least three readings each, away from pores): equal within their scatter speaks for temper kept.`,
    'Conductivity tells little here: castings in T6 and in T7 are printed within 1 % IACS of each other.',
  ];
}
