import { parseArgs } from 'node:util';
import { parseSettings, readNotebook, runNotebook } from '../notebook';
import { progressPrinter } from './progressPrinter';
import { unitsShown } from './say';
import { onlyOne, required, shortest } from './usage';

/** `temperbook run <notebook> --set name=value … --out folder [--no-code] [--units us]` */
export async function run(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: {
      set: { type: 'string', multiple: true, default: [] },
      out: { type: 'string' },
      'no-code': { type: 'boolean', default: false },
    },
  });
  const notebook = onlyOne(positionals, 'the notebook to run');
  const outFolder = required(values.out, '--out <folder>');
  const settings = [...values.set, ...(unitsShown() === 'us' ? ['units=us'] : [])];
  const parameters = parseSettings(readNotebook(notebook), settings, process.cwd());

  const { notebookPath, htmlPath } = await runNotebook(notebook, {
    parameters,
    outFolder,
    html: values['no-code'] ? 'results only' : 'with code',
    onProgress: progressPrinter(),
  });
  process.stdout.write(`\nResults   ${shortest(htmlPath)}\nNotebook  ${shortest(notebookPath)}\n`);
}
