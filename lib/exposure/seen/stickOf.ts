import { TemperbookError } from '../../quantity';
import type { StickMark } from './temperatureSigns';

/**
 * A temperature stick in words: what is printed on it and whether it melted, "400F melted"; with the place it sat at where
 * there are several, "TC1=450F not melted".
 * @throws TemperbookError for anything else.
 * @example stickOf('400F not melted').melted // false
 */
export function stickOf(words: string): StickMark {
  const [, place, rating, not] = /^(?:(.+)=)?\s*(\S.*?)\s+(not\s+)?melted$/i.exec(words.trim()) ?? [];
  if (rating === undefined)
    throw new TemperbookError('This stick cannot be read', {
      found: `"${words}"`,
      expected: 'what is printed on it and whether it melted, such as "400F melted" or "TC1=450F not melted"',
    });
  return { kind: 'stick', rating, melted: not === undefined, ...(place === undefined ? {} : { place }) };
}
