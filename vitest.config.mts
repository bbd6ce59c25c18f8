import { existsSync } from 'node:fs';
import path from 'node:path';
import { defineConfig } from 'vitest/config';

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

/** One file at a time: each starts a browser, and some a Jupyter. */
const browserProject = {
  extends: true as const,
  test: {
    name: 'browser',
    include: browser,
    globalSetup: 'test/setup/build.ts',
    fileParallelism: false,
    sequence: { groupOrder: 2 },
  },
};

export default defineConfig({
  test: {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // The built package is CommonJS: node loads it, not vite.
    server: { deps: { external: [/\/dist\//] } },
    projects: [
      {
        extends: true,
        test: { name: 'rooms', include: ['test/**/*.test.ts'], exclude: [...built, ...browser] },
      },
      {
        extends: true,
        test: {
          name: 'built',
          include: built,
          globalSetup: 'test/setup/build.ts',
          sequence: { groupOrder: 1 },
        },
      },
      ...(withBrowser ? [browserProject] : []),
    ],
  },
});
