import { UserError } from '../door/user-error.ts';
import { DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from './decoded.ts';
import { missingNote, toMetres } from './nodata.ts';

const KEYS = [
  'ncols',
  'nrows',
  'xllcorner',
  'xllcenter',
  'yllcorner',
  'yllcenter',
  'cellsize',
  'dx',
  'dy',
  'nodata_value',
];
const NEWLINE = 10;

/** Whether the file begins as an ESRI ASCII grid does. */
export function looksLikeAscii(bytes: Uint8Array): boolean {
  return /^\s*(ncols|nrows|xll|yll|cellsize|nodata|dx|dy)/i.test(latin(bytes.subarray(0, 64)));
}

/** Heights of an ESRI ASCII grid, taken as metres, rows from the north. Throws `UserError` with the line. */
export function readAscii(bytes: Uint8Array, limits: DecodeLimits = DECODE_LIMITS): DecodedGrid {
  if (bytes.byteLength > limits.bytes)
    throw new UserError({
      what: 'the elevation file is too large',
      got: `${bytes.byteLength} bytes`,
      expected: `at most ${limits.bytes} bytes`,
    });
  const { header, start, line } = readHeader(bytes);
  const columns = whole(header, 'ncols');
  const rows = whole(header, 'nrows');
  if (columns * rows > limits.cells || columns * rows * 2 > bytes.byteLength - start + 1) {
    const short = columns * rows * 2 > bytes.byteLength - start + 1;
    throw new UserError({
      what: short ? 'the ASCII grid is shorter than its header says' : 'the elevation file is too large',
      got: `${columns} × ${rows} cells${short ? ` in ${bytes.byteLength} bytes` : ''}`,
      ...(short ? {} : { expected: `at most ${limits.cells} cells` }),
    });
  }
  const cellEast = positive(header, header.has('dx') ? 'dx' : 'cellsize');
  const cellNorth = positive(header, header.has('dy') ? 'dy' : 'cellsize');
  const west = corner(header, 'x', cellEast);
  const south = corner(header, 'y', cellNorth);
  const data = new Float32Array(columns * rows);
  readCells(bytes, start, line, data);
  const counts = { missing: 0, impossible: 0 };
  toMetres(
    data,
    {
      nodata: header.get('nodata_value') ?? -9999,
      scale: 1,
      offset: 0,
      metresPerUnit: 1,
    },
    counts,
  );
  const missing = missingNote(counts, data.length);
  return {
    format: 'ESRI ASCII',
    columns,
    rows,
    data,
    west,
    north: south + rows * cellNorth,
    cellEast,
    cellNorth,
    crs: null,
    crsText: null,
    notes: missing === undefined ? [] : [missing],
  };
}

/** Lines of a key and a number, in any order, until a line of numbers. */
function readHeader(bytes: Uint8Array): { header: Map<string, number>; start: number; line: number } {
  const header = new Map<string, number>();
  let at = 0;
  for (let line = 1; ; line++) {
    let end = bytes.indexOf(NEWLINE, at);
    if (end === -1) end = bytes.length;
    const text = latin(bytes.subarray(at, Math.min(end, at + 200))).trim();
    const match = /^([a-z_]+)\s+(\S+)$/i.exec(text);
    if (match === null) {
      if (text !== '' && /^[a-z_]/i.test(text) && !/^(nan|inf)/i.test(text)) throw headerError(line, text);
      if (text !== '' || end >= bytes.length) return { header, start: at, line };
    } else {
      const key = match[1]!.toLowerCase();
      const value = Number(match[2]);
      const nan = key === 'nodata_value' && /^[-+]?nan$/i.test(match[2]!);
      if (!KEYS.includes(key) || header.has(key) || (!nan && !Number.isFinite(value)))
        throw headerError(line, text);
      header.set(key, value);
    }
    at = end + 1;
  }
}

function headerError(line: number, text: string): UserError {
  return new UserError({
    what: 'the header of the ASCII grid is not understood',
    where: `line ${line}`,
    got: JSON.stringify(text.slice(0, 60)),
    expected: KEYS.join(', '),
  });
}

function whole(header: Map<string, number>, key: string): number {
  const value = header.get(key);
  if (value === undefined || !Number.isInteger(value) || value < 1 || value > 1e6)
    throw new UserError({
      what: `${key} of the ASCII grid`,
      got: String(value ?? 'nothing'),
      expected: 'a whole number of cells',
    });
  return value;
}

function positive(header: Map<string, number>, key: string): number {
  const value = header.get(key);
  if (value === undefined || !(value > 0 && value < 1e6))
    throw new UserError({
      what: `${key} of the ASCII grid`,
      got: String(value ?? 'nothing'),
      expected: 'a length above zero',
    });
  return value;
}

function corner(header: Map<string, number>, axis: 'x' | 'y', cell: number): number {
  const outer = header.get(`${axis}llcorner`);
  const centre = header.get(`${axis}llcenter`);
  const value = outer ?? (centre === undefined ? undefined : centre - cell / 2);
  if (value === undefined || Math.abs(value) > 1e9)
    throw new UserError({
      what: `${axis}llcorner of the ASCII grid`,
      got: String(value ?? 'nothing'),
      expected: 'a coordinate',
    });
  return value;
}

/** Powers of ten that are exact doubles: a mantissa below 2^53 divided by one of them is rounded correctly. */
const TENS = Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

function readCells(bytes: Uint8Array, start: number, firstLine: number, data: Float32Array): void {
  const size = bytes.length;
  let line = firstLine;
  let at = start;
  for (let i = 0; i < data.length; i++) {
    // blanks, commas of some writers, line ends
    for (; at < size; at++) {
      const b = bytes[at]!;
      if (b === NEWLINE) line++;
      else if (b !== 32 && b !== 13 && b !== 9 && b !== 44) break;
    }
    if (at >= size)
      throw new UserError({
        what: 'the ASCII grid ends early',
        where: `line ${line}`,
        got: `${i} of ${data.length} heights`,
      });
    const from = at;
    let negative = false;
    if (bytes[at] === 45 || bytes[at] === 43) negative = bytes[at++] === 45;
    let mantissa = 0;
    let digits = 0;
    let decimals = -1;
    for (; at < size; at++) {
      const b = bytes[at]!;
      if (b >= 48 && b <= 57) {
        mantissa = mantissa * 10 + (b - 48);
        digits++;
        if (decimals >= 0) decimals++;
      } else if (b === 46 && decimals < 0) decimals = 0;
      else break;
    }
    const b = bytes[at];
    const ended = b === undefined || b === 32 || b === NEWLINE || b === 13 || b === 9 || b === 44;
    if (ended && digits > 0 && digits <= 15) {
      const value = decimals > 0 ? mantissa / TENS[decimals]! : mantissa;
      data[i] = negative ? -value : value;
      continue;
    }
    while (at < size && bytes[at]! > 32 && bytes[at] !== 44 && at - from < 60) at++;
    data[i] = slowNumber(latin(bytes.subarray(from, at)), line);
  }
  for (; at < size; at++) {
    if (bytes[at]! > 32)
      throw new UserError({
        what: 'the ASCII grid holds more heights than its header says',
        where: `line ${line}`,
      });
    if (bytes[at] === NEWLINE) line++;
  }
}

function slowNumber(text: string, line: number): number {
  if (/^[-+]?(nan|1\.#QNAN|1\.#IND)$/i.test(text)) return Number.NaN;
  const value = text === '' ? Number.NaN : Number(text);
  if (Number.isNaN(value))
    throw new UserError({
      what: 'a height of the ASCII grid is no number',
      where: `line ${line}`,
      got: JSON.stringify(text),
    });
  return value;
}

function latin(bytes: Uint8Array): string {
  return Array.from(bytes, (b) => String.fromCharCode(b)).join('');
}
