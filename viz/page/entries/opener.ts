import { serveOpener } from '../worker/opener.ts';

serveOpener();
