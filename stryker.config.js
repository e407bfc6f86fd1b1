import { tmpdir } from 'node:os';
import { join } from 'node:path';

const out = join(tmpdir(), 'mistwise-mutate');

/**
 * Mutation testing by hand: `npm run mutate`, or `npm run mutate -- --mutate src/walk/belief.ts` for other files. A copy of the tree is
 * mutated outside of it; the report goes there too. Of the tests those are run that reach the file, without the browser and the built program.
 */
export default {
  testRunner: 'vitest',
  plugins: ['@stryker-mutator/vitest-runner'],
  vitest: { configFile: 'tests/mutation/vitest.config.ts', related: false },
  coverageAnalysis: 'perTest',
  mutate: ['src/seeing/*.ts'],
  // a mutant of a table that is read once asks for all tests in a new process: hours
  ignoreStatic: true,
  concurrency: 1,
  tempDirName: join(out, 'copy'),
  ignorePatterns: [
    'dist',
    'reports',
    'terrains',
    '.ci',
    'tests/fixtures/terrain',
    'tests/browser',
    'tests/bench',
  ],
  disableTypeChecks: false,
  reporters: ['progress-append-only', 'clear-text', 'json'],
  clearTextReporter: { allowColor: false, reportTests: false, allowEmojis: false },
  jsonReporter: { fileName: join(out, 'mutation.json') },
};
