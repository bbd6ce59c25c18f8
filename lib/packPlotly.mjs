// After the compiler: writes plotly.js, cut down and packed, into dist, where `plotlyBundle` finds it.
//   node lib/packPlotly.mjs
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { packPlotly } from '../dist/figure/show/packPlotly.js';

const at = path.join(import.meta.dirname, '../dist/figure/show/plotly.packed.json');
writeFileSync(at, JSON.stringify(packPlotly()));
