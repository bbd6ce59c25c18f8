import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { factorFigure, sectionFigure, staticSvg } from '../figure';
import { TemperbookError } from '../quantity';
import { checkRows, sizeRows, writeWhole } from '../report';
import {
  factorCurve,
  readSizeJob,
  sectionCautions,
  sectionFactor,
  sizeSection,
  sizeWords,
  weldedResistance,
} from '../section';
import { keepNames, say, shownFigure, shownTable } from './say';
import { onlyOne, shortest } from './usage';

/** `temperbook size <file.json> [--out folder]` */
export async function size(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { out: { type: 'string' } },
  });
  const job = readSizeJob(onlyOne(positionals, 'the file of what is to be sized'));
  const { section, loads, options } = job;
  keepNames([job.name]);
  const answer = sizeSection(section, loads, options);
  if (!answer.supported) {
    say(`${job.name}: no code here answers this.\n${answer.why}\n${answer.remedy}.`);
    return;
  }
  const now = weldedResistance(section, options);
  say(`${job.name}\n${sizeWords(answer).join('\n')}\n\n${shownTable(sizeRows(answer))}\n`);
  if (now.supported) {
    const factor = sectionFactor(now, loads, options);
    say(`As it is now:\n${shownTable(checkRows(now, factor))}\n`);
    const lines = [
      ...answer.because,
      ...now.metal.fromMemory.map((what) => `From memory, not read: ${what}.`),
    ];
    say(`${lines.join('\n')}\n\nCaution\n${sectionCautions(now).join('\n')}`);
    if (values.out !== undefined) {
      const toMm = 2 * Math.max(answer.present.thicknessMm, answer.least?.thicknessMm ?? 0);
      const curve = factorCurve(section, loads, options, { fromMm: 0.5, toMm });
      savePictures(values.out, {
        'section.svg': staticSvg(shownFigure(sectionFigure(now, { factor }))),
        'factor.svg': staticSvg(
          shownFigure(factorFigure(curve, { present: answer.present, chosen: answer.stock ?? answer.least })),
        ),
      });
    }
  }
}

function savePictures(folder: string, pictures: Readonly<Record<string, string>>): void {
  mkdirSync(folder, { recursive: true });
  const paths = Object.entries(pictures).map(([name, svg]) => ({ path: join(folder, name), svg }));
  const taken = paths.find(({ path }) => existsSync(path));
  if (taken)
    throw new TemperbookError('A picture of another size stands there', {
      file: taken.path,
      remedy: 'Give another folder with --out',
    });
  for (const { path, svg } of paths) writeWhole(path, (unfinished) => writeFileSync(unfinished, svg));
  process.stdout.write(`\n${paths.map(({ path }) => `Picture ${shortest(path)}`).join('\n')}\n`);
}
