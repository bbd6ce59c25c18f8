import { escapeXml } from '../../quantity';

/** What a table, a list or some words in a cell's HTML are made of; none of it does anything by itself. */
const TAGS: ReadonlySet<string> = new Set(
  (
    'table thead tbody tfoot tr th td caption colgroup col div span p b strong i em u s small sub sup code pre kbd ' +
    'samp var blockquote ul ol li dl dt dd br hr h1 h2 h3 h4 h5 h6 figure figcaption img'
  ).split(' '),
);
const EMPTY: ReadonlySet<string> = new Set(['br', 'hr', 'col', 'img']);
const ATTRIBUTES: ReadonlySet<string> = new Set([
  'class',
  'colspan',
  'rowspan',
  'scope',
  'title',
  'alt',
  'align',
]);
/** Elements whose text is no text for a reader. */
const UNREAD = /<(script|style|template|noscript|iframe|object|svg|math)\b[\s\S]*?(?:<\/\1\s*>|$)/gi;
const COMMENT = /<!--[\s\S]*?(?:-->|$)/g;
const TAG = /<(\/?)([a-z][a-z0-9]*)((?:\s(?:"[^"]*"|'[^']*'|[^'">])*)?)\/?>/gi;
const ATTRIBUTE = /([a-z-]+)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))/gi;
const PICTURE = /^data:image\/(?:png|jpeg|gif);base64,[\w+/=]*$/;

/**
 * A cell's HTML with nothing in it that runs, loads, moves the page or changes its look: every tag of the result is written
 * anew from a list of plain ones, and closed. Any other tag is shown as the text it is.
 */
export function inertHtml(html: string): string {
  const source = html.replace(COMMENT, '').replace(UNREAD, '');
  const open: string[] = [];
  let out = '';
  let at = 0;
  for (const match of source.matchAll(TAG)) {
    const [whole, slash, written, attributes] = match;
    const tag = written!.toLowerCase();
    const from = match.index ?? 0;
    out += inertText(source.slice(at, from));
    at = from + whole.length;
    if (!TAGS.has(tag)) out += inertText(whole);
    else if (slash === '') {
      out += `<${tag}${inertAttributes(tag, attributes!)}>`;
      if (!EMPTY.has(tag)) open.push(tag);
    } else if (open.includes(tag)) {
      // What was left open inside it ends with it.
      for (let last = ''; last !== tag; ) {
        last = open.pop()!;
        out += `</${last}>`;
      }
    }
  }
  out += inertText(source.slice(at));
  return (
    out +
    open
      .reverse()
      .map((tag) => `</${tag}>`)
      .join('')
  );
}

/** Text as it stands, its entities kept. */
const inertText = (text: string): string => text.replace(/</g, '&lt;').replace(/>/g, '&gt;');

function inertAttributes(tag: string, written: string): string {
  return [...written.matchAll(ATTRIBUTE)]
    .map(([, name, a, b, c]) => [name!.toLowerCase(), a ?? b ?? c ?? ''] as const)
    .filter(
      ([name, value]) => ATTRIBUTES.has(name) || (tag === 'img' && name === 'src' && PICTURE.test(value)),
    )
    .map(([name, value]) => ` ${name}="${escapeXml(value.replace(/&amp;/g, '&').replace(/&quot;/g, '"'))}"`)
    .join('');
}
