import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';

/** Unpacks plotly, then draws each figure over its static picture. Runs in the reader's browser. */
const DRAW = `(async () => {
  const packed = document.getElementById('plotly').textContent;
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const code = await new Response(new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'))).blob();
  const script = document.createElement('script');
  script.src = URL.createObjectURL(code.slice(0, code.size, 'text/javascript'));
  await new Promise((resolve, reject) => {
    script.onload = resolve;
    script.onerror = reject;
    document.head.append(script);
  });
  for (const figure of document.querySelectorAll('figure.plot')) {
    const { data, layout } = JSON.parse(figure.querySelector('script').textContent);
    const plot = document.createElement('div');
    figure.append(plot);
    await Plotly.newPlot(plot, data, layout, { responsive: true, displaylogo: false });
    figure.querySelector('.still').remove();
  }
})();`;

/** The scripts that make a page's figures live, and what its content policy must allow for them. */
export function plotScripts(): { readonly html: string; readonly policy: string } {
  const plotly = gzipSync(readFileSync(require.resolve('plotly.js-dist')), { level: 9 }).toString('base64');
  const hash = createHash('sha256').update(DRAW).digest('base64');
  return {
    html: `<script type="application/octet-stream" id="plotly">${plotly}</script>\n<script>${DRAW}</script>\n`,
    policy: `'sha256-${hash}' blob:`,
  };
}
