import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { show, traceFigure } from '../../lib/figure';
import { thermalHistory } from '../../lib/history';

interface Display {
  readonly data: Readonly<Record<string, unknown>>;
}

const history = thermalHistory([0, 60, 120], [20, 220, 90]);
const figure = traceFigure([{ name: 'TC1 <a>', history }], { title: 'Trace & more' });

describe('show', () => {
  let written: Display[];
  const tslab = require('tslab/dist/jupyter');

  beforeEach(() => {
    written = [];
    tslab.lastWriteDisplayData = (display: Display, update: boolean) => {
      expect(update).toBe(false);
      written.push(display);
    };
  });
  afterEach(() => {
    tslab.lastWriteDisplayData = null;
    vi.restoreAllMocks();
  });

  const inJupyter = (run: () => void) => {
    process.argv.push('--config-path=connection.json');
    try {
      run();
    } finally {
      process.argv.pop();
    }
  };

  it('hands plotly itself to a Jupyter page once, before the first figure', () => {
    inJupyter(() => {
      show(figure);
      show(figure);
    });
    expect(written.map(({ data }) => String(data['text/html']).includes('<figure '))).toEqual([
      false,
      true,
      true,
    ]);
    const library = String(written[0]!.data['text/html']);
    expect(library).toContain('window.temperbookPlotly');
    expect(library.length).toBeLessThan(1_200_000);
  });

  it('sends Jupyter one message in one form, with the title in it and nothing to load', () => {
    inJupyter(() => show(figure));
    expect(written.map(({ data }) => Object.keys(data))).toEqual([['text/html', 'text/plain']]);
    const { 'text/html': html, 'text/plain': text } = written[0]!.data;
    expect(text).toBe('Figure: Trace & more');
    expect(html).toContain('<figcaption>Trace &amp; more</figcaption>');
    expect(html).not.toMatch(/src=|https?:\/\/(?!www\.w3\.org\/2000\/svg)/);
  });

  it('gives every figure of a notebook an id of its own', () => {
    inJupyter(() => {
      show(figure);
      show(figure);
    });
    const ids = written.map(
      ({ data }) => /<figure class="plot" id="([^"]+)"/.exec(String(data['text/html']))![1],
    );
    expect(new Set(ids).size).toBe(2);
  });

  it('without a front end gives the data for a page and the picture for the saved notebook', () => {
    show(figure);
    expect(written).toHaveLength(1);
    const { data } = written[0]!;
    expect(Object.keys(data)).toEqual(['application/vnd.plotly.v1+json', 'image/svg+xml', 'text/plain']);
    expect(data['application/vnd.plotly.v1+json']).toMatchObject({
      data: figure.data,
      layout: figure.layout,
      config: { showSendToCloud: false },
    });
    expect(data['image/svg+xml']).toMatch(/^<svg /);
  });

  it('outside any front end prints one line that names the figure', () => {
    tslab.lastWriteDisplayData = null;
    const write = vi.spyOn(process.stdout, 'write').mockReturnValue(true);
    show(figure);
    expect(write.mock.calls).toEqual([['Figure: Trace & more (shown in a notebook)\n']]);
    expect(written).toEqual([]);
  });
});
