import { PbfReader } from 'pbf';
import { UserError } from '../door/user-error.ts';
import {
  hasTags,
  type LonLat,
  noTags,
  type OsmData,
  type OsmTags,
  type RawRelation,
  type RawWay,
  resolveOsm,
} from './osm-data.ts';
import { shown } from './plain-text.ts';

/** Unpacks a zlib stream to exactly `size` bytes; throws when it is damaged or holds more. */
export type Unzlib = (bytes: Uint8Array, size: number) => Uint8Array;

export interface PbfOptions {
  readonly where: string;
  readonly unzlib: Unzlib;
  /** West, south, east, north in degrees: nodes outside are left out, and ways cut there. */
  readonly box?: readonly [number, number, number, number];
}

/** Sizes the format itself allows (OpenStreetMap wiki, "PBF Format"). */
const MOST_HEADER = 64 * 1024;
const MOST_BLOB = 32 * 1024 * 1024;
const MOST_FILE = 2_000_000_000;
/** Most nodes kept in memory, some 100 bytes each. */
const MOST_NODES = 4_000_000;
const READ = new Set(['OsmSchema-V0.6', 'DenseNodes']);
const MEMBER = ['node', 'way', 'relation'];

/** Reads an OpenStreetMap extract in PBF. Throws a UserError for a damaged or too large file; lengths are checked before anything is allocated. */
export function readOsmPbf(bytes: Uint8Array, options: PbfOptions): OsmData {
  const { where } = options;
  if (bytes.length > MOST_FILE) throw tooLarge(where, `${Math.round(bytes.length / 1e6)} MB`);
  const extract = new Extract(options);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let at = 0;
  try {
    while (at < bytes.length) {
      const headerSize = at + 4 <= bytes.length ? view.getUint32(at, false) : Number.POSITIVE_INFINITY;
      if (headerSize > MOST_HEADER || at + 4 + headerSize > bytes.length) throw new Damaged();
      const { type, size } = blobHeader(bytes.subarray(at + 4, at + 4 + headerSize));
      at += 4 + headerSize;
      if (size > MOST_BLOB || at + size > bytes.length) throw new Damaged();
      const blob = bytes.subarray(at, at + size);
      at += size;
      if (type === 'OSMHeader') extract.header(blob);
      else if (type === 'OSMData') extract.block(blob);
    }
  } catch (error) {
    if (error instanceof UserError) throw error;
    // whatever the bytes make the decoders trip over is a fault of the bytes
    throw new UserError({
      what: 'this is not OpenStreetMap PBF, or it is damaged',
      where: `${where}, byte ${at}`,
      expected: 'an .osm.pbf file',
    });
  }
  if (!extract.hasHeader) {
    throw new UserError({
      what: 'this is not OpenStreetMap PBF',
      where,
      got: 'no OSMHeader block',
      expected: 'an .osm.pbf file',
    });
  }
  return extract.result();
}

class Damaged extends Error {}

function blobHeader(bytes: Uint8Array): { type: string; size: number } {
  let type = '';
  let size = -1;
  fields(bytes, (tag, pbf) => {
    if (tag === 1) type = pbf.readString();
    else if (tag === 3) size = pbf.readVarint();
  });
  if (size < 0) throw new Damaged();
  return { type, size };
}

class Extract {
  hasHeader = false;
  private readonly options: PbfOptions;
  private readonly places = new Map<number, LonLat>();
  private readonly tagged: { id: number; at: LonLat; tags: OsmTags }[] = [];
  private readonly ways: RawWay[] = [];
  private readonly relations: RawRelation[] = [];

  constructor(options: PbfOptions) {
    this.options = options;
  }

  result(): OsmData {
    return resolveOsm(this.places, this.tagged, this.ways, this.relations);
  }

  header(blob: Uint8Array): void {
    this.hasHeader = true;
    fields(this.unpacked(blob), (tag, pbf) => {
      if (tag !== 4) return;
      const feature = pbf.readString();
      if (READ.has(feature)) return;
      throw new UserError({
        what: 'this kind of OpenStreetMap PBF is not read',
        where: this.options.where,
        got: shown(feature),
        expected: [...READ].join(' and '),
      });
    });
  }

  block(blob: Uint8Array): void {
    const block = new Block();
    const groups: Uint8Array[] = [];
    fields(this.unpacked(blob), (tag, pbf) => {
      if (tag === 1) fields(pbf.readBytes(), (t, p) => void (t === 1 && block.strings.push(p.readString())));
      else if (tag === 2) groups.push(pbf.readBytes());
      else if (tag === 17) block.granularity = pbf.readVarint();
      else if (tag === 19) block.latOffset = pbf.readVarint(true);
      else if (tag === 20) block.lonOffset = pbf.readVarint(true);
    });
    for (const group of groups) {
      fields(group, (tag, pbf) => {
        if (tag === 1) this.node(pbf.readBytes(), block);
        else if (tag === 2) this.dense(pbf.readBytes(), block);
        else if (tag === 3) this.way(pbf.readBytes(), block);
        else if (tag === 4) this.relation(pbf.readBytes(), block);
      });
    }
  }

  private unpacked(blob: Uint8Array): Uint8Array {
    let raw: Uint8Array | null = null;
    let zlib: Uint8Array | null = null;
    let size = 0;
    let other = false;
    fields(blob, (tag, pbf) => {
      if (tag === 1) raw = pbf.readBytes();
      else if (tag === 2) size = pbf.readVarint();
      else if (tag === 3) zlib = pbf.readBytes();
      else if (tag >= 4 && tag <= 7) other = true;
    });
    if (raw !== null) return raw;
    if (zlib !== null && size >= 0 && size <= MOST_BLOB) return this.options.unzlib(zlib, size);
    if (!other) throw new Damaged();
    throw new UserError({
      what: 'this OpenStreetMap PBF is compressed in a way that is not read',
      where: this.options.where,
      expected: 'zlib, as almost every extract has; convert it with any general tool',
    });
  }

