import { parseHTML } from 'linkedom/worker';

/** A document of Node's own, for drawing without a browser. */
export function newDocument(): Document {
  return parseHTML('<!doctype html><html lang="en"><head></head><body></body></html>')
    .document as unknown as Document;
}
