import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/long/**', 'node_modules/**'],
    globalSetup: 'tests/browser-notice.ts',
    testTimeout: 180_000,
    hookTimeout: 240_000,
  },
});
