import { TemperbookError } from '../../quantity';

/** Trace types of `Trace['type']` beside `scatter`, which is always there. */
const KEPT_TRACES = ['bar', 'heatmap', 'contour'] as const;
const MODULE = /^ {2}var ([\w$]+) = __(?:commonJS|esm)\(\{\n[\s\S]*?\n {2}\}\);$/gm;
const REGISTRY = /Plotly\.register\(\[[\s\S]*?\]\)/;
const REFERENCE = /\b(?:require|init)_[\w$]+/g;

/**
 * Leaves out what no kept trace needs. The file is one script of named modules, each a statement of its own
 * (`var require_x = __commonJS({ … });`), and one list that registers the traces: shorten the list, then keep
 * the modules that can still be reached by name. A module kept needlessly costs bytes, nothing else.
 * Throws `TemperbookError` when the file is built in another way than this.
 */
export function cutPlotly(whole: string): string {
  const modules = new Map<string, { text: string; readonly from: number; readonly to: number }>();
  for (const match of whole.matchAll(MODULE))
    modules.set(match[1]!, {
      text: match[0],
      from: match.index ?? 0,
      to: (match.index ?? 0) + match[0].length,
    });
  const index = modules.get('require_index');
  const calls = KEPT_TRACES.map(
    (trace) =>
      new RegExp(`require_${trace}\\d*\\(\\)`).exec(REGISTRY.exec(index?.text ?? '')?.[0] ?? '')?.[0],
  );
  if (!index || calls.includes(undefined))
    throw new TemperbookError('plotly.js is built in a way the kit does not know', {
      file: 'plotly.js-dist',
      expected: 'one list that registers the traces',
      remedy: 'Install the version of plotly.js-dist that the kit names in its package.json',
    });
  index.text = index.text.replace(REGISTRY, `Plotly.register([${calls.join(', ')}])`);
  const reached = new Set<string>();
  const waiting = ['require_index'];
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    const found = modules.get(name);
    if (!found || reached.has(name)) continue;
    reached.add(name);
    waiting.push(...(found.text.match(REFERENCE) ?? []));
  }
  let kept = '';
  let at = 0;
  for (const [name, { text, from, to }] of modules) {
    kept += whole.slice(at, from) + (reached.has(name) ? text : '');
    at = to;
  }
  return kept + whole.slice(at);
}
