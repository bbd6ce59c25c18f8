import { createHash } from 'node:crypto';
import { escapeXml } from '../../quantity';
import type { Figure, Layout } from '../figure';
import { figureName } from './figureName';
import { packText } from './packPlotly';
import { plotlyBundle } from './plotlyBundle';
import { staticSvg } from './staticSvg';
import { widthInProportion } from './widthInProportion';

/** Widths of the two static pictures: a desk or paper, and a phone held upright. */
const WIDE_PX = 860;
const NARROW_PX = 358;
/** Room the title takes in a figure, px; a page names its figures itself, and where there is a pointer the buttons stand there. */
const TITLE_PX = 26;

/** What turns packed text into text again; `packText` packs it. */
const UNPACK = `async (packed) => {
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const unpacked = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate-raw'));
  return new Response(unpacked).text();
}`;

/**
 * What draws a figure in a page, given plotly: makes room for a legend that needs more rows on this screen,
 * hides the static picture once the live one stands, keeps the °F labels round when zoomed, and leaves
 * swiping to the page on a touch screen.
 */
export const DRAW_FIGURE = `async (Plotly, figure) => {
  const { data, layout } = JSON.parse(await (${UNPACK})(figure.querySelector('script').textContent));
  const live = figure.querySelector('.live');
  const touch = matchMedia('(pointer: coarse)').matches;
  // How far a legend under the time axis has its top above the figure's foot.
  const legendPx = layout.legend?.yanchor === 'top' ? layout.legend.y * layout.height : undefined;
  live.hidden = false;
  if (live.dataset.mostPx) live.style.maxWidth = live.dataset.mostPx + 'px';
  if (touch) layout.dragmode = false;
  else if (layout.margin && layout.height) {
    layout.height += ${TITLE_PX};
    layout.margin.t += ${TITLE_PX};
    if (legendPx !== undefined) layout.legend.y = legendPx / layout.height;
  }
  try {
    await Plotly.newPlot(live, data, layout, {
      responsive: true,
      displaylogo: false,
      displayModeBar: touch ? false : 'hover',
      showSendToCloud: false,
      plotlyServerURL: '',
    });
  } catch (error) {
    live.hidden = true;
    throw error;
  }
  const more = (live.querySelector('.legend')?.getBBox().height ?? 0) + 56 - layout.margin.b;
  if (layout.showlegend && more > 0)
    await Plotly.relayout(live, {
      height: layout.height + more,
      'margin.b': layout.margin.b + more,
      ...(legendPx === undefined ? {} : { 'legend.y': (legendPx + more) / (layout.height + more) }),
    });
  figure.classList.add('drawn');
  if (!layout.yaxis2) return;
  const fahrenheit = layout.yaxis2.ticktext ? 'yaxis2' : 'yaxis';
  const steps = [0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000];
  live.on('plotly_relayout', (change) => {
    if (!Object.keys(change).some((key) => /^yaxis\\.(auto)?range/.test(key))) return;
    const [low, high] = live.layout.yaxis.range.map((c) => c * 1.8 + 32);
    const step = steps.find((s) => (high - low) / s <= 9) ?? 2000;
    const count = Math.floor((high - low) / step) + 1;
    const ticks = Array.from({ length: count }, (_, k) => (Math.ceil(low / step) + k) * step);
    Plotly.relayout(live, {
      [fahrenheit + '.tickvals']: ticks.map((f) => (f - 32) / 1.8),
      [fahrenheit + '.ticktext']: ticks.map(String),
    });
  });
}`;

/** What turns packed plotly into `window.Plotly`; the script it adds is inline, so a policy can name its hash. */
export const UNPACK_PLOTLY = `async (packed) => {
  const script = document.createElement('script');
  script.textContent = await (${UNPACK})(packed);
  document.head.append(script);
  return window.Plotly;
}`;

/** Runs in a page of ours: unpacks plotly out of the page itself, then draws every figure. */
const START = `(async () => {
  const Plotly = await (${UNPACK_PLOTLY})(document.getElementById('plotly').textContent);
  for (const figure of document.querySelectorAll('figure.plot')) await (${DRAW_FIGURE})(Plotly, figure);
  document.documentElement.dataset.figures = 'drawn';
})();`;

/** Style the figures of a page need: one of the three pictures shows, on paper always the wide still one, under its title. */
export const FIGURE_STYLE = `
figure.plot { margin: 0; }
figure.plot figcaption { font-weight: 600; margin: 1.25rem 0 .25rem; }
figure.plot svg { display: block; max-width: 100%; height: auto; }
figure.plot .live { width: 100%; }
figure.plot .narrow, figure.plot.drawn .still { display: none; }
@media screen and (max-width: 640px) { figure.plot .wide { display: none; } figure.plot .narrow { display: block; } }
@media print { figure.plot { break-inside: avoid; } figure.plot .still.wide { display: block !important; } figure.plot .still.narrow, figure.plot .live { display: none !important; } }
`;

/**
 * A figure as HTML: two static pictures of which the screen's width picks one, and the data for the live one.
 * `id` must be unique on its page; the pictures are `<id>-wide` and `<id>-narrow`. `titled` puts the title above them; else the page names the figure itself.
 */
export function liveFigure(figure: Figure, id: string, title: 'titled' | 'untitled' = 'untitled'): string {
  const bare = withoutTitle(figure);
  const still = (width: 'wide' | 'narrow') =>
    `<div class="still ${width}">${staticSvg(figure, {
      widthPx: width === 'wide' ? WIDE_PX : NARROW_PX,
      hideTitle: true,
      id: `${id}-${width}`,
    }).replace('<svg', `<svg id="${id}-${width}"`)}</div>`;
  const caption = title === 'titled' ? `<figcaption>${escapeXml(figureName(figure))}</figcaption>` : '';
  return `<figure class="plot" id="${id}">${caption}${still('wide')}${still('narrow')}<div class="live"${mostWidth(figure.layout)} hidden></div><script type="application/octet-stream">${packText(JSON.stringify(bare))}</script></figure>`;
}

/** No wider is a figure in proportion, so that its colour bar stands beside it. */
function mostWidth(layout: Layout): string {
  const { l, r, t, b } = layout.margin ?? { l: 0, r: 0, t: 0, b: 0 };
  const plotPx = widthInProportion(layout, (layout.height ?? 0) - t - b);
  return Number.isFinite(plotPx) ? ` data-most-px="${Math.ceil(l + plotPx + r)}"` : '';
}

/** The scripts at the end of a page with live figures, and the sources its content policy must allow. */
export function liveScripts(): { readonly html: string; readonly policy: string; readonly version: string } {
  const { packed, sha256: ofPlotly, version } = plotlyBundle();
  return {
    html: `<script type="application/octet-stream" id="plotly">${packed}</script>\n<script>${START}</script>`,
    policy: [sha256(START), ofPlotly].map((hash) => `'sha256-${hash}'`).join(' '),
    version,
  };
}

const sha256 = (text: string): string => createHash('sha256').update(text).digest('base64');

function withoutTitle({ data, layout }: Figure): Figure {
  const { title, ...rest } = layout;
  if (!title || !rest.margin || rest.height === undefined) return { data, layout: rest };
  return {
    data,
    layout: {
      ...rest,
      height: rest.height - TITLE_PX,
      margin: { ...rest.margin, t: rest.margin.t - TITLE_PX },
    },
  };
}
