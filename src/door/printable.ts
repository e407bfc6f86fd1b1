// C0 and C1 controls, zero-width and bidirectional marks, byte order mark, lone surrogates: never part of a name, often of an attack
const UNPRINTABLE =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: finding them is the point
  /[\u0000-\u001f\u007f-\u009f\u200b-\u200f\u2028-\u202e\u2060-\u2069\ufeff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g;

/** A text from outside as one line of printable characters, at most `most` of them. Markup stays text: whoever prints it escapes it. */
export function printable(value: string, most: number): string {
  // cut before the replacement, so that a text of 100 MB costs nothing
  const text = value
    .slice(0, most * 4)
    .replace(/[\t\n\r\u2028\u2029]+/g, ' ')
    .replace(UNPRINTABLE, '');
  return text.length > most ? `${text.slice(0, most - 1).replace(/[\ud800-\udbff]$/, '')}…` : text;
}
