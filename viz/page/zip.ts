import { UserError } from '../../src/door/user-error.ts';
import { deflated, inflatedUpTo } from '../../src/report/deflate.ts';
import { crc32 } from '../map/png.ts';
import type { NamedBytes } from './messages.ts';

/* ZIP as in PKWARE's APPNOTE 6.3.3, 4.3: local headers, central directory, end record; stored or deflated, no encryption, no ZIP64. */

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;
const MOST_ENTRIES = 200;
const MOST_BYTES = 200_000_000;

/** An archive of some files; the same files give the same bytes. */
export function zipped(files: readonly NamedBytes[]): Uint8Array<ArrayBuffer> {
  const parts: Uint8Array[] = [];
  const directory: Uint8Array[] = [];
  let at = 0;
  for (const { name, bytes } of files) {
    const called = new TextEncoder().encode(name);
    const small = deflated(bytes);
    const stored = small.length >= bytes.length;
    const body = stored ? bytes : small;
    // version 2.0, UTF-8 names, method, no time, sums
    const shared = [20, 0x0800, stored ? 0 : 8, 0, 0x21] as const;
    const sums = [crc32(bytes), body.length, bytes.length] as const;
    const local = record(30, (v) => {
      v.setUint32(0, LOCAL, true);
      for (const [i, n] of shared.entries()) v.setUint16(4 + 2 * i, n, true);
      for (const [i, n] of sums.entries()) v.setUint32(14 + 4 * i, n, true);
      v.setUint16(26, called.length, true);
    });
    const central = record(46, (v) => {
      v.setUint32(0, CENTRAL, true);
      v.setUint16(4, 20, true);
      for (const [i, n] of shared.entries()) v.setUint16(6 + 2 * i, n, true);
      for (const [i, n] of sums.entries()) v.setUint32(16 + 4 * i, n, true);
      v.setUint16(28, called.length, true);
      v.setUint32(42, at, true);
    });
    parts.push(local, called, body);
    directory.push(central, called);
    at += local.length + called.length + body.length;
  }
  const size = directory.reduce((sum, d) => sum + d.length, 0);
  const end = record(22, (v) => {
    v.setUint32(0, END, true);
    v.setUint16(8, files.length, true);
    v.setUint16(10, files.length, true);
    v.setUint32(12, size, true);
    v.setUint32(16, at, true);
  });
  return joined([...parts, ...directory, end]);
}

/** The files of an archive. Throws UserError when it is broken, encrypted or swells beyond what a page holds. */
export function unzipped(bytes: Uint8Array, where: string): NamedBytes[] {
  const broken = (got: string) => new UserError({ what: 'this archive cannot be read', where, got });
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let end = bytes.length - 22;
  const least = Math.max(0, end - 65_535);
  while (end >= least && end >= 0 && view.getUint32(end, true) !== END) end--;
  if (end < least || end < 0) throw broken('no end record');
  const count = view.getUint16(end + 10, true);
  if (count > MOST_ENTRIES) throw broken(`${count} files`);
  const files: NamedBytes[] = [];
  let total = 0;
  try {
    let at = view.getUint32(end + 16, true);
    for (let i = 0; i < count; i++) {
      if (view.getUint32(at, true) !== CENTRAL) throw broken('a directory that is none');
      const method = view.getUint16(at + 10, true);
      const sum = view.getUint32(at + 16, true);
      const packed = view.getUint32(at + 20, true);
      const size = view.getUint32(at + 24, true);
      const nameLength = view.getUint16(at + 28, true);
      const skip = view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
      const local = view.getUint32(at + 42, true);
      const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameLength));
      at += 46 + nameLength + skip;
      total += size;
      if (total > MOST_BYTES) throw broken(`more than ${MOST_BYTES / 1e6} MB inside`);
      if (name.endsWith('/')) continue;
      const body = local + 30 + view.getUint16(local + 26, true) + view.getUint16(local + 28, true);
      const raw = bytes.subarray(body, body + packed);
      const whole = method === 0 ? raw : method === 8 ? inflatedUpTo(raw, size) : null;
      if (whole === null) throw broken(`a way of packing that is not read (${method})`);
      if (whole.length !== size || crc32(whole) !== sum) throw broken(`a damaged ${name.slice(0, 80)}`);
      files.push({ name, bytes: whole.slice() });
    }
  } catch (error) {
    throw error instanceof UserError ? error : broken('an end before its time');
  }
  return files;
}

function record(size: number, write: (view: DataView) => void): Uint8Array {
  const bytes = new Uint8Array(size);
  write(new DataView(bytes.buffer));
  return bytes;
}

function joined(parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(parts.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
