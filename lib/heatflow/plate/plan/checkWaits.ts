import { formatTemp, TemperbookError } from '../../../quantity';
import type { PlatePlan } from './platePlan';

/**
 * Refuses to wait for what cannot come: nothing of a part gets colder than the coldest of where it starts, its air and what
 * is pressed on it (maximum principle of the heat equation).
 * @throws TemperbookError with the pass, before anything is computed.
 */
export function checkWaits(plan: PlatePlan): void {
  const { surface, contacts = [], airChanges = [], preheat = [], initialC, passes, until } = plan;
  const coldestC = Math.min(
    initialC,
    surface.ambientC,
    ...preheat.map(({ tempC }) => tempC),
    ...contacts.map(({ bodyC }) => bodyC),
    ...airChanges.map(({ ambientC }) => ambientC ?? surface.ambientC),
  );
  const remedy = `Nothing here is colder than ${formatTemp(coldestC, 1)}: look at the limit, the air and the clamps`;
  for (const [i, { name, startAfter }] of passes.entries()) {
    const limitC = startAfter?.interpassC;
    if (limitC === undefined || limitC >= coldestC) continue;
    throw new TemperbookError(`${name ?? `Pass ${i + 1}`} would wait for ever`, {
      found: `interpassC ${formatTemp(limitC, 1)}`,
      remedy,
    });
  }
  if ('coolToC' in until && until.coolToC < coldestC)
    throw new TemperbookError('The part does not cool to the temperature asked for', {
      found: `coolToC ${formatTemp(until.coolToC, 1)}`,
      remedy,
    });
}
