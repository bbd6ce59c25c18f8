import { resolve } from 'node:path';
import { findTemper, isOpenMetal, isQuenched, loadAlloy, metalAlternatives, parseMetal } from '../alloy';
import { TemperbookError } from '../quantity';
import type { Job, JobMetal } from './job';
import type { SaidMetal } from './jobFile';

/**
 * What is said of a metal, taken apart: `"A356-T6"` is the alloy A356 in the temper T6. A card's path starts at `folder`.
 * @throws TemperbookError for an alloy without a card, a temper it does not have, two tempers.
 */
export function jobMetal(said: SaidMetal, folder: string): JobMetal {
  const { alloy: word, ...known } = typeof said === 'string' ? { alloy: said } : said;
  if (isOpenMetal(word)) {
    const { temper: one, ...rest } = { temper: undefined, ...known };
    const open = one === undefined ? word : `${word} ${one}`;
    metalAlternatives(open);
    return { ...rest, open };
  }
  const words = parseMetal(word);
  const given = 'temper' in known && known.temper !== undefined ? parseMetal(known.temper).temper : undefined;
  const temper = words.temper ?? given ?? ('temper' in known ? known.temper : undefined);
  if (words.temper !== undefined && given !== undefined && words.temper !== given)
    throw new TemperbookError('Two tempers are given', {
      found: `"${word}" and "${(known as { temper: string }).temper}"`,
      expected: 'one temper',
    });
  const alloy = words.alloy && /\.json$/i.test(words.alloy) ? resolve(folder, words.alloy) : words.alloy;
  if (alloy !== undefined) {
    const card = loadAlloy(alloy);
    if (temper !== undefined && !isQuenched(temper)) findTemper(card, temper);
  }
  return { ...known, ...(alloy === undefined ? {} : { alloy }), ...(temper === undefined ? {} : { temper }) };
}

/** The metal under a probe. @throws TemperbookError as `jobMetal`, and for words that leave it open. */
export function metalOfProbe(said: SaidMetal, folder: string): JobMetal {
  const metal = jobMetal(said, folder);
  if (metal.open === undefined) return metal;
  throw new TemperbookError('The metal under one probe is left open', {
    found: `"${metal.open}"`,
    expected: 'one alloy in one temper, such as "6061-T6"',
    remedy: 'Only the metal of the whole part may be left open',
  });
}

/** What metal was heated. @throws TemperbookError for a job that does not say it. */
export function metalOf({ metal: { alloy, temper, open }, file, log }: Job): {
  alloy: string;
  temper: string;
} {
  if (open !== undefined)
    throw new TemperbookError(
      'The job leaves open what metal was heated, and this question is of one metal',
      {
        file,
        found: `"${open}"`,
        expected: 'one alloy in one temper, such as "metal": "A356-T6"',
        remedy: 'temperbook review (reviewOpenJob) judges every metal it may be',
      },
    );
  if (alloy !== undefined && temper !== undefined) return { alloy, temper };
  throw new TemperbookError('The job does not say what metal was heated', {
    file: file ?? log?.file,
    found:
      alloy === undefined
        ? temper
          ? `the temper ${temper} alone`
          : 'nothing'
        : `${alloy} without its temper`,
    expected:
      file === undefined
        ? 'the option --alloy A356-T6, or in a job file the key "metal": "A356-T6"'
        : 'the key metal with alloy and temper, such as "metal": "A356-T6"',
    remedy: 'The metal decides what heat can take away: ask, do not guess',
  });
}
