import { SourceMap } from 'node:module';
import { format } from 'node:util';
import type { Converter, Diagnostic } from 'tslab/dist/converter';
import type { CellLine, Failure } from './messages';
import { tslabWithSourceMaps } from './tslabWithSourceMaps';

const SOURCE_MAP_COMMENT = /\n?\/\/# sourceMappingURL=data:application\/json;base64,(\S*)/g;

/** tslab's converter and executor, driven without a Jupyter kernel, telling where in a cell a failure arose. */
export interface TslabSession {
  /** Runs a cell. Returns its failure, if any. */
  run(index: number, source: string): Promise<Failure | undefined>;
  /** The failure behind something thrown outside the cell's own flow, such as a rejected promise. */
  explain(index: number, thrown: unknown): Failure;
  close(): void;
}

/**
 * Starts a session in the current folder: imports resolve from there, and cells are type-checked as tslab
 * does in Jupyter. One session per process: tslab keeps its state in globals.
 */
export function startTslabSession(): TslabSession {
  const { createConverter, createExecutor } = tslabWithSourceMaps();
  const maps = new Map<number, SourceMap[]>();
  let running = 0;
  let diagnostics: readonly Diagnostic[] = [];
  let thrown: unknown;

  const tslab = createConverter();
  const converter: Converter = {
    ...tslab,
    convert(previous, source) {
      const converted = tslab.convert(previous, source);
      diagnostics = converted.diagnostics;
      if (converted.output === undefined) return converted;
      const comments = [...converted.output.matchAll(SOURCE_MAP_COMMENT)];
      maps.set(running, comments.map(([, base64]) => decodeMap(base64!)).reverse());
      // A name for the cell's frames in stack traces, which are anonymous otherwise.
      const output = `${converted.output.replace(SOURCE_MAP_COMMENT, '')}\n//# sourceURL=${labelOf(running)}`;
      return { ...converted, output };
    },
    addModule(name, content, meta) {
      diagnostics = tslab.addModule(name, content, meta);
      return [...diagnostics];
    },
  };
  const executor = createExecutor(
    process.cwd(),
    { node: converter, browser: converter, close: () => tslab.close() },
    {
      log: (...values: unknown[]) => void process.stdout.write(`${format(...values)}\n`),
      error: (what: unknown) => {
        thrown = what;
      },
    },
  );

  function explain(index: number, error: unknown): Failure {
    const stack = error instanceof Error ? error.stack : undefined;
    const frames = framesOf(stack ?? '', maps);
    // A promise may be rejected while a later cell runs: the stack knows whose it was.
    const own = frames.find((frame) => frame.index === index) ?? frames.at(-1) ?? { index, line: undefined };
    const through = frames.slice(0, Math.max(0, frames.indexOf(own as CellLine)));
    return { ...own, message: describeThrown(error), through, stack };
  }

  return {
    async run(index, source) {
      running = index;
      diagnostics = [];
      const ok = await executor.execute(source);
      const [first, ...more] = diagnostics.filter((d) => d.messageText !== '');
      if (first !== undefined) {
        const rest = more.filter((d) => d.start.line !== first.start.line).length;
        const message = rest > 0 ? `${first.messageText} (and ${rest} more further down)` : first.messageText;
        const line = first.start.line + 1;
        return first.fileName === undefined
          ? { index, message, line, through: [] }
          : { index, message: `${first.fileName}, line ${line}: ${message}`, through: [] };
      }
      return ok ? undefined : explain(index, thrown);
    },
    explain,
    close: () => executor.close(),
  };
}

function labelOf(index: number): string {
  return `temperbook-cell-${index}`;
}

function decodeMap(base64: string): SourceMap {
  return new SourceMap(JSON.parse(Buffer.from(base64, 'base64').toString('utf8')));
}

/** The cells' own frames of a stack, innermost first, in lines of the cells' source. */
function framesOf(stack: string, maps: ReadonlyMap<number, readonly SourceMap[]>): CellLine[] {
  return [...stack.matchAll(/temperbook-cell-(\d+):(\d+):(\d+)/g)].map(([, cell, line, column]) => {
    const index = Number(cell);
    const at = (maps.get(index) ?? []).reduce(
      (place, map) => {
        const entry = map.findEntry(place.line, place.column);
        return 'originalLine' in entry ? { line: entry.originalLine, column: entry.originalColumn } : place;
      },
      { line: Number(line) - 1, column: Number(column) - 1 },
    );
    // tslab puts one line of its own before the cell's first, so a 0-based line is the cell's 1-based one.
    return { index, line: at.line };
  });
}

/** The message of whatever was thrown; the kit's own errors speak for themselves, others keep their name. */
function describeThrown(thrown: unknown): string {
  if (!(thrown instanceof Error)) return `thrown: ${String(thrown)}`;
  return thrown.name === 'TemperbookError' || thrown.name === 'Error'
    ? thrown.message
    : `${thrown.name}: ${thrown.message}`;
}
