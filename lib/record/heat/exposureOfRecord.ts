import type { Doubt, Exposure, WeighableSign } from '../../exposure';
import { join } from '../../history';
import { TemperbookError } from '../../quantity';
import type { DecisionRecord } from '../decisionRecord';
import { restoredExposure } from './recordedExposure';

/**
 * What the metal under a probe saw up to the end of a record: this heat and every one judged before it, with their
 * doubts and blind times. For `earlier` of `judge` when the part is welded again.
 * @throws TemperbookError for a probe the record does not have.
 */
export function exposureOfRecord({ verdict }: DecisionRecord, channel: string): Exposure {
  const found = verdict.channels.find(({ name }) => name === channel);
  if (found) return oneAfterAnother([...found.earlier, found.exposure].map(restoredExposure));
  throw new TemperbookError('The record has no such probe', {
    found: `"${channel}"`,
    expected: `one of ${verdict.channels.map(({ name }) => `"${name}"`).join(', ')}`,
  });
}

/** Nobody recorded the time between two heats, s; its length says nothing. */
const PAUSE_S = 1;

/** Several heats of one place as one exposure; each doubt is about its own heat alone. */
function oneAfterAnother(heats: readonly Exposure[]): Exposure {
  if (heats.length === 1) return heats[0]!;
  const history = join(
    heats.map((heat) => heat.history),
    PAUSE_S,
  );
  const samples = history.timeS.length;
  const doubts: Doubt[] = [];
  const blind: Exposure['blind'][number][] = [];
  const seen: WeighableSign[] = [];
  let first = 0;
  for (const heat of heats) {
    const at = first;
    const padded = (shiftK: Float64Array): Float64Array => {
      const whole = new Float64Array(samples);
      whole.set(shiftK, at);
      return whole;
    };
    const laterS = history.timeS[at]! - heat.history.timeS[0]!;
    for (const doubt of heat.doubts)
      doubts.push(
        'runsK' in doubt
          ? { ...doubt, runsK: doubt.runsK.map(padded) }
          : { ...doubt, shiftK: padded(doubt.shiftK) },
      );
    for (const time of heat.blind)
      blind.push({ ...time, fromS: time.fromS + laterS, toS: time.toS + laterS });
    const { timeS } = heat.history;
    for (const { fromS = timeS[0]!, toS = timeS[timeS.length - 1]!, atS, ...sign } of heat.seen ?? [])
      seen.push({
        ...sign,
        ...(atS === undefined ? { fromS: fromS + laterS, toS: toS + laterS } : { atS: atS + laterS }),
      });
    first += timeS.length;
  }
  return {
    history,
    doubts,
    blind,
    because: heats.flatMap(({ because }) => because),
    ...(seen.length > 0 ? { seen } : {}),
  };
}
