import { TemperbookError } from '../../quantity';
import { type FillerFacts, fillerFacts } from '../../section';

/** How weld metal of a filler, listed or not, takes a heat treatment. */
export interface FillerResponse extends Omit<FillerFacts, 'filler' | 'magnesiumWtPct'> {
  readonly filler: string;
}

/** How a filler responds; one that is not listed, or not said, responds in a way nobody knows. */
export function fillerResponse(filler: string | undefined): FillerResponse {
  if (filler !== undefined && typeof filler !== 'string')
    throw new TemperbookError('The filler is not a name', { found: String(filler), expected: '"4043"' });
  const number = /(?<!\d)(\d{4})(?!\d)/.exec(filler ?? '')?.[1];
  const found = number === undefined ? undefined : fillerFacts().get(number);
  if (found) return found;
  return {
    filler: filler ?? 'not said',
    toAgeing: 'nobody knows',
    toFullTreatment: 'nobody knows',
    because: filler === undefined ? 'the filler is not said' : 'nothing was found of this filler',
    source: 'none',
    known: 'practice',
  };
}
