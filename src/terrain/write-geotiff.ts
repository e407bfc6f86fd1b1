import type { Raster } from '../grid/raster.ts';

/** Rows of a strip: small enough to read a part, large enough to deflate well. */
const STRIP_ROWS = 64;
/** TIFF field types and their bytes. */
const SHORT = 3;
const LONG = 4;
const DOUBLE = 12;
const ASCII = 2;

type Field = readonly [tag: number, type: number, values: readonly number[] | string];

/**
 * A raster as a GeoTIFF 1.1 file (OGC 19-008): one band of little-endian Float32, metres, missing cells NaN, north-up,
 * pixel is area. `deflate` gives a zlib stream (RFC 1950). Only CRSs of the form `EPSG:n`, projected.
 */
export function writeGeoTiff(
  raster: Raster,
  deflate: (bytes: Uint8Array) => Uint8Array,
): Uint8Array<ArrayBuffer> {
  const { columns, rows, cell, west, north } = raster;
  const strips: Uint8Array[] = [];
  for (let r = 0; r < rows; r += STRIP_ROWS) {
    strips.push(
      deflate(littleEndian(raster.data.subarray(r * columns, Math.min(rows, r + STRIP_ROWS) * columns))),
    );
  }
  const fields: Field[] = [
    [256, LONG, [columns]],
    [257, LONG, [rows]],
    [258, SHORT, [32]],
    [259, SHORT, [8]], // deflate
    [262, SHORT, [1]], // black is low
    [273, LONG, strips.map(() => 0)], // where the strips begin, known below
    [277, SHORT, [1]],
    [278, LONG, [STRIP_ROWS]],
    [279, LONG, strips.map((s) => s.length)],
    [339, SHORT, [3]], // IEEE float
    [33550, DOUBLE, [cell, cell, 0]],
    [33922, DOUBLE, [0, 0, 0, west, north, 0]],
    [34735, SHORT, geoKeys(raster.crs)],
    [42113, ASCII, 'nan\0'],
  ];
  const directory = 8;
  const extra = directory + 2 + fields.length * 12 + 4;
  const values = extra + fields.reduce((sum, f) => sum + outside(f), 0);
  let at = values;
  const begins = strips.map((s) => {
    const here = at;
    at += s.length + (s.length & 1);
    return here;
  });
  fields[5] = [273, LONG, begins];

  const file = new Uint8Array(at);
  const view = new DataView(file.buffer);
  view.setUint16(0, 0x4949, true);
  view.setUint16(2, 42, true);
  view.setUint32(4, directory, true);
  view.setUint16(directory, fields.length, true);
  let spare = extra;
  fields.forEach((field, i) => {
    const [tag, type, value] = field;
    const entry = directory + 2 + i * 12;
    view.setUint16(entry, tag, true);
    view.setUint16(entry + 2, type, true);
    view.setUint32(entry + 4, value.length, true);
    const room = outside(field);
    if (room > 0) view.setUint32(entry + 8, spare, true);
    putValues(view, room > 0 ? spare : entry + 8, field);
    spare += room;
  });
  strips.forEach((s, i) => {
    file.set(s, begins[i]!);
  });
  return file;
}

/** GeoKeyDirectory: projected, pixel is area, the EPSG code, metres. */
function geoKeys(crs: string): number[] {
  const code = Number(crs.replace(/^EPSG:/, ''));
  return [1, 1, 1, 4, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, code, 3076, 0, 1, 9001];
}

function sizeOf(type: number): number {
  return type === DOUBLE ? 8 : type === LONG ? 4 : type === SHORT ? 2 : 1;
}

/** Bytes a field needs outside its entry, padded to a word; 0 when it fits inside. */
function outside([, type, value]: Field): number {
  const bytes = sizeOf(type) * value.length;
  return bytes <= 4 ? 0 : bytes + (bytes & 1);
}

function putValues(view: DataView, at: number, [, type, value]: Field): void {
  for (let i = 0; i < value.length; i++) {
    const v = typeof value === 'string' ? value.charCodeAt(i) : value[i]!;
    if (type === DOUBLE) view.setFloat64(at + 8 * i, v, true);
    else if (type === LONG) view.setUint32(at + 4 * i, v, true);
    else if (type === SHORT) view.setUint16(at + 2 * i, v, true);
    else view.setUint8(at + i, v);
  }
}

function littleEndian(values: Float32Array): Uint8Array {
  const bytes = new Uint8Array(values.length * 4);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < values.length; i++) view.setFloat32(4 * i, values[i]!, true);
  return bytes;
}
