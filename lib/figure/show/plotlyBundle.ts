import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { type PlotlyBundle, packPlotly } from './packPlotly';

/** Written by the build, so that the published kit needs no plotly.js beside it. */
const PACKED = path.join(__dirname, 'plotly.packed.json');

let made: PlotlyBundle | undefined;

/** plotly.js as the build packed it; packed now where the sources run without a build. Once per process. */
export function plotlyBundle(): PlotlyBundle {
  made ??= existsSync(PACKED) ? (JSON.parse(readFileSync(PACKED, 'utf8')) as PlotlyBundle) : packPlotly();
  return made;
}
