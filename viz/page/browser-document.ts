/**
 * The report's document, made by the browser instead of by a library: takes the place of `theme/node-document.ts` in the page. It is
 * never shown, so nothing in it runs.
 */
export function newDocument(language: 'en' | 'de' = 'en'): Document {
  const made = document.implementation.createHTMLDocument('');
  made.documentElement.lang = language;
  made.head.replaceChildren();
  return Object.assign(made, { toString: () => written(made) });
}

function written(made: Document): string {
  // the title comes with its references written out already, for a serializer that leaves it as it is
  const title = made.querySelector('title');
  if (title !== null) {
    title.textContent = (title.textContent ?? '')
      .replaceAll('&lt;', '<')
      .replaceAll('&gt;', '>')
      .replaceAll('&amp;', '&');
  }
  return `<!doctype html>\n${made.documentElement.outerHTML}`;
}
