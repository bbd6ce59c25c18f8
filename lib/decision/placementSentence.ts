import type { Placement } from '../planning';
import { formatTemp } from '../quantity';
import { VERDICT_IN_WORDS } from './wording';

/** Where the probe goes and what to watch for, as a welder would say it. */
export function placementSentence({ limitC, criticalPeakC, criticalVerdict, best }: Placement): string {
  const every =
    best.slowestIntervalS === undefined
      ? 'faster than every 0.1 s'
      : `every ${best.slowestIntervalS} s or faster`;
  const { nominal, low, high } = criticalPeakC;
  const between = high > low ? `, between ${low.toFixed(0)} and ${high.toFixed(0)} °C,` : '';
  return [
    `The metal that matters will reach ${formatTemp(nominal)}${between} as planned, ${nominal > limitC ? 'above' : 'within'} its limit of ${formatTemp(limitC)}. A verdict on it would say: ${VERDICT_IN_WORDS[criticalVerdict]}.`,
    `Put the probe ${best.distanceMm} mm from the weld's centre line and read it ${every}.`,
    `Stop at a reading of ${formatTemp(best.readingAtLimitC.low)}: the metal that matters may then be at its limit.`,
  ].join(' ');
}
