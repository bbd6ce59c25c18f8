import { readFileSync } from 'node:fs';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { cutDown, plotlyBundle } from '../../lib/figure/show/plotlyBundle';
import { TemperbookError } from '../../lib/quantity';

const installed = require.resolve('plotly.js-dist');

describe('plotlyBundle', () => {
  it('is the installed plotly, cut to the kit’s traces and packed', () => {
    const { version, source, packed } = plotlyBundle();
    expect(readFileSync(installed, 'utf8')).toContain(`plotly.js v${version}`);
    expect(inflateRawSync(Buffer.from(packed, 'base64')).toString('utf8')).toBe(source);
    expect(source.length).toBeLessThan(readFileSync(installed).length / 2);
    expect(plotlyBundle()).toBe(plotlyBundle());
  });

  it('keeps the licence, the kept traces and nothing of the maps', () => {
    const { source } = plotlyBundle();
    expect(source).toContain('Licensed under the MIT license');
    for (const trace of ['scatter', 'bar', 'heatmap', 'contour'])
      expect(source).toContain(`"src/traces/${trace}/index.js"`);
    expect(source).not.toContain('"src/traces/scattergl/index.js"');
    expect(source).not.toContain('"src/traces/choroplethmap/index.js"');
  });

  it('says so when plotly is built in another way', () => {
    expect(() => cutDown('window.Plotly = {};')).toThrow(TemperbookError);
  });
});
