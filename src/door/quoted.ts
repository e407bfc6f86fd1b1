/** A value as a person would want it quoted back: short, on one line, no control characters. */
export function quoted(value: unknown): string {
  if (value === null || value === undefined) return 'nothing';
  if (typeof value === 'string')
    return JSON.stringify(value.length > 60 ? `${value.slice(0, 57)}...` : value);
  if (Array.isArray(value)) return value.length === 0 ? 'an empty list' : `a list of ${value.length}`;
  if (typeof value === 'object') {
    const keys = Object.keys(value);
    const more = keys.length > 5 ? ', ...' : '';
    return keys.length === 0 ? 'an empty table' : `a table with ${keys.slice(0, 5).join(', ')}${more}`;
  }
  return String(value);
}
