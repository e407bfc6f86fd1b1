import type { WrittenRoute } from './written.ts';

const HEADINGS = [
  'route',
  'name',
  'leg',
  'technique',
  'from',
  'to',
  'grid bearing (degrees)',
  'magnetic bearing (degrees)',
  'distance (m)',
  'climb (m)',
  'descent (m)',
  'double paces',
  'minutes',
  'says',
];

/** Legs as a table (RFC 4180, CRLF), one line each, to be read by a spreadsheet. */
export function csvOf(routes: readonly WrittenRoute[]): string {
  const rows: (string | number | null)[][] = [HEADINGS];
  for (const route of routes) {
    route.legs.forEach((leg, i) => {
      rows.push([
        route.letter,
        route.name,
        i + 1,
        leg.technique,
        leg.from,
        leg.to,
        tenth(leg.gridBearingDegrees),
        leg.magneticBearingDegrees === null ? null : tenth(leg.magneticBearingDegrees),
        tenth(leg.distanceMetres),
        tenth(leg.climbMetres),
        tenth(leg.descentMetres),
        leg.doublePaces,
        tenth(leg.minutes),
        leg.says,
      ]);
    });
  }
  return rows.map((row) => `${row.map(cell).join(',')}\r\n`).join('');
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A text that a spreadsheet would run as a formula is disarmed by an apostrophe (OWASP, CSV injection); numbers stay numbers. */
function cell(value: string | number | null): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  const guarded = /^\s*[=+\-@\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
}
