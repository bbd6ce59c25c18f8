import { createHash } from 'node:crypto';
import { plotlyBundle } from '../figure';

/** Unpacks plotly, then draws each figure in place of its static picture. Runs in the reader's browser. */
const DRAW = `(async () => {
  const packed = document.getElementById('plotly').textContent;
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  const code = new Blob([await new Response(unpacked).arrayBuffer()], { type: 'text/javascript' });
  const script = document.createElement('script');
  script.src = URL.createObjectURL(code);
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
  const hash = createHash('sha256').update(DRAW).digest('base64');
  return {
    html: `<script type="application/octet-stream" id="plotly">${plotlyBundle().packed}</script>\n<script>${DRAW}</script>\n`,
    policy: `'sha256-${hash}' blob:`,
  };
}
