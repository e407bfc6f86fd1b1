import { UserError } from '../door/user-error.ts';
import type { DecodedGrid } from './decoded.ts';
import { missingNote, toMetres } from './nodata.ts';

const NAME = /([NS])(\d{2})([EW])(\d{3})[^/\\]*\.hgt$/i;
/** Posts on a side: 3″, 1″, and 1″ × 2″ files are not read. */
const SIDES = [1201, 3601];

/**
 * Heights of an SRTM `.hgt` tile: 16-bit big-endian metres, −32768 missing, one degree square with posts on its edges. Its place is in
 * its name alone (N49W124.hgt: the south-west post). Throws `UserError`.
 */
export function readHgt(bytes: Uint8Array, name: string): DecodedGrid {
  const match = NAME.exec(name);
  if (match === null)
    throw new UserError({
      what: 'the name of an .hgt file tells its place',
      got: name.slice(-60),
      expected: 'for example N49W124.hgt',
    });
  const side = SIDES.find((n) => n * n * 2 === bytes.byteLength);
  if (side === undefined)
    throw new UserError({
      what: 'the .hgt file has no known size',
      got: `${bytes.byteLength} bytes`,
      expected: SIDES.map((n) => `${n * n * 2}`).join(' or '),
    });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const data = new Float32Array(side * side);
  for (let i = 0; i < data.length; i++) data[i] = view.getInt16(2 * i, false);
  const counts = { missing: 0, impossible: 0 };
  toMetres(data, { nodata: -32768, scale: 1, offset: 0, metresPerUnit: 1 }, counts);
  const missing = missingNote(counts, data.length);
  const south = Number(match[2]) * (match[1]!.toUpperCase() === 'S' ? -1 : 1);
  const west = Number(match[4]) * (match[3]!.toUpperCase() === 'W' ? -1 : 1);
  const cell = 1 / (side - 1);
  return {
    format: 'hgt',
    columns: side,
    rows: side,
    data,
    west: west - cell / 2,
    north: south + 1 + cell / 2,
    cellEast: cell,
    cellNorth: cell,
    crs: 'EPSG:4326',
    crsText: null,
    notes: missing === undefined ? [] : [missing],
  };
}
