import { TemperbookError } from '../quantity';
import { takeUnits } from './say';
import { helpOf, UsageError } from './usage';

/** Each command is loaded only when it is asked for, so that --help answers at once. */
const COMMANDS = new Map<string, () => Promise<(args: string[]) => Promise<void>>>([
  ['amend', async () => (await import('./amend')).amend],
  ['audit', async () => (await import('./audit')).audit],
  ['certificate', async () => (await import('./told/certificate')).certificate],
  ['chart', async () => (await import('./chart')).chart],
  ['compare', async () => (await import('./shelf/compare')).compare],
  ['heat', async () => (await import('./told/heat')).heat],
  ['jupyter', async () => (await import('./jupyter')).jupyter],
  ['lot', async () => (await import('./lot')).lot],
  ['new', async () => (await import('./new')).newFolder],
  ['parts', async () => (await import('./shelf/parts')).parts],
  ['review', async () => (await import('./review')).review],
  ['size', async () => (await import('./size')).size],
  ['watch', async () => (await import('./shelf/watch')).watch],
  ['probes', async () => (await import('./told/probes')).probes],
  ['run', async () => (await import('./run')).run],
]);

/** Runs a command line and returns its exit code. */
export async function runCommand([name, ...args]: string[]): Promise<number> {
  if (name === undefined || [name, ...args].some((arg) => arg === '--help' || arg === '-h')) {
    process.stdout.write(helpOf(COMMANDS.has(name ?? '') ? name : undefined));
    return name === undefined ? 2 : 0;
  }
  try {
    const load = COMMANDS.get(name);
    if (load === undefined) throw new UsageError(`there is no command "${name}"`);
    const command = await load();
    await command(takeUnits(name, args));
    return 0;
  } catch (error) {
    const complaint = complaintOf(error);
    if (complaint === undefined) throw error;
    process.stderr.write(`${complaint.text}\n`);
    return complaint.code;
  }
}

/** What to tell of an error that is the user's to put right, and the exit code; of any other, a fault of the kit, nothing. */
export function complaintOf(error: unknown): { readonly text: string; readonly code: 1 | 2 } | undefined {
  if (error instanceof TemperbookError)
    return { text: 'excerpt' in error ? `${error.message}\n\n${error.excerpt}` : error.message, code: 1 };
  if (error instanceof UsageError || isParseArgsError(error))
    return { text: `${(error as Error).message}\nFor help: temperbook --help`, code: 2 };
  return undefined;
}

function isParseArgsError(error: unknown): boolean {
  return error instanceof Error && 'code' in error && String(error.code).startsWith('ERR_PARSE_ARGS');
}
