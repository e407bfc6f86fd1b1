import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';
import { type Browser, chromium } from 'playwright-core';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

/** A Chromium on the PATH, or null. */
export function findChromium(): string | null {
  for (const folder of (process.env.PATH ?? '').split(delimiter)) {
    for (const name of NAMES) {
      const path = join(folder, name);
      try {
        accessSync(path, constants.X_OK);
        return path;
      } catch {
        // not here
      }
    }
  }
  return null;
}

export const chromiumPath = findChromium();

export function launch(): Promise<Browser> {
  // Without a sandbox of its own Chromium also starts as root, as machines that only test do.
  return chromium.launch({ executablePath: chromiumPath!, args: ['--no-sandbox'] });
}
