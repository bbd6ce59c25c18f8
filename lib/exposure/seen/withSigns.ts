import type { Exposure } from '../exposure';
import { boundBlind } from '../told/boundBlind';
import { type TemperatureSign, weighableSigns } from './temperatureSigns';

/**
 * An exposure with what was seen of its temperature: sticks and readings by hand weigh its draws wherever strength is asked
 * (`weightsOfSigns`), and blind time is bounded by the lowest stick that did not melt.
 * @throws TemperbookError as `weighableSigns`.
 */
export function withSigns(exposure: Exposure, signs: readonly TemperatureSign[]): Exposure {
  if (signs.length === 0) return exposure;
  const seen = weighableSigns(signs);
  const most = Math.min(...seen.flatMap(({ says, tempC, toK }) => (says === 'at most' ? [tempC + toK] : [])));
  const bounded = most === Number.POSITIVE_INFINITY ? exposure : boundBlind(exposure, most);
  return { ...bounded, because: [...bounded.because, ...seen.map(({ because }) => because)], seen };
}
