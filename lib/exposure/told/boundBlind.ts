import { tempAt, thermalHistory } from '../../history';
import { formatTemp, requireNumber } from '../../quantity';
import type { Doubt, Exposure } from '../exposure';

/**
 * An exposure whose blind time is bounded from above, by a stick that sat there all the time and did not melt: what was blind
 * becomes a doubt of the record, from what it says up to the bound for the whole of that time.
 * @throws TemperbookError for a bound that is no temperature.
 */
export function boundBlind(exposure: Exposure, atMostC: number): Exposure {
  requireNumber(atMostC, 'The bound in °C', { low: -50, high: 1400 });
  if (exposure.blind.length === 0) return exposure;
  const { history, blind } = exposure;
  const edges = blind.flatMap(({ fromS, toS }) => [fromS, toS]);
  const isBlind = (t: number): boolean => blind.some(({ fromS, toS }) => t >= fromS && t <= toS);
  const first = Math.min(history.timeS[0]!, ...edges);
  const last = Math.max(history.timeS[history.timeS.length - 1]!, ...edges);
  const timeS = [...new Set([...history.timeS, ...edges, first, last])].sort((a, b) => a - b);
  const clamped = (t: number): number =>
    Math.min(history.timeS[history.timeS.length - 1]!, Math.max(history.timeS[0]!, t));
  const whole = { timeS: history.timeS, tempC: history.tempC };
  const onto = (values: Float64Array): Float64Array =>
    Float64Array.from(timeS, (t) => tempAt({ timeS: whole.timeS, tempC: values }, clamped(t)));
  const tempC = onto(history.tempC);
  const doubts = exposure.doubts.map(
    (doubt): Doubt =>
      'runsK' in doubt
        ? { ...doubt, runsK: doubt.runsK.map(onto) }
        : { ...doubt, shiftK: onto(doubt.shiftK) },
  );
  return {
    history: thermalHistory(timeS, tempC),
    doubts: [
      ...doubts,
      {
        kind: 'unseen',
        of: 'time without a reading, bounded by what did not melt',
        spread: { shape: 'even', low: 0, high: 1 },
        shiftK: Float64Array.from(timeS, (t, i) => (isBlind(t) ? Math.max(0, atMostC - tempC[i]!) : 0)),
      },
    ],
    blind: [],
    because: [
      ...exposure.because,
      `What was not recorded is bounded by ${formatTemp(atMostC)}, which was not reached there.`,
    ],
  };
}
