import { createHash } from 'node:crypto';

const STYLE = `
* { box-sizing: border-box; }
body { margin: 0; background: #fff; color: #1d2127; font: 18px/1.35 system-ui, -apple-system, "Segoe UI", Roboto, "Liberation Sans", "Helvetica Neue", Arial, sans-serif; }
h1 { margin: 0; padding: .35em .5em; font-size: clamp(1.9rem, 6vw, 4.5rem); line-height: 1.1; color: #fff; background: #39424e; }
.fine h1 { background: #0b6a4c; } .near h1 { background: #855400; } .stop h1 { background: #a3271b; }
main { display: grid; grid-template-columns: repeat(auto-fit, minmax(min(19rem, 100%), 1fr)); }
section { padding: .8rem 1rem; border-bottom: 1px solid #dfe2e7; border-left: .6rem solid #39424e; }
section.fine { border-color: #0b6a4c; } section.near { border-color: #855400; } section.stop { border-color: #a3271b; }
h2 { margin: 0; font-size: 1.15rem; }
.temp { margin: 0; font-size: clamp(2.6rem, 8vw, 5.5rem); font-weight: 700; line-height: 1.05; font-variant-numeric: tabular-nums; white-space: nowrap; }
.temp small { font-size: .38em; font-weight: 400; color: #5a616b; }
p { margin: .2rem 0; } .say { font-weight: 600; font-size: 1.3rem; }
.used { font-variant-numeric: tabular-nums; color: #5a616b; }
.bar { height: .7rem; background: #dfe2e7; position: relative; overflow: hidden; }
.bar i, .bar b { position: absolute; left: 0; top: 0; bottom: 0; } .bar i { background: #aab2bd; } .bar b { background: #1d2127; }
footer { padding: .6rem 1rem; color: #5a616b; font-size: .9rem; overflow-wrap: anywhere; }
`;

const SCRIPT = `
const f = (c) => Math.round(c * 9 / 5 + 32);
const together = (text) => text.replace(/(\\d) (?=%|°|(?:s|min|h)\\b)/g, '$1\u00a0');
const $ = (tag, className, text) => { const e = document.createElement(tag); if (className) e.className = className; if (text !== undefined) e.textContent = together(text); return e; };
function probe(p, us) {
  const s = $('section', p.level); s.dataset.probe = p.name;
  s.append($('h2', '', p.name));
  const both = (c) => us ? [f(c) + ' °F', Math.round(c) + ' °C'] : [Math.round(c) + ' °C', f(c) + ' °F'];
  const t = $('p', 'temp', p.tempC === null ? 'no reading' : both(p.tempC)[0] + ' ');
  if (p.tempC !== null) t.append($('small', '', both(p.tempC)[1]));
  s.append(t, $('p', 'say', p.say));
  if (p.usedShare !== null) {
    const bar = $('div', 'bar'); const most = $('i'); const median = $('b');
    most.style.width = Math.min(100, 100 * p.usedAtMost) + '%'; median.style.width = Math.min(100, 100 * p.usedShare) + '%';
    bar.append(most, median);
    s.append(bar, $('p', 'used', 'Allowance used ' + Math.round(100 * p.usedShare) + ' %, at most ' + Math.round(100 * p.usedAtMost) + ' %' + (p.limitC === null ? '' : '; limit ' + both(p.limitC)[0] + ' (' + both(p.limitC)[1] + ')')));
  }
  return s;
}
function show(state) {
  document.body.className = state.level;
  document.querySelector('h1').textContent = together(state.headline);
  document.title = state.headline;
  document.querySelector('main').replaceChildren(...state.probes.map((p) => probe(p, state.units === 'us')));
  document.querySelector('#notes').textContent = state.notes.join(' ');
}
document.querySelector('h1').textContent = 'Waiting';
const source = new EventSource('events');
source.onmessage = ({ data }) => show(JSON.parse(data));
source.addEventListener('end', ({ data }) => { source.close(); document.body.className = ''; document.querySelector('h1').textContent = JSON.parse(data); });
source.onerror = () => { if (source.readyState === EventSource.CLOSED) return; document.body.className = 'stop'; document.querySelector('h1').textContent = 'STOP: the watch does not answer'; };
`;

const sha256 = (text: string): string => createHash('sha256').update(text).digest('base64');

/** The page's content policy: its own style and script, and its own stream of events. */
export const WATCH_POLICY = [
  "default-src 'none'",
  `style-src 'sha256-${sha256(STYLE)}'`,
  `script-src 'sha256-${sha256(SCRIPT)}'`,
  "connect-src 'self'",
  'img-src data:',
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

/** The page that shows a weld as it goes on, to be read from the bench; it holds no text but what its script sets as text. */
export const WATCH_PAGE = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="icon" href="data:,">
<title>Watch of a weld</title>
<style>${STYLE}</style>
</head>
<body>
<h1>With scripts off this page shows nothing: read the terminal</h1>
<main></main>
<footer><p id="notes"></p><p>What the weld has done so far, were the part to cool now in still air as 6 mm plate does. The verdict comes with the record. It informs you; it certifies nothing.</p></footer>
<script>${SCRIPT}</script>
</body>
</html>
`;
