import type { createConverter } from 'tslab/dist/converter';
import type { createExecutor } from 'tslab/dist/executor';

type Compiler = typeof import('@tslab/typescript-for-tslab');

/** The parts of tslab that run a cell. */
export interface Tslab {
  readonly createConverter: typeof createConverter;
  readonly createExecutor: typeof createExecutor;
}

const unwatched = () => ({ close: () => undefined });

/**
 * Loads tslab so that both of its compilation steps (TypeScript to ES module, ES module to CommonJS) leave a
 * source map at the end of their output. tslab has no setting for it, and the compiler's exports are
 * read-only, so tslab is given a copy of the compiler with these two entries changed. tslab's version is
 * pinned exactly; the tests of error lines would tell if this no longer held.
 *
 * Files are not watched: a run reads each once, and tslab fails when anything beside it changes on disk, such as
 * a package installed while a cell runs.
 */
export function tslabWithSourceMaps(): Tslab {
  const id = require.resolve('@tslab/typescript-for-tslab', { paths: [require.resolve('tslab')] });
  const compiler: Compiler = require(id);
  const changed = {
    sys: { ...compiler.sys, watchFile: unwatched, watchDirectory: unwatched },
    createWatchCompilerHost: (...args: Parameters<Compiler['createWatchCompilerHost']>) => {
      const [files, options, ...rest] = args;
      return compiler.createWatchCompilerHost(files, { ...options, inlineSourceMap: true }, ...rest);
    },
    transpileModule: (...[source, options]: Parameters<Compiler['transpileModule']>) =>
      compiler.transpileModule(source, {
        ...options,
        compilerOptions: { ...options.compilerOptions, inlineSourceMap: true },
      }),
  };
  require.cache[id]!.exports = { ...compiler, ...changed };
  return { ...require('tslab/dist/converter'), ...require('tslab/dist/executor') };
}
