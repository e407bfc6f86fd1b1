import { defineConfig } from 'vitest/config';

/** The long tests, by hand: `npm run long`, or `npm run long -- step` for one of them. */
export default defineConfig({
  root: new URL('../..', import.meta.url).pathname,
  test: {
    include: ['tests/long/**/*.test.ts'],
    testTimeout: 3_600_000,
    hookTimeout: 600_000,
  },
});
