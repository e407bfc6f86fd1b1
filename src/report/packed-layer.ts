import { UserError } from '../door/user-error.ts';
import { deflated, inflatedUpTo } from './deflate.ts';
import type { PackedLayer } from './report.ts';

const MISSING = -32768;

/**
 * Packs heights (metres, north row first, NaN missing) for the report: little-endian Int16 of value / scale, deflated, base64.
 * A value beyond ±32767 scales is stored as the nearest that fits.
 */
export function packLayer(name: PackedLayer['name'], values: ArrayLike<number>, scale: number): PackedLayer {
  const bytes = new Uint8Array(values.length * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < values.length; i++) {
    const steps = Math.round(values[i]! / scale);
    view.setInt16(i * 2, Number.isNaN(steps) ? MISSING : Math.max(-32767, Math.min(32767, steps)), true);
  }
  return { name, scale, data: toBase64(deflated(bytes)) };
}

/**
 * The values of a packed layer, NaN where missing.
 * @throws UserError when the text is no deflated raster of columns × rows cells.
 */
export function unpackLayer(layer: PackedLayer, columns: number, rows: number): Float32Array {
  const size = columns * rows * 2;
  const bytes = inflate(layer, size);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const values = new Float32Array(columns * rows);
  for (let i = 0; i < values.length; i++) {
    const steps = view.getInt16(i * 2, true);
    values[i] = steps === MISSING ? Number.NaN : steps * layer.scale;
  }
  return values;
}

function inflate(layer: PackedLayer, size: number): Uint8Array {
  let bytes: Uint8Array;
  try {
    bytes = inflatedUpTo(fromBase64(layer.data), size);
  } catch {
    return refuse(layer.name, 'text that does not inflate', `${size} deflated bytes in base64`);
  }
  return bytes.length === size
    ? bytes
    : refuse(layer.name, bytes.length > size ? 'more' : `${bytes.length} bytes`, `${size} bytes`);
}

function refuse(name: string, got: string, expected: string): never {
  throw new UserError({ what: 'raster cannot be unpacked', where: `ground.layers ${name}`, got, expected });
}

function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 8192) {
    text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  }
  return btoa(text);
}

function fromBase64(text: string): Uint8Array {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < binary.length; i++) bytes[i] = binary.charCodeAt(i);
  return bytes;
}
