import { defineConfig } from 'vitest/config';

/** Tests that put a stand-in in the place of a module, and so want a process of their own. */
const alone = ['tests/solver/no-two-lanes.test.ts', 'tests/commands/verify.test.ts'];

export default defineConfig({
  test: {
    root: new URL('..', import.meta.url).pathname,
    testTimeout: 180_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    globalSetup: 'tests/set-up.ts',
    projects: [
      // To read the sources anew for every file would take longer than many a file's tests.
      {
        extends: true,
        test: { name: 'shared', include: ['tests/**/*.test.ts'], exclude: alone, isolate: false },
      },
      { extends: true, test: { name: 'alone', include: alone } },
    ],
  },
});
