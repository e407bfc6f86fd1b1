import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { PbfReader, PbfWriter } from 'pbf';
import { expect } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import type { FeaturesRead } from '../../src/features/gather.ts';
import { readKindsTable } from '../../src/features/kinds-table.ts';
import { placesAsFeatures } from '../../src/features/named-places.ts';
import { buildNetwork } from '../../src/features/network.ts';
import { readOsmPbf } from '../../src/features/osm-pbf.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import { featuresOfOsm, readOsm } from '../../src/features/read-osm.ts';
import { readOwnCsv } from '../../src/features/read-own-csv.ts';
import type { Point } from '../../src/math/plane.ts';
import { parseGridReference } from '../../src/terrain/grid-reference.ts';
import { mutatedBytes, mutatedText } from './mutations.ts';

// plain scaling in place of a projection: what is tested is the reading, and 10 000 files are many
const options = {
  crs: 'EPSG:27700',
  where: 'file',
  fromLonLat: (x: number, y: number): Point => [x * 70_000, y * 111_000],
};
const own = { ...options, fromGrid: (g: string) => parseGridReference(g, 'EPSG:27700') };
const fixture = (name: string) => readFileSync(`tests/fixtures/features/${name}`);
const unzlib = (bytes: Uint8Array, size: number) =>
  new Uint8Array(inflateSync(bytes, { maxOutputLength: Math.max(size, 1) }));

const GEOJSON = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    {
      id: 'a',
      kind: 'wall',
      name: 'Long Dyke',
      exists: 0.9,
      type: 'LineString',
      coordinates: [
        [0, 0],
        [0.01, 0.02],
        [0.03, 0.01],
      ],
    },
    {
      id: 'b',
      kind: 'stream',
      lastSeen: '2020-01-01',
      type: 'MultiLineString',
      coordinates: [
        [
          [0, 0.01],
          [0.02, 0.01],
        ],
        [
          [0.02, 0.01],
          [0.04, 0],
        ],
      ],
    },
    {
      id: 'c',
      kind: 'tarn',
      visibility: 'high',
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [0.001, 0],
          [0.001, 0.001],
          [0, 0],
        ],
      ],
    },
    { id: 'd', kind: 'cairn', row: 'r', rowPlace: 1, type: 'Point', coordinates: [0.01, 0.01] },
  ].map(({ type, coordinates, ...properties }) => ({
    type: 'Feature',
    properties,
    geometry: { type, coordinates },
  })),
});
const CSV =
  'id,kind,grid reference,name,exists,last seen\na,spring,NY 213 105,"Cold, ""clear""",0.7,2024-05-01\nb,cairn,-3.2 54.5,Rough,,\nc,post,NY 21350 10512,,1,2023\n';
const KINDS = 'property,value,kind\ncode,6224,stream\ncode,*,small-stream\nname,"x, y",-\n';
// 12 kB of XML: the first elements of the fixture and what belongs to them
const XML = `<osm version="0.6">${Array.from({ length: 40 }, (_, i) => `<node id="${i + 1}" lon="${9 + (i % 8) / 1000}" lat="${47 + Math.floor(i / 8) / 1000}">${i % 5 === 0 ? '<tag k="natural" v="spring"/><tag k="name" v="Q &amp; A"/>' : ''}</node>`).join('')}
${[
  [1, 2, 3, 4],
  [9, 10, 18, 17, 9],
  [20, 28, 36],
  [33, 34, 26, 25, 33],
]
  .map(
    (refs, i) =>
      `<way id="${i + 1}">${refs.map((r) => `<nd ref="${r}"/>`).join('')}<tag k="${['highway', 'natural', 'waterway', 'landuse'][i]}" v="${['path', 'water', 'stream', 'forest'][i]}"/></way>`,
  )
  .join('')}
<relation id="9"><member type="way" ref="2" role="outer"/><member type="way" ref="4" role="inner"/><tag k="type" v="multipolygon"/><tag k="natural" v="wood"/></relation></osm>`;

/** Every way in that this room has, with a sound file of its kind. */
export const DOORS: Readonly<Record<string, (seed: number) => unknown>> = {
  GeoJSON: (seed) => networked(readFeatures(mutatedText(GEOJSON, seed), options)),
  'GeoJSON with other_tags': (seed) => networked(readOsm(mutatedText(exported, seed), options)),
  'OSM XML': (seed) => networked(readOsm(mutatedText(XML, seed), options)),
  'OSM PBF': (seed) => featuresOfOsm(readOsmPbf(mutatedBytes(pbf, seed), { where: 'file', unzlib }), options),
  CSV: (seed) => readOwnCsv(mutatedText(CSV, seed), own),
  'kinds.csv': (seed) =>
    readFeatures(GEOJSON, { ...options, foreign: readKindsTable(mutatedText(KINDS, seed), 'kinds.csv') }),
};
/** The extract with its blocks not compressed, so that damage reaches what is in them and not only the checksum. */
const pbf = uncompressed(new Uint8Array(fixture('malbun.osm.pbf')));
const exported = fixture('malbun-points.geojson').toString();

function uncompressed(bytes: Uint8Array): Uint8Array {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array[] = [];
  for (let at = 0; at < bytes.length; ) {
    const headerSize = view.getUint32(at, false);
    let type = '';
    let size = 0;
    new PbfReader(bytes.subarray(at + 4, at + 4 + headerSize)).readFields((tag, _, p) => {
      if (tag === 1) type = p.readString();
      if (tag === 3) size = p.readVarint();
    }, null);
    at += 4 + headerSize;
    let raw = new Uint8Array(0);
    new PbfReader(bytes.subarray(at, at + size)).readFields((tag, _, p) => {
      if (tag === 3) raw = new Uint8Array(inflateSync(p.readBytes()));
    }, null);
    at += size;
    const blob = new PbfWriter();
    blob.writeBytesField(1, raw);
    const body = blob.finish();
    const header = new PbfWriter();
    header.writeStringField(1, type);
    header.writeVarintField(3, body.length);
    const head = header.finish();
    parts.push(Uint8Array.of(0, 0, head.length >> 8, head.length & 255), head, body);
  }
  return new Uint8Array(Buffer.concat(parts));
}

function networked(read: FeaturesRead): void {
  const network = buildNetwork(read.features);
  placesAsFeatures(network, read.features);
}

export interface Tally {
  read: number;
  refused: number;
  slowestMs: number;
  mostBytes: number;
}

/** Reads damaged files of one kind. Each must be read or refused with one UserError of one line, in time. */
export function readDamaged(door: (seed: number) => unknown, from: number, count: number): Tally {
  const tally: Tally = { read: 0, refused: 0, slowestMs: 0, mostBytes: 0 };
  for (let seed = from; seed < from + count; seed++) {
    const began = performance.now();
    try {
      door(seed);
      tally.read++;
    } catch (error) {
      if (!(error instanceof UserError)) throw new Error(`seed ${seed} crashed`, { cause: error });
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be there
      expect(error.message, `seed ${seed}`).not.toMatch(/[\u0000-\u001f\u202e]/);
      expect(error.message.length, `seed ${seed}`).toBeLessThan(700);
      tally.refused++;
    }
    tally.slowestMs = Math.max(tally.slowestMs, performance.now() - began);
    if (seed % 50 === 0) tally.mostBytes = Math.max(tally.mostBytes, process.memoryUsage().rss);
  }
  return tally;
}
