import { type AlloyCard, loadAlloy } from '../alloy';
import { TemperbookError } from '../quantity';
import type { AlloyLike } from './temperModel';

/**
 * The card behind whatever a model was given.
 * @throws TemperbookError for a bare composition: a model fitted to measured data needs the alloy it was
 * fitted for.
 */
export function resolveAlloy(alloy: AlloyLike, model: string): AlloyCard {
  if (typeof alloy !== 'object' || alloy === null || 'designation' in alloy) return loadAlloy(alloy);
  throw new TemperbookError(`The ${model} needs an alloy card`, {
    found: 'a bare composition',
    expected: 'a designation such as A356.0, or a card',
    remedy: 'For a bare composition use the precipitate model',
  });
}
