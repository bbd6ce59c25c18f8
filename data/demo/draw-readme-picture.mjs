// Draws mast-foot-verdict.svg, the picture of the README, from the demo log. Run after a build:
// node data/demo/draw-readme-picture.mjs
import { writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';

const { figures, judge, readLog } = createRequire(import.meta.url)('temperbook');

const log = readLog(path.join(import.meta.dirname, 'mast-foot-weld.csv'));
const verdict = judge(log, {
  alloy: 'A356.0',
  temper: 'T6',
  attachment: 'peened hole',
  byChannel: { 'TC4 tube 25 mm': { alloy: '6061' } },
});
writeFileSync(
  path.join(import.meta.dirname, 'mast-foot-verdict.svg'),
  figures.staticSvg(figures.verdictFigure(log, verdict), { widthPx: 900 }),
);
