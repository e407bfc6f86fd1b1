import { printable } from '../door/printable.ts';

/** A name from outside as one line of printable text of at most `most` characters. Markup is kept as text: whoever prints it escapes it. */
export function plainText(value: string, most = 120): string {
  return printable(
    printable(value, most * 4)
      .replace(/ {2,}/g, ' ')
      .trim(),
    most,
  );
}

/** A value from outside as it is quoted in a message: JSON, short, printable. */
export function shown(value: unknown): string {
  // JSON knows no NaN
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? 'nothing');
  return plainText(text, 60);
}
