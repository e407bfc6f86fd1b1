import { UserError } from '../door/user-error.ts';
import { plainText } from './plain-text.ts';
import { checkLength } from './text-limits.ts';

/** One row of a table under its column names, which are lower case without spaces, hyphens and underscores. */
export interface CsvRow {
  readonly line: number;
  readonly cells: Readonly<Record<string, string>>;
}

const MOST_ROWS = 200_000;
const MOST_COLUMNS = 200;

/** Name of a column as `readCsv` knows it: "Last seen", "last_seen" and "lastSeen" are one. */
export function columnName(header: string): string {
  return header.toLowerCase().replace(/[\s_-]/g, '');
}

/**
 * Reads comma- or semicolon-separated text with a header row (RFC 4180: quotes, doubled quotes, line breaks in quotes).
 * Empty rows and rows that begin with # are skipped. A row with more cells than the header, or an open quote, is a UserError.
 */
export function readCsv(text: string, where: string): { columns: readonly string[]; rows: CsvRow[] } {
  checkLength(text.length, where);
  const body = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const firstLine =
    body
      .slice(0, 10_000)
      .split(/\r?\n/)
      .find((l) => l.trim() !== '' && !l.startsWith('#')) ?? '';
  const separator = firstLine.includes(';') && !firstLine.includes(',') ? ';' : ',';
  const [header, ...records] = recordsOf(body, separator, where);
  if (header === undefined) {
    throw new UserError({
      what: 'this table is empty',
      where,
      expected: 'a header row and a row for each feature',
    });
  }
  const columns = header.cells.map((h) => columnName(h));
  const twice = columns.find((c, i) => c !== '' && columns.indexOf(c) !== i);
  if (twice !== undefined || columns.length > MOST_COLUMNS) {
    const what =
      twice === undefined ? 'this table has too many columns' : 'a column stands twice in the header';
    throw new UserError({
      what,
      where: `${where}, line ${header.line}`,
      got: plainText(twice ?? String(columns.length), 40),
    });
  }
  const rows = records.map(({ line, cells }): CsvRow => {
    if (cells.length > columns.length && cells.slice(columns.length).some((c) => c.trim() !== '')) {
      throw new UserError({
        what: 'a row has more cells than the header',
        where: `${where}, line ${line}`,
        got: String(cells.length),
        expected: `${columns.length} (a cell that holds a comma stands in double quotes)`,
      });
    }
    const named: Record<string, string> = Object.create(null);
    columns.forEach((c, i) => {
      if (c !== '') named[c] = (cells[i] ?? '').trim();
    });
    return { line, cells: named };
  });
  return { columns, rows };
}

function recordsOf(text: string, separator: string, where: string): { line: number; cells: string[] }[] {
  const records: { line: number; cells: string[] }[] = [];
  let line = 1;
  let at = 0;
  while (at < text.length) {
    const began = line;
    const cells: string[] = [];
    for (let more = true; more; ) {
      let cell = '';
      if (text[at] === '"') {
        const quoted = quotedCell(text, at, `${where}, line ${line}`);
        cell = quoted.cell;
        line += cell.split('\n').length - 1;
        at = quoted.next;
      }
      // what stands outside quotes, to the next separator or the end of the line
      const from = at;
      while (at < text.length && text[at] !== separator && text[at] !== '\n' && text[at] !== '\r') at++;
      cells.push(cell + text.slice(from, at));
      more = text[at] === separator;
      if (more) at++;
      if (cells.length > 10 * MOST_COLUMNS) break;
    }
    if (text[at] === '\r' && text[at + 1] === '\n') at++;
    if (at < text.length && text[at] !== separator) at++;
    line++;
    const empty = cells.every((c) => c.trim() === '');
    if (!empty && !cells[0]!.trimStart().startsWith('#')) records.push({ line: began, cells });
    if (records.length > MOST_ROWS) {
      throw new UserError({ what: 'this table has too many rows', where, got: `more than ${MOST_ROWS}` });
    }
  }
  return records;
}

function quotedCell(text: string, open: number, where: string): { cell: string; next: number } {
  let cell = '';
  let from = open + 1;
  for (;;) {
    const quote = text.indexOf('"', from);
    if (quote < 0) throw new UserError({ what: 'a double quote is opened and never closed', where });
    cell += text.slice(from, quote);
    if (text[quote + 1] !== '"') return { cell, next: quote + 1 };
    cell += '"';
    from = quote + 2;
  }
}
