import type { Figure } from '../figure';
import { figureName } from './figureName';
import { DRAW_FIGURE, FIGURE_STYLE, liveFigure, UNPACK_PLOTLY } from './liveFigure';
import { plotlyBundle } from './plotlyBundle';
import { staticSvg } from './staticSvg';

/** One display as Jupyter's messages have it. */
interface DisplayData {
  readonly data: Readonly<Record<string, unknown>>;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly transient: Readonly<Record<string, unknown>>;
}

let shown = 0;
let plotlySent = false;

/**
 * Displays a figure in whatever front end the code runs in: live where scripts run, as a still picture
 * otherwise. Each display holds the figure once, so that a saved notebook stays small. It needs no network: in a Jupyter kernel plotly itself is sent once,
 * ahead of the first figure. Outside any front end it prints one line that names the figure.
 */
export function show(figure: Figure): void {
  const write = displayWriter();
  const name = figureName(figure) || 'untitled';
  if (!write) {
    process.stdout.write(`Figure: ${name} (shown in a notebook)\n`);
    return;
  }
  if (!plotlySent && isKernel()) {
    write({ data: { 'text/html': sendPlotly(), 'text/plain': '' }, metadata: {}, transient: {} }, false);
    plotlySent = true;
  }
  shown += 1;
  write(
    {
      data: { ...(isKernel() ? forJupyter(figure) : forPage(figure)), 'text/plain': `Figure: ${name}` },
      metadata: {},
      transient: {},
    },
    false,
  );
}

/** For a front end: live where scripts run, else the still picture in it. */
const forJupyter = (figure: Figure) => ({ 'text/html': standAlone(figure, `figure-${shown}`) });

/** For who runs a notebook without a front end: its page draws from the data, the saved copy keeps the picture. */
const forPage = (figure: Figure) => ({
  'application/vnd.plotly.v1+json': JSON.parse(
    JSON.stringify({ ...figure, config: { showSendToCloud: false, responsive: true } }),
  ),
  'image/svg+xml': staticSvg(figure, { id: `picture-${shown}` }),
});

/**
 * tslab's own writer of displays, from whichever copy of tslab this process runs in; undefined outside a
 * notebook. Its public `display` sends one MIME type at a time; front ends choose among several only within
 * one message.
 */
export function displayWriter(): ((display: DisplayData, update: boolean) => void) | undefined {
  for (const [path, loaded] of Object.entries(require.cache))
    if (/[\\/]tslab[\\/]dist[\\/]jupyter\.js$/.test(path) && loaded?.exports.lastWriteDisplayData)
      return loaded.exports.lastWriteDisplayData;
  return undefined;
}

/** Whether this process is a kernel that a Jupyter server started: its command line names a connection file. */
const isKernel = (): boolean => process.argv.some((argument) => argument.startsWith('--config-path'));

/** Hands plotly to the page once, packed; figures wait for it. */
function sendPlotly(): string {
  return `<script>window.temperbookPlotly ??= (${UNPACK_PLOTLY})('${plotlyBundle().packed}');</script>`;
}

/** A figure with all it needs but plotly; without plotly, or without scripts, the still picture stays. */
function standAlone(figure: Figure, id: string): string {
  const key = `${id}-${JSON.stringify(figure).length}`;
  return `<style>${FIGURE_STYLE}</style>${liveFigure(figure, key, 'titled')}<script>(async () => {
  const Plotly = window.Plotly ?? (await window.temperbookPlotly);
  const figure = document.getElementById('${key}');
  if (Plotly && figure) await (${DRAW_FIGURE})(Plotly, figure);
})();</script>`;
}
