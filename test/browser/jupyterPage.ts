/// <reference lib="dom" />
import type { Page } from 'playwright-core';

/** What became of one code cell, as the kernel's replies and the page's outputs tell. */
export interface RanCell {
  readonly source: string;
  /** Status of the kernel's reply: a cell that failed or was skipped has another than `ok`. */
  readonly status: string | undefined;
  /** What stands on the error stream, and errors proper. */
  readonly errors: string;
  /** Displays that are figures, and how many of them plotly has drawn. */
  readonly figures: number;
  readonly drawn: number;
}

/** The part of the classic notebook's own page script that is used here. */
interface NotebookWindow {
  Jupyter?: {
    notebook?: {
      kernel?: {
        is_connected(): boolean;
        execute(
          code: string,
          callbacks: { iopub: { output(message: { content: { text?: string } }): void } },
          options: { silent: boolean },
        ): void;
      };
      set_autosave_interval(ms: number): void;
      execute_all_cells(): void;
      get_cells(): JupyterCell[];
    };
    CodeCell: { prototype: { _handle_execute_reply(message: { content: { status: string } }): void } };
  };
}

interface JupyterCell {
  readonly cell_type: string;
  readonly element: ArrayLike<Element>;
  status?: string;
  get_text(): string;
  output_area: {
    outputs: { output_type: string; name?: string; text?: string; data?: object; evalue?: string }[];
  };
}

/**
 * Opens a notebook and runs all its cells, as its menu does. A kernel skips, without a word in the page, what
 * reaches it within 200 ms of an error, and a rejected promise fails no cell: so every reply is noted and the
 * error stream is read.
 */
export async function runAllCells(page: Page, url: string, timeoutMs: number): Promise<RanCell[]> {
  await page.goto(url);
  await page.waitForFunction(
    () => (window as NotebookWindow).Jupyter?.notebook?.kernel?.is_connected(),
    undefined,
    { timeout: timeoutMs },
  );
  await page.evaluate(() => {
    const { notebook, CodeCell } = (window as NotebookWindow).Jupyter!;
    const { prototype } = CodeCell;
    const handle = prototype._handle_execute_reply;
    prototype._handle_execute_reply = function (this: JupyterCell, message) {
      this.status = message.content.status;
      return handle.call(this as never, message);
    };
    // The notebook on disk must stay as it is.
    notebook!.set_autosave_interval(0);
    notebook!.execute_all_cells();
  });
  await page.waitForFunction(
    () => {
      const code = (window as NotebookWindow)
        .Jupyter!.notebook!.get_cells()
        .filter((c) => c.cell_type === 'code');
      return code.every((c) => c.status) || code.some((c) => c.status && c.status !== 'ok');
    },
    undefined,
    { timeout: timeoutMs },
  );
  const late = await lateOutput(page);
  const cells = await readCells(page);
  const last = cells.pop();
  return last === undefined ? [] : [...cells, { ...last, errors: last.errors + late }];
}

/** Anything that arrives after the last reply, as the report of a rejected promise may. */
async function lateOutput(page: Page): Promise<string> {
  await page.waitForTimeout(1000);
  // The kernel sends outputs in order: once it has printed this, all that came before has arrived.
  return page.evaluate(
    () =>
      new Promise<string>((resolve) => {
        let text = '';
        (window as NotebookWindow).Jupyter!.notebook!.kernel!.execute(
          "console.log('all has arrived')",
          {
            iopub: {
              output: ({ content }) => {
                text += content.text ?? '';
                if (text.endsWith('all has arrived\n')) resolve(text.replace('all has arrived\n', ''));
              },
            },
          },
          { silent: false },
        );
      }),
  );
}

async function readCells(page: Page): Promise<RanCell[]> {
  const anyFigure = await page.evaluate(() => document.querySelector('figure.plot') !== null);
  // Plotly draws once its library has arrived; what is still not drawn after this shows in the counts.
  if (anyFigure) {
    await page
      .waitForFunction(() => document.querySelectorAll('figure.plot:not(.drawn)').length === 0)
      .catch(() => undefined);
  }
  return page.evaluate(() =>
    (window as NotebookWindow)
      .Jupyter!.notebook!.get_cells()
      .filter((cell) => cell.cell_type === 'code')
      .map((cell) => {
        const { outputs } = cell.output_area;
        const live = Array.from(cell.element[0]!.querySelectorAll('figure.plot.drawn .main-svg'));
        return {
          source: cell.get_text(),
          status: cell.status,
          errors: outputs
            .filter((o) => o.output_type === 'error' || o.name === 'stderr')
            .map((o) => o.evalue ?? o.text)
            .join('\n'),
          figures: outputs.filter((o) => JSON.stringify(o.data ?? '').includes('<figure class=')).length,
          drawn: new Set(
            live
              .filter((svg) => svg.getBoundingClientRect().height > 100)
              .map((svg) => svg.closest('figure')),
          ).size,
        };
      }),
  );
}
