import { defineConfig } from 'vitest/config';

/** Quick tests that reach the rooms whose mutants are tried: see stryker.config.js. */
export default defineConfig({
  test: {
    include: [
      'tests/seeing/*.test.ts',
      'tests/published/seeing.test.ts',
      'tests/walk/{belief,errors,identify,tally,underfoot}.test.ts',
    ],
    testTimeout: 60_000,
  },
});
