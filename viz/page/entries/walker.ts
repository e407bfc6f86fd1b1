import { serveWalker } from '../worker/walker.ts';

serveWalker();
