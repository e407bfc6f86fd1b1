import { serveOpener } from './opener.ts';
import { serveProber } from './prober.ts';
import { serveRefiner } from './refiner.ts';
import { serveWalker } from './walker.ts';

/** The page's script runs in its workers too, under these names. */
export function serveAs(name: string): void {
  if (name === 'prober') serveProber();
  else if (name === 'refiner') serveRefiner();
  else if (name === 'opener') serveOpener();
  else serveWalker();
}
