/** The browser's own reader of XML, in the place of the library that Node needs: a fault ends the reading. */
class Reader {
  private readonly onError: (level: 'error', message: string) => void;

  constructor({ onError }: { onError: (level: 'error', message: string) => void }) {
    this.onError = onError;
  }

  parseFromString(text: string, type: DOMParserSupportedType): Document {
    const read = new globalThis.DOMParser().parseFromString(text, type);
    const fault = read.querySelector('parsererror');
    if (fault !== null) this.onError('error', (fault.textContent ?? '').trim().slice(0, 200));
    return read;
  }
}

export { Reader as DOMParser };
