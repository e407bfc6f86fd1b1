import { chromiumPath } from './browser/chromium.ts';

/** Once per run, before the tests: says why those in a browser are skipped. */
export default function notice(): void {
  if (chromiumPath === null) {
    console.log('Browser tests are skipped: no Chromium on the path; on Debian, apt install chromium.');
  }
}
