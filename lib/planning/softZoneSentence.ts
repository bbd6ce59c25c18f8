import { formatKept, formatPercent } from '../quantity';
import type { SoftZone } from './softZone';

/** How far a soft zone reaches as welded, and what is left of it after ageing again, as a welder would say it. */
export function softZoneSentence({
  alloy,
  temper,
  allowanceFraction,
  points,
  reach,
  treatments,
}: SoftZone): string {
  const { mm, beyond } = reach.asWelded;
  const needed = formatPercent(1 - allowanceFraction);
  const most = beyond ? `more than ${points[points.length - 1]!.distanceMm}` : mm.high.toFixed(0);
  const weakest = points.reduce((a, b) => (b.kept.reaged.nominal < a.kept.reaged.nominal ? b : a));
  return [
    mm.high === 0
      ? `${alloy}-${temper} keeps ${needed} of its yield everywhere beside the weld.`
      : `${alloy}-${temper} keeps less than ${needed} of its yield up to ${mm.nominal.toFixed(0)} mm from the weld's centre line (${mm.low.toFixed(0)} to ${most} mm).`,
    `${treatments.reaged.charAt(0).toUpperCase()}${treatments.reaged.slice(1)}, its weakest place keeps ${formatKept(weakest.kept.reaged)}, ${weakest.distanceMm} mm out.`,
  ].join(' ');
}
