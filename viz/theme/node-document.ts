import { parseHTML } from 'linkedom/worker';

/** A document of Node's own, for drawing without a browser. */
export function newDocument(language: 'en' | 'de' = 'en'): Document {
  return parseHTML(`<!doctype html><html lang="${language}"><head></head><body></body></html>`)
    .document as unknown as Document;
}
