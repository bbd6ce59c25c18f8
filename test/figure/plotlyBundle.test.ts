import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { inflateRawSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { cutPlotly } from '../../lib/figure/show/cutPlotly';
import { packPlotly } from '../../lib/figure/show/packPlotly';
import { plotlyBundle } from '../../lib/figure/show/plotlyBundle';
import { TemperbookError } from '../../lib/quantity';

const installed = require.resolve('plotly.js-dist');

describe('plotlyBundle', () => {
  const bundle = packPlotly();
  const source = inflateRawSync(Buffer.from(bundle.packed, 'base64')).toString('utf8');

  it('is the installed plotly, cut to the kit’s traces and packed', () => {
    const { version, sha256 } = bundle;
    expect(readFileSync(installed, 'utf8')).toContain(`plotly.js v${version}`);
    expect(createHash('sha256').update(source).digest('base64')).toBe(sha256);
    expect(source.length).toBeLessThan(readFileSync(installed).length / 2);
    expect(plotlyBundle()).toEqual(bundle);
  });

  it('keeps the licence, the kept traces and nothing of the maps', () => {
    expect(source).toContain('Licensed under the MIT license');
    for (const trace of ['scatter', 'bar', 'heatmap', 'contour'])
      expect(source).toContain(`"src/traces/${trace}/index.js"`);
    expect(source).not.toContain('"src/traces/scattergl/index.js"');
    expect(source).not.toContain('"src/traces/choroplethmap/index.js"');
  });

  it('says so when plotly is built in another way', () => {
    expect(() => cutPlotly('window.Plotly = {};')).toThrow(TemperbookError);
  });
});
