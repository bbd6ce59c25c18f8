import { changeTexts } from './changeTexts';

/** Text that is HTML already: less and greater stand there as entities. */
const LEAD = '(?:(?:&[lg]t;|[±≤≥≈]) ?)?[+−-]?';
const NUMBER = '\\d+(?:[.,]\\d+)*';
const UNIT =
  '(?:%|(?:°[CF]?|mm|cm|m|in|ft|ms|s|min|h|d|K|kN(?: m)?|N|MPa|ksi|lbf|ft·lb|kg|g|kJ|J|W|V|A|HB|HV)(?![\\w°]))(?:\\/[a-z]+)?';
/** "91 %", "< 1 %", "155–175 °C", "15.3 °C/s". */
const QUANTITY = `${LEAD}${NUMBER}(?:–${NUMBER})?[ \\u00a0]${UNIT}`;
/** "82–103" */
const RANGE = `${NUMBER}–${NUMBER}`;
/** Short brackets that begin with a number: "(82 to 103 %)". */
const IN_BRACKETS = `\\((?=[^()]*[ \\u00a0–-])${LEAD}\\d[^()<>&]{0,22}\\)`;
/** An alloy with its temper, a number of a part, a date: "A356.0-T6", "HB-07", "2031-05-14". */
const DESIGNATION = '(?<![\\p{L}\\d./-])[\\p{L}\\d.]{1,8}(?:-\\p{L}?\\d[\\w.]{0,5}|-[FOW])+(?![\\w-])';
const TOGETHER = new RegExp(`${IN_BRACKETS}|(?<![\\p{L}\\d.])${QUANTITY}|${DESIGNATION}|${RANGE}`, 'gu');

/** Text of HTML of which no quantity, and no alloy with its temper, is parted at the end of a line. */
export const keepTogether = (html: string, attribute = 'style="white-space:nowrap"'): string =>
  html.replace(TOGETHER, `<span ${attribute}>$&</span>`);

/** `keepTogether` of every text of a page. */
export const pageKeptTogether = (page: string): string =>
  changeTexts(page, ['script', 'style', 'svg', 'title', 'code'], (text) =>
    keepTogether(text, 'class="whole"'),
  ).replace('</style>', '.whole { white-space: nowrap; }\n</style>');
