// Prints the closing line of a test run from vitest's JSON report; fails when a test did, or when no browser test ran.
import { readFileSync } from 'node:fs';

const text = readFileSync(process.argv[2], 'utf8');
if (text === '') console.log('The tests did not end: no report of them was written.');
const report = text === '' ? { testResults: [] } : JSON.parse(text);
let passed = 0;
let failed = 0;
let inBrowser = 0;
for (const file of report.testResults) {
  const states = file.assertionResults.map((test) => test.status);
  const good = states.filter((state) => state === 'passed').length;
  passed += good;
  failed += states.filter((state) => state === 'failed').length;
  // A file that could not be loaded has no tests to count, and is no success.
  if (file.status === 'failed' && !states.includes('failed')) failed += 1;
  if (/[\\/]tests[\\/]browser[\\/]/.test(file.name)) inBrowser += good;
}
if (inBrowser === 0) console.log('No browser test ran: Chromium must be installed for the tests in tests/browser.');
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 || inBrowser === 0 ? 1 : 0);
