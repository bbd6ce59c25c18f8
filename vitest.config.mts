import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import path from 'node:path';
import { defineConfig } from 'vitest/config';
import { isBuilt } from './test/setup/isBuilt.mts';

/** Tests that use the built package, as a user does, rather than the sources. */
const built = ['test/notebook/**/*.test.ts', 'test/cli/**/*.test.ts', 'test/project/**/*.test.ts'];
const browser = ['test/browser/**/*.test.ts'];

/** CI must have the programs of the browser tests; elsewhere these tests are left to CI where one is missing. */
const isInstalled = (program: string) =>
  (process.env.PATH ?? '').split(path.delimiter).some((folder) => existsSync(path.join(folder, program)));
const withBrowser =
  process.env.CI !== undefined ||
  (isInstalled('jupyter-notebook') && ['chromium', 'chromium-browser', 'google-chrome'].some(isInstalled));
if (!withBrowser) process.stdout.write('Chromium or Jupyter is not installed: test/browser is left to CI.\n');

/**
 * The rooms are tested as built where the build is of today: nothing is compiled once more, and they run a third faster.
 * After a change, until the next build, their sources are.
 */
const rooms = isBuilt() ? [{ find: /^(\.\.\/)+lib\//, replacement: `${path.resolve('dist')}/` }] : [];

/** `--mode full`, read by test/setup/extent.ts. Told to each project: this file is read again for them, in a mode of their own. */
const extentOf = (mode: string) => ({ TEST_EXTENT: mode === 'full' ? 'full' : 'short' });

/** Started first, by its name: the longest file of the suite is here, and runs beside the rest. */
const browserProject = (mode: string) => ({
  extends: true as const,
  resolve: { alias: rooms },
  test: {
    name: 'browser',
    isolate: false,
    include: browser,
    globalSetup: 'test/setup/build.ts',
    env: extentOf(mode),
  },
});

export default defineConfig(({ mode }) => ({
  test: {
    testTimeout: 120_000,
    hookTimeout: 120_000,
    // By itself vitest leaves one core free, which on two cores is half of them.
    maxWorkers: availableParallelism(),
    // The built package is CommonJS: node loads it, not vite.
    server: { deps: { external: [/\/dist\//] } },
    projects: [
      {
        extends: true,
        resolve: { alias: rooms },
        test: {
          name: 'rooms',
          env: extentOf(mode),
          include: ['test/**/*.test.ts'],
          exclude: [...built, ...browser],
          // Pure functions need no process of their own: a worker loads the library once.
          isolate: false,
        },
      },
      {
        extends: true,
        test: {
          name: 'built',
          isolate: false,
          env: extentOf(mode),
          include: built,
          globalSetup: 'test/setup/build.ts',
        },
      },
      ...(withBrowser ? [browserProject(mode)] : []),
    ],
  },
}));
