import { serveProber } from '../worker/prober.ts';
import { serveRefiner } from '../worker/refiner.ts';

if (self.name === 'refiner') serveRefiner();
else serveProber();
