import { describe, expect, it } from 'vitest';
import { inertHtml } from '../../dist/notebook/page/inertHtml';
import { fc } from '../setup/fc';

/** Tags and attributes of a page's text, as any reader of HTML would find them. */
const tags = (html: string) => [...html.matchAll(/<\/?([a-zA-Z!?][^\s>/]*)/g)].map(([, tag]) => tag);

const LIVE = [
  '<meta http-equiv="refresh" content="0;url=x">',
  '<script>alert(1)</script>',
  '<SCRIPT SRC=x></SCRIPT>',
  '<img src=x onerror=alert(1)>',
  '<img src="https://example.org/a.png">',
  '<svg onload=alert(1)>',
  '<a href="javascript:alert(1)">x</a>',
  '<base href="https://example.org">',
  '<link rel="stylesheet" href="x">',
  '<style>body { display: none }</style>',
  '<form action="x"><input name="a"></form>',
  '<iframe srcdoc="<script>alert(1)</script>"></iframe>',
  '<div onclick="alert(1)" style="position: fixed">x</div>',
  '<table background="https://example.org/a.png"><td>x</table>',
  '<<b>script>alert(1)</script>',
  '<p title="a > b" onmouseover="alert(1)">x</p>',
  '</main></body><h1>after</h1>',
  '<b><!-- --><i>',
  '<img title="\u2028" class=\'"><script>alert(1)</script>\'>',
];

describe('HTML of a cell in a page', () => {
  it('keeps tables and words', () => {
    const table =
      '<table class="numbers"><thead><tr><th scope="col">Probe</th></tr></thead><tbody><tr><td colspan="2">TC1 &lt;hinge&gt; 5 &amp; 6</td></tr></tbody></table>';
    expect(inertHtml(table)).toBe(table);
    expect(inertHtml('<p>one<br>two <b>three</b></p>')).toBe('<p>one<br>two <b>three</b></p>');
    const dot = '<img src="data:image/png;base64,AAAA" alt="dot">';
    expect(inertHtml(dot)).toBe(dot);
  });

  it.each(LIVE)('nothing of %s is live', (html) => {
    const inert = inertHtml(html);
    expect(tags(inert).filter((tag) => !/^(?:img|div|table|td|b|i|p|h1)$/.test(tag!))).toEqual([]);
    expect(inert.replace(/&lt;.*?&gt;/gs, '')).not.toMatch(/<[^>]*\s(?:on\w+|style|src|href|background)=/i);
  });

  it('holds no tag but those on its list, whatever goes in, and closes what it opens', () => {
    const piece = fc.oneof(
      fc.constantFrom(...LIVE, '<', '>', '"', "'", '</', '<p', ' onload=', '<td>', '</td>'),
      fc.string(),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        const inert = inertHtml(pieces.join(''));
        expect(inert).not.toMatch(/<\/?(?:script|meta|base|link|style|iframe|form|input|svg|object|a)\b/i);
        expect(inert).not.toMatch(/<(?![a-z/])/);
        expect(inert).not.toMatch(/<[a-z][^<>]*\s(?:on\w+|style|href)=/i);
        const open: string[] = [];
        for (const [, slash, tag] of inert.matchAll(/<(\/?)([a-z0-9]+)/g))
          if (slash) expect(open.pop()).toBe(tag);
          else if (!['br', 'hr', 'col', 'img'].includes(tag!)) open.push(tag!);
        expect(open).toEqual([]);
      }),
      { numRuns: 300, endOnFailure: true },
    );
  });
});
