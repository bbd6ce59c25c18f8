import { parseNumber } from './cell';

/** The mark before the fraction of a number, why, and whether the other mark remains possible. */
export interface DecimalMark {
  readonly mark: '.' | ',';
  readonly why: string;
  readonly isOpen: boolean;
}

type Mark = '.' | ',';
const other = (mark: Mark): Mark => (mark === ',' ? '.' : ',');
/** One reading is smoother than the other when its largest step is so many times smaller. */
const CLEARLY = 3;
/** No temperature and hardly a row number is as large, so that all numbers this large are no thousands. */
const LARGEST_C = 3000;

/**
 * Decides the decimal mark from sampled rows. Most numbers can be explained by one mark only; a mark that is
 * always followed by exactly three digits may part thousands instead, which shows where a column goes on from
 * 999 to "1,004": the reading in which the columns are smooth is the right one.
 */
export function decimalMark(rows: readonly (readonly string[])[]): DecimalMark {
  const need = { '.': 0, ',': 0 };
  const either = { '.': 0, ',': 0 };
  for (const row of rows)
    for (const field of row) {
      if (field.includes(':')) continue;
      const number = bareNumber(field);
      const groups = /^\d{1,3}(?:([.,])\d{3})+$/.exec(number);
      if (groups && (number.match(/[.,]\d/g)?.length ?? 0) > 1) need[other(groups[1] as Mark)]++;
      else if (groups && !/^0\d*[.,]/.test(number)) either[groups[1] as Mark]++;
      else {
        const fraction = /^(?:\d*|\d{1,3}(?:[.,]\d{3})+)([.,])\d+$/.exec(number);
        if (fraction) need[fraction[1] as Mark]++;
      }
    }
  // A point and three digits are read as a fraction unless the columns say otherwise.
  const mark: Mark = need[','] > need['.'] || (need['.'] === 0 && either[','] > either['.']) ? ',' : '.';
  if (need[','] + need['.'] > 0 && need[other(mark)] === 0 && need[mark] > 0)
    return { mark, why: `${need[mark] + either[mark]} of the numbers looked at need it`, isOpen: false };
  if (need[mark] > 0) return { mark, why: `${need[mark]} of the numbers looked at need it`, isOpen: false };
  if (either[mark] === 0) return { mark: '.', why: 'no number has one', isOpen: false };
  return marksThousands(rows, mark);
}

/** Every mark has three digits after it: thousands, when the columns are smooth so and jump otherwise. */
function marksThousands(rows: readonly (readonly string[])[], mark: Mark): DecimalMark {
  const asFraction = largestSteps(rows, mark);
  const asThousands = largestSteps(rows, other(mark));
  const example = rows.flat().find((field) => /^[^\d]*\d{1,3}[.,]\d{3}$/.test(bareNumber(field))) ?? '';
  if (asThousands * CLEARLY < asFraction)
    return {
      mark: other(mark),
      why: `"${example}" is thousands, as the column goes on smoothly only so`,
      isOpen: false,
    };
  const why = `"${example}" could mean thousands; option decimal "${other(mark)}" would read it so`;
  // Three places after a point are the ordinary fraction.
  const isSure = mark === '.' || asFraction * CLEARLY < asThousands || allTooLarge(rows, mark);
  return isSure
    ? { mark, why: `numbers like "${example}" are no temperatures without one`, isOpen: false }
    : { mark, why, isOpen: true };
}

/** The largest step of any column that has numbers with a mark, as a share of its range. */
function largestSteps(rows: readonly (readonly string[])[], decimal: Mark): number {
  let largest = 0;
  // Only a column that has numbers with and without a mark can tell.
  for (const column of markedColumns(rows).filter((texts) =>
    texts.some((text) => /^\D?\d{1,3}$/.test(text)),
  )) {
    const values = column
      .map((text) => parseNumber(text, decimal))
      .filter((value) => Number.isFinite(value) && Math.abs(value) < 9e4);
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    let step = 0;
    values.forEach((value, i) => {
      low = Math.min(low, value);
      high = Math.max(high, value);
      if (i > 0) step = Math.max(step, Math.abs(value - values[i - 1]!));
    });
    if (high > low) largest = Math.max(largest, step / (high - low));
  }
  return largest;
}

function markedColumns(rows: readonly (readonly string[])[]): string[][] {
  const width = Math.max(0, ...rows.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, c) => rows.map((row) => row[c] ?? ''));
  return columns.filter((column) => column.some((text) => /^[^\d]*\d{1,3}[.,]\d{3}$/.test(text)));
}

function allTooLarge(rows: readonly (readonly string[])[], mark: Mark): boolean {
  return markedColumns(rows).every((column) =>
    column.every((text) => !text.includes(mark) || Math.abs(parseNumber(text, other(mark))) > LARGEST_C),
  );
}

/** Digits and marks of a number, without sign, unit, exponent and blanks between its digits. */
const bareNumber = (field: string) =>
  field
    .replace(/[^\d.,]+$/, '')
    .replace(/[eE].*$/, '')
    .replace(/[' \u00a0\u2009\u202f’]/g, '')
    .replace(/^[^\d.,]{0,2}/, '');
