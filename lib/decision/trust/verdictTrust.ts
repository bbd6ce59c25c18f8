import { scheduleHistory } from '../../history';
import { censoredResidual } from '../../kinetics';
import { judge } from '../judge';
import { measuredFacts } from './measuredFact';
import type { TrustRow } from './modelTrust';

/** Warm air round the soaks, °C: only the doubt of a probe's attachment asks for it. */
const AMBIENT_C = 20;

/**
 * Every measured soak of an aged temper judged like a log: what a user of `judge` would have been told, all models
 * and the doubt of a probe together. Its clock is that of the model that governs, so it has none of its own.
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
      ambientC: AMBIENT_C,
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
        remarks: channel!.remarks.map(({ text }) => text),
      },
    ];
  });
}