  private put(id: number, at: LonLat, tags: OsmTags): void {
    const { box, where } = this.options;
    if (!(Math.abs(at[0]) <= 180 && Math.abs(at[1]) <= 90)) throw new Damaged();
    if (box && (at[0] < box[0] || at[1] < box[1] || at[0] > box[2] || at[1] > box[3])) return;
    if (this.places.size >= MOST_NODES) throw tooLarge(where, `more than ${MOST_NODES} nodes`);
    this.places.set(id, at);
    if (hasTags(tags)) this.tagged.push({ id, at, tags });
  }

  private node(bytes: Uint8Array, block: Block): void {
    let [id, lat, lon] = [0, 0, 0];
    const keys: number[] = [];
    const values: number[] = [];
    fields(bytes, (tag, pbf) => {
      if (tag === 1) id = pbf.readSVarint();
      else if (tag === 2) unsigned(pbf, keys);
      else if (tag === 3) unsigned(pbf, values);
      else if (tag === 8) lat = pbf.readSVarint();
      else if (tag === 9) lon = pbf.readSVarint();
    });
    this.put(id, block.degrees(lon, lat), block.tags(keys, values));
  }

  private dense(bytes: Uint8Array, block: Block): void {
    const ids: number[] = [];
    const lats: number[] = [];
    const lons: number[] = [];
    const keysValues: number[] = [];
    fields(bytes, (tag, pbf) => {
      if (tag === 1) deltas(pbf, ids);
      else if (tag === 8) deltas(pbf, lats);
      else if (tag === 9) deltas(pbf, lons);
      else if (tag === 10) unsigned(pbf, keysValues);
    });
    if (lats.length !== ids.length || lons.length !== ids.length) throw new Damaged();
    let k = 0;
    ids.forEach((id, i) => {
      const tags = noTags();
      // pairs of key and value, a zero after the last of each node; the list may be left out
      while (k < keysValues.length && keysValues[k] !== 0) {
        tags[block.string(keysValues[k]!)] = block.string(keysValues[k + 1] ?? -1);
        k += 2;
      }
      k++;
      this.put(id, block.degrees(lons[i]!, lats[i]!), tags);
    });
  }

  private way(bytes: Uint8Array, block: Block): void {
    let id = 0;
    const keys: number[] = [];
    const values: number[] = [];
    const refs: number[] = [];
    fields(bytes, (tag, pbf) => {
      if (tag === 1) id = pbf.readVarint(true);
      else if (tag === 2) unsigned(pbf, keys);
      else if (tag === 3) unsigned(pbf, values);
      else if (tag === 8) deltas(pbf, refs);
    });
    // of a large extract only what touches the box is kept
    if (refs.some((r) => this.places.has(r))) this.ways.push({ id, refs, tags: block.tags(keys, values) });
  }

  private relation(bytes: Uint8Array, block: Block): void {
    let id = 0;
    const keys: number[] = [];
    const values: number[] = [];
    const roles: number[] = [];
    const refs: number[] = [];
    const types: number[] = [];
    fields(bytes, (tag, pbf) => {
      if (tag === 1) id = pbf.readVarint(true);
      else if (tag === 2) unsigned(pbf, keys);
      else if (tag === 3) unsigned(pbf, values);
      else if (tag === 8) unsigned(pbf, roles);
      else if (tag === 9) deltas(pbf, refs);
      else if (tag === 10) unsigned(pbf, types);
    });
    const members = refs.map((ref, i) => ({
      ref,
      type: MEMBER[types[i] ?? -1] ?? '',
      role: block.string(roles[i] ?? -1),
    }));
    this.relations.push({ id, members, tags: block.tags(keys, values) });
  }
}

/** What the elements of one block share. Coordinates are nanodegrees: offset + granularity × value. */
class Block {
  readonly strings: string[] = [];
  granularity = 100;
  latOffset = 0;
  lonOffset = 0;

  string(index: number): string {
    const text = this.strings[index];
    if (text === undefined) throw new Damaged();
    return text;
  }

  tags(keys: readonly number[], values: readonly number[]): OsmTags {
    const tags = noTags();
    keys.forEach((k, i) => {
      tags[this.string(k)] = this.string(values[i] ?? -1);
    });
    return tags;
  }

  degrees(lon: number, lat: number): LonLat {
    return [(this.lonOffset + this.granularity * lon) / 1e9, (this.latOffset + this.granularity * lat) / 1e9];
  }
}

/** Walks the fields of one message, never past its bytes. A message in it is read with `readBytes`, which stays inside too. */
function fields(bytes: Uint8Array, take: (tag: number, pbf: PbfReader) => void): void {
  const pbf = new PbfReader(bytes);
  pbf.readFields((tag) => {
    take(tag, pbf);
    if (!(pbf.pos <= pbf.length)) throw new Damaged();
  }, null);
  if (pbf.pos !== pbf.length) throw new Damaged();
}

function unsigned(pbf: PbfReader, into: number[]): void {
  const packed = new PbfReader(pbf.readBytes());
  while (packed.pos < packed.length) into.push(packed.readVarint());
}

function deltas(pbf: PbfReader, into: number[]): void {
  const packed = new PbfReader(pbf.readBytes());
  let value = 0;
  while (packed.pos < packed.length) {
    value += packed.readSVarint();
    into.push(value);
  }
}

function tooLarge(where: string, got: string): UserError {
  return new UserError({
    what: 'this extract is too large; cut it to the ground of the task first',
    where,
    got,
    expected: `at most ${MOST_NODES} nodes inside the box`,
  });
}
