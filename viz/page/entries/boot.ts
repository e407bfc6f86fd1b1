import { loader } from '../loader.ts';
import { begin } from '../programs.ts';

// Runs before the page's own program is read: the workers read theirs meanwhile.
Object.assign(
  globalThis,
  loader((name) => document.querySelector(`[data-part="${name}"]`)?.textContent ?? ''),
);
begin();
