import { meltsFromC } from '../../alloy';
import { formatPercent } from '../../quantity';
import { hazKnockDown } from '../../section';
import type { PlaceToJudge } from '../judgeChannel';
import type { ChannelVerdict } from '../verdict';
import type { AsWelded } from './action';

/** The wall up to which the code's figure for TIG holds as printed, mm. */
const WALL_MM = 6;

/**
 * The soft zone of wrought metal beside a weld, where it is no softer than the code takes every such zone to be: the design
 * counts on that, not on the temper. Null for castings, for which no code here has such a figure, where heat may be missing,
 * where metal began to melt, and where even the low end of the yield lies below the code's.
 * Source: EN 1999-1-1:2007 table 3.2, TIG, as `hazKnockDown`.
 */
export function asWelded(
  { name, card, temper }: Pick<PlaceToJudge, 'name' | 'card' | 'temper'>,
  { verdict, blind, yieldMPa, yieldKeptFraction, peakC }: ChannelVerdict,
): AsWelded | null {
  if (card.family !== 'Al-Mg-Si wrought' || verdict === 'kept' || blind.length > 0) return null;
  if (peakC.high >= meltsFromC(card)) return null;
  const code = hazKnockDown({
    alloy: card.designation,
    temper,
    form: 'profile',
    process: 'TIG',
    thicknessMm: WALL_MM,
  });
  if (!code.supported || yieldMPa.low < code.proofHazMPa) return null;
  const proofMPa = Math.round(code.proofHazMPa);
  return {
    name,
    proofMPa,
    sentence: `${name} keeps ${formatPercent(yieldKeptFraction.nominal)} of its yield (at least ${Math.round(yieldMPa.low)} MPa): soft as ${card.designation}-${temper} beside a weld always is. Design with as-welded strength here: ${proofMPa} MPa proof stress up to ${WALL_MM} mm of wall (${code.source}, TIG), less in thicker metal.`,
  };
}
