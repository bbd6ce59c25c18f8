import { parseMetal, temperName } from '../../alloy';
import { TemperbookError } from '../../quantity';
import type { ResistanceOptions } from '../weldedSection';

/** Options whose alloy and temper stand apart. */
export type ApartOptions = ResistanceOptions & { readonly temper: string };

/**
 * Alloy and temper apart where they were written in one word ('6061-T6'); the codes know more alloys than the kit has cards.
 * @throws TemperbookError where no temper is said or two, and as `parseMetal`.
 */
export function metalApart(options: ResistanceOptions): ApartOptions {
  const { alloy = options.alloy, temper: inWord } = parseMetal(options.alloy);
  const asked = options.temper === undefined ? undefined : temperName(options.temper);
  const temper = inWord ?? asked;
  if (temper !== undefined && (inWord === undefined || asked === undefined || inWord === asked))
    return { ...options, alloy, temper };
  throw new TemperbookError(temper === undefined ? 'No temper is given' : 'Two tempers are given', {
    found: temper === undefined ? `"${options.alloy}" alone` : `"${options.alloy}" and "${options.temper}"`,
    expected: 'one, beside the alloy or in one word with it, such as "6061-T6"',
  });
}
