import { defineConfig } from 'vitest/config';

/** Tests that use the built package, as a user does, rather than the sources. */
const built = ['test/notebook/**/*.test.ts', 'test/cli/**/*.test.ts', 'test/project/**/*.test.ts'];
const browser = ['test/browser/**/*.test.ts'];

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
      {
        extends: true,
        test: {
          name: 'browser',
          include: browser,
          globalSetup: 'test/setup/build.ts',
          fileParallelism: false,
          sequence: { groupOrder: 2 },
        },
      },
    ],
  },
});
