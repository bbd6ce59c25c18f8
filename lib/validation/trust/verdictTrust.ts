import { judge } from '../../decision';
import { scheduleHistory } from '../../history';
import { censoredResidual } from '../../statistics';
import { measuredFacts } from '../evidence/measuredFact';
import type { TrustRow } from './modelTrust';

/** A soak in a laboratory: junctions fixed as well as they can be, so that the band is not that of a loose probe. */
const LABORATORY = { ambientC: 20, attachment: 'welded wires' } as const;

/**
 * Every measured soak of an aged temper judged like a log: what a user of `judge` would have been told, plausible metals
 * and the doubt of a well fixed probe together. It has no one clock.
 */
export function verdictTrust(): TrustRow[] {
  return measuredFacts().flatMap((fact): TrustRow[] => {
    const { alloy, temper, kind, value, standardError, startYieldMPa } = fact;
    if (temper === undefined || kind === 'peak') return [];
    const [first] = fact.exposure;
    const soaks = scheduleHistory(
      fact.exposure.map(({ tempC, timeS }) => ({ tempC, holdS: timeS })),
      first!.tempC,
    );
    const [channel] = judge(soaks, {
      alloy,
      temper,
      measuredYieldMPa: startYieldMPa,
      ...LABORATORY,
    }).channels;
    const { nominal, low, high } = channel!.yieldKeptFraction;
    return [
      {
        model: 'verdict',
        fact,
        fitted: fact.use === 'fit',
        nominal,
        low,
        high,
        residual: censoredResidual(nominal, kind, value, standardError),
        insideBand: (kind === 'below' || high >= value) && (kind === 'atLeast' || low <= value),
        timeFactor: null,
        remarks: [],
      },
    ];
  });
}
