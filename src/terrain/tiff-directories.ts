import { UserError } from '../door/user-error.ts';

/** Where the blocks of one image lie. */
export interface TiffImage {
  readonly littleEndian: boolean;
  readonly offsets: Float64Array;
  readonly byteCounts: Float64Array;
}

const MAX_IMAGES = 64;
const MAX_ENTRIES = 4096;
const STRIP_OFFSETS = 273;
const STRIP_COUNTS = 279;
const TILE_OFFSETS = 324;
const TILE_COUNTS = 325;

/** Bytes of a value by TIFF field type, 0 for an unknown one. */
const TYPE_BYTES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8];

/**
 * Walks the directories of a TIFF or BigTIFF before anything is allocated for them: every entry must lie inside the file, no
 * directory may come twice. Reads the block tables itself, because the library reads long ones little-endian whatever the file says.
 * Throws `UserError`.
 */
export function tiffDirectories(bytes: Uint8Array): TiffImage[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const size = bytes.byteLength;
  if (size < 8) damaged('it ends inside its header');
  const order = view.getUint16(0, true);
  if (order !== 0x4949 && order !== 0x4d4d) damaged('it does not begin as a TIFF does');
  const le = order === 0x4949;
  const magic = view.getUint16(2, le);
  if (magic !== 42 && magic !== 43) damaged('it does not begin as a TIFF does');
  const big = magic === 43;
  if (big && (size < 16 || view.getUint16(4, le) !== 8)) damaged('its BigTIFF header is wrong');

  const readWord = (at: number): number => (big ? Number(view.getBigUint64(at, le)) : view.getUint32(at, le));
  const wordBytes = big ? 8 : 4;
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;

  const images: TiffImage[] = [];
  const seen = new Set<number>();
  let at = readWord(big ? 8 : 4);
  while (at !== 0) {
    if (seen.has(at)) damaged('its directories run in a circle');
    if (images.length === MAX_IMAGES) damaged(`it holds more than ${MAX_IMAGES} images`);
    seen.add(at);
    if (at + countBytes > size) damaged('a directory lies beyond its end');
    const entries = big ? Number(view.getBigUint64(at, le)) : view.getUint16(at, le);
    if (entries > MAX_ENTRIES) damaged(`a directory has ${entries} entries`);
    const first = at + countBytes;
    const next = first + entries * entryBytes;
    if (next + wordBytes > size) damaged('a directory runs past its end');

    let offsets = new Float64Array(0);
    let byteCounts = new Float64Array(0);
    for (let e = first; e < next; e += entryBytes) {
      const tag = view.getUint16(e, le);
      const type = view.getUint16(e + 2, le);
      const count = readWord(e + 4);
      const unit = TYPE_BYTES[type] ?? 0;
      if (unit === 0) damaged(`tag ${tag} is of unknown type ${type}`);
      const length = unit * count;
      const where = length <= wordBytes ? e + 4 + wordBytes : readWord(e + 4 + wordBytes);
      if (!(where + length <= size)) damaged(`tag ${tag} points beyond its end`);
      if (tag === STRIP_OFFSETS || tag === TILE_OFFSETS) offsets = numbers(where, type, count);
      if (tag === STRIP_COUNTS || tag === TILE_COUNTS) byteCounts = numbers(where, type, count);
    }
    images.push({ littleEndian: le, offsets, byteCounts });
    at = readWord(next);
  }
  if (images.length === 0) damaged('it holds no image');
  return images;

  function numbers(where: number, type: number, count: number): Float64Array<ArrayBuffer> {
    const values = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      if (type === 3) values[i] = view.getUint16(where + 2 * i, le);
      else if (type === 4) values[i] = view.getUint32(where + 4 * i, le);
      else if (type === 16) values[i] = Number(view.getBigUint64(where + 8 * i, le));
      else damaged('its block table is of a wrong type');
    }
    return values;
  }
}

function damaged(what: string): never {
  throw new UserError({ what: `the GeoTIFF is damaged: ${what}` });
}
