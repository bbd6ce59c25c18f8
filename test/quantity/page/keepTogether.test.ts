import { describe, expect, it } from 'vitest';
import { escapeXml, finishPage, keepTogether } from '../../../lib/quantity';
import { fc } from '../../setup/fc';

/** What of a text stays on one line, piece by piece. */
const wholes = (text: string): string[] =>
  [...keepTogether(escapeXml(text), 'class="whole"').matchAll(/<span class="whole">(.*?)<\/span>/g)].map(
    ([, whole]) => whole!,
  );

describe('keepTogether', () => {
  it.each([
    ['TC2 block 28 mm of A356.0-T6', ['28 mm', 'A356.0-T6']],
    ['at 227 °C (440 °F), ± 5.5 K', ['227 °C', '(440 °F)', '± 5.5 K']],
    ['91 % (82 to 103 %), chance < 1 %', ['91 %', '(82 to 103 %)', '&lt; 1 %']],
    ['82–103 of 155–175 °C at 15.3 °C/s', ['82–103', '155–175 °C', '15.3 °C/s']],
    ['J-1042, HB-07 and EN 1999-1-1 of 2031-05-14', ['J-1042', 'HB-07', '1999-1-1', '2031-05-14']],
    ['0.671 kN m, 20.0 ksi, 12 h 19 min', ['0.671 kN m', '20.0 ksi', '12 h', '19 min']],
    ['356-T6, 6061-O, 3 minutes in 5 holes (2)', ['356-T6', '6061-O']],
    // A name of a file has places to be parted at: it may be longer than a line.
    ['2026-03-02-bench-1-MF-101.csv, logs/hb-07-weld.csv', []],
  ])('of "%s"', (text, expected) => {
    expect(wholes(text)).toEqual(expected);
  });

  it('changes no letter of a text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'12.–-(°C% mKTW<&)') }), (text) => {
        const html = escapeXml(text);
        expect(keepTogether(html).replace(/<\/?span[^>]*>/g, '')).toBe(html);
      }),
    );
  });

  it('leaves what no reader sees, and code, as it is', () => {
    const page =
      '<title>12 mm</title><style>a{}</style><p data-label="12 mm">12 mm <code>x = 12 mm</code></p><svg><text>12 mm</text></svg>';
    expect(finishPage(page, 'metric')).toBe(
      page
        .replace('<p data-label="12 mm">12 mm', '<p data-label="12 mm"><span class="whole">12 mm</span>')
        .replace('</style>', '.whole { white-space: nowrap; }\n</style>'),
    );
  });
});
