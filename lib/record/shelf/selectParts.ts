import { knownOptions, TemperbookError } from '../../quantity';
import { type VerdictWord, WORST_FIRST } from '../../strength';
import { numberOf, type ShelfPart } from './readShelf';

/** Which parts of a shelf to show; what is left out leaves all. */
export interface ShelfFilter {
  /** Of any judged place, as its card is called: "6061". */
  readonly alloy?: string;
  readonly word?: VerdictWord;
  /** In the part's number, serial, job or file. */
  readonly part?: string;
  /** First and last day of the work, "2031-05-14". */
  readonly from?: string;
  readonly to?: string;
  /** Only parts about which nobody has decided yet. */
  readonly undecided?: boolean;
}

const FILTERS = [
  'alloy',
  'word',
  'part',
  'from',
  'to',
  'undecided',
] as const satisfies readonly (keyof ShelfFilter)[];

/** Parts that a filter leaves, and how many it left out only because their record has no date. */
export interface Selection {
  readonly parts: readonly ShelfPart[];
  readonly undated: number;
}

/**
 * The parts of a shelf that a filter leaves, in the same order.
 * @throws TemperbookError for a filter it does not know, a word that is none, or a day that is not written "2031-05-14".
 */
export function selectParts(parts: readonly ShelfPart[], given: ShelfFilter = {}): Selection {
  const { alloy, word, part, from, to, undecided } = knownOptions(given, FILTERS, 'The shelf');
  if (word !== undefined && !WORST_FIRST.includes(word))
    throw new TemperbookError('This is no verdict', {
      found: `"${word}"`,
      expected: `one of ${WORST_FIRST.join(', ')}`,
    });
  for (const day of [from, to]) if (day !== undefined) checkDay(day);
  const wanted = plain(alloy ?? '');
  const looked = (part ?? '').toLowerCase();
  const left = parts.filter(({ newest }) => {
    const text = [numberOf(newest), newest.part, newest.job, newest.file].join(' ').toLowerCase();
    return (
      newest.places.some((place) => plain(place.alloy).startsWith(wanted)) &&
      (word === undefined || newest.verdict === word) &&
      text.includes(looked) &&
      !(undecided === true && newest.decision)
    );
  });
  const isAsked = from !== undefined || to !== undefined;
  const dated = isAsked ? left.filter(({ newest }) => newest.date !== undefined) : left;
  return {
    parts: dated.filter(
      ({ newest: { date = '' } }) => (from === undefined || date >= from) && (to === undefined || date <= to),
    ),
    undated: left.length - dated.length,
  };
}

function checkDay(day: string): void {
  const time = new Date(`${day}T00:00:00Z`);
  if (/^\d{4}-\d{2}-\d{2}$/.test(day) && !Number.isNaN(time.getTime()) && time.toISOString().startsWith(day))
    return;
  throw new TemperbookError('This is no day', { found: `"${day}"`, expected: 'a day such as 2031-05-14' });
}

const plain = (name: string): string => name.toLowerCase().replace(/[^a-z0-9.]/g, '');
