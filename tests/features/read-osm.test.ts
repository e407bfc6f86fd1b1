import { readFileSync } from 'node:fs';
import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import type { Feature } from '../../src/features/feature.ts';
import { osmKind, tellingTag } from '../../src/features/osm-kinds.ts';
import { readOsmPbf } from '../../src/features/osm-pbf.ts';
import { readOsmXml } from '../../src/features/osm-xml.ts';
import { featuresOfOsm, OSM_ATTRIBUTION, readOsm } from '../../src/features/read-osm.ts';
import { distance, type Point } from '../../src/math/plane.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';

const FIXTURES = 'tests/fixtures/features';
const crs = 'EPSG:32632';
const options = (where: string) => ({
  crs,
  where,
  fromLonLat: (lon: number, lat: number) => fromLonLat(crs, [lon, lat]),
});
const textOf = (name: string) => readFileSync(`${FIXTURES}/${name}`, 'utf8');
const pbf = () => new Uint8Array(readFileSync(`${FIXTURES}/malbun.osm.pbf`));
const unzlib = (bytes: Uint8Array, size: number) =>
  new Uint8Array(inflateSync(bytes, { maxOutputLength: Math.max(size, 1) }));
const message = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return (error as Error).message;
  }
  throw new Error('nothing was wrong');
};

describe('one extract, four forms', () => {
  const xml = readOsm(textOf('malbun.osm'), options('malbun.osm'));
  const binary = featuresOfOsm(
    readOsmPbf(pbf(), { where: 'malbun.osm.pbf', unzlib }),
    options('malbun.osm.pbf'),
  );

  test('XML (written by osmium) and PBF hold the same features, to the bit', () => {
    expect(xml.features.length).toBeGreaterThan(60);
    expect(binary).toEqual(xml);
    expect(xml.attribution).toBe(OSM_ATTRIBUTION);
  });

  test('Overpass JSON of the same elements too', () => {
    const elements: unknown[] = [];
    const { nodes, ways, relations } = rawOf(textOf('malbun.osm'));
    elements.push(...nodes, ...ways, ...relations);
    const json = readOsm(JSON.stringify({ version: 0.6, elements }), options('overpass.json'));
    expect(json.features).toEqual(xml.features);
  });

  test('every feature that GDAL exports is there with the same kind and the same vertices, to 2 cm', () => {
    const mine = new Map(xml.features.map((f) => [f.id, f]));
    let compared = 0;
    for (const layer of ['points', 'lines', 'multipolygons']) {
      const exported = readOsm(textOf(`malbun-${layer}.geojson`), options(layer));
      for (const f of exported.features) {
        if (f.id.startsWith('edge:')) continue;
        const own = mine.get(f.id);
        expect(own, f.id).toBeDefined();
        expect(own!.kind, f.id).toBe(f.kind);
        expect(own!.name, f.id).toBe(f.name);
        expect(own!.given, f.id).toEqual(f.given);
        const places = verticesOf(own!);
        const theirs = verticesOf(f);
        expect(places.length, f.id).toBe(theirs.length);
        for (const p of theirs) expect(Math.min(...places.map((q) => distance(p, q)))).toBeLessThan(0.02);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(50);
  });

  test('what was left out is counted under its tag, most frequent first', () => {
    const counts = xml.ignored.map((i) => i.count);
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    expect(xml.ignored.every((i) => i.what.includes('=') || i.what === 'without a telling tag')).toBe(true);
  });

  test('a box keeps what touches it, cut at its edge', () => {
    const data = readOsmPbf(pbf(), { where: 'malbun', unzlib, box: [9.602, 47.095, 9.606, 47.098] });
    const whole = readOsmPbf(pbf(), { where: 'malbun', unzlib });
    expect(data.ways.length).toBeGreaterThan(5);
    expect(data.ways.length).toBeLessThan(whole.ways.length);
    for (const { lines } of data.ways) {
      for (const [lon, lat] of lines.flat()) {
        expect(lon >= 9.602 && lon <= 9.606 && lat >= 47.095 && lat <= 47.098).toBe(true);
      }
    }
  });
});

test('the edge of a wood is a line to follow; a wood that is a multipolygon has its clearings as holes', () => {
  const text = `<osm version="0.6">
    ${[
      [0, 0],
      [0.01, 0],
      [0.01, 0.01],
      [0, 0.01],
      [0.004, 0.004],
      [0.006, 0.004],
      [0.006, 0.006],
    ]
      .map(([x, y], i) => `<node id="${i + 1}" lon="${9 + x!}" lat="${47 + y!}"/>`)
      .join('')}
    <way id="10"><nd ref="1"/><nd ref="2"/><nd ref="3"/></way>
    <way id="11"><nd ref="3"/><nd ref="4"/><nd ref="1"/></way>
    <way id="12"><nd ref="5"/><nd ref="6"/><nd ref="7"/><nd ref="5"/></way>
    <relation id="5"><member type="way" ref="10" role="outer"/><member type="way" ref="11" role="outer"/><member type="way" ref="12" role="inner"/>
      <tag k="type" v="multipolygon"/><tag k="natural" v="wood"/><tag k="name" v="Larch &amp; Co &#x3c;Wood&#62;"/></relation>
  </osm>`;
  const { features } = readOsm(text, options('wood.osm'));
  expect(features.map((f) => [f.id, f.kind, f.geometry.type, f.name])).toEqual([
    ['r5', 'forest', 'area', 'Larch & Co <Wood>'],
    ['edge:r5', 'forest-edge', 'line', 'edge of Larch & Co <Wood>'],
    ['edge:r5/2', 'forest-edge', 'line', 'edge of Larch & Co <Wood>'],
  ]);
  const rings = features[0]!.geometry.type === 'area' ? features[0]!.geometry.rings : [];
  expect(rings.map((r) => r.length)).toEqual([5, 4]);
});

test('a way whose middle the extract lacks is not joined across the gap', () => {
  const text = `<osm><node id="1" lon="9" lat="47"/><node id="2" lon="9.001" lat="47"/><node id="4" lon="9.1" lat="47"/><node id="5" lon="9.101" lat="47"/>
    <way id="1"><nd ref="1"/><nd ref="2"/><nd ref="3"/><nd ref="4"/><nd ref="5"/><tag k="highway" v="path"/></way></osm>`;
  const { features } = readOsm(text, options('cut.osm'));
  expect(features.map((f) => f.id)).toEqual(['w1.1', 'w1.2']);
});

describe('tags to kinds', () => {
  const P = [{ type: 'point', at: [0, 0] as Point }] as const;
  const L = [
    {
      type: 'line',
      points: [
        [0, 0],
        [9, 0],
      ] as Point[],
    },
  ] as const;
  const square = (side: number) =>
    [
      {
        type: 'area',
        rings: [
          [
            [0, 0],
            [side, 0],
            [side, side],
            [0, side],
            [0, 0],
          ] as Point[],
        ],
      },
    ] as const;
  test.each([
    [{ natural: 'spring' }, P, 'spring'],
    [{ man_made: 'cairn' }, P, 'cairn'],
    [{ natural: 'cliff' }, L, 'cliff'],
    [{ natural: 'cliff' }, P, 'crag'],
    [{ barrier: 'wall' }, L, 'wall'],
    [{ barrier: 'wall', ruined: 'yes' }, L, 'ruined-wall'],
    [{ barrier: 'dry_stone' }, L, null],
    [{ barrier: 'gate' }, P, 'gate'],
    [{ highway: 'track', tracktype: 'grade4' }, L, 'track'],
    [{ highway: 'path' }, L, 'path'],
    [{ highway: 'path', trail_visibility: 'no', designation: 'public_footpath' }, L, 'right-of-way'],
    [{ highway: 'path', trail_visibility: 'no' }, L, 'trod'],
    [{ highway: 'path', tunnel: 'yes' }, L, null],
    [{ highway: 'proposed' }, L, null],
    [{ waterway: 'stream' }, L, 'stream'],
    [{ waterway: 'stream', width: '0.5' }, L, 'small-stream'],
    [{ waterway: 'stream', intermittent: 'yes' }, L, 'small-stream'],
    [{ waterway: 'stream', tunnel: 'culvert' }, L, 'stream'],
    [{ natural: 'water' }, square(15), 'pool'],
    [{ natural: 'water' }, square(25), 'tarn'],
    [{ natural: 'water' }, square(200), 'lake'],
    [{ building: 'yes', ruins: 'yes' }, square(9), 'ruin'],
    [{ building: 'no' }, square(9), null],
    [{ building: 'barn' }, square(9), 'building'],
    [{ natural: 'scrub' }, square(99), null],
    [{ natural: 'peak' }, P, 'knoll'],
    [{ natural: 'saddle' }, P, 'col'],
    [{ natural: 'wetland', wetland: 'bog' }, square(99), 'marsh'],
    [{ information: 'guidepost', tourism: 'information' }, P, 'post'],
    [{ constructor: 'x' }, P, null],
  ] as const)('%o', (tags, parts, kind) => {
    expect(osmKind(tags as unknown as Record<string, string>, [...parts])?.kind ?? null).toBe(kind);
  });

  test('a path the mappers could hardly see is less likely to be seen', () => {
    const exists = (trail_visibility: string) =>
      osmKind({ highway: 'path', trail_visibility }, [...L])!.known?.exists;
    expect([exists('excellent'), exists('bad'), exists('horrible')]).toEqual([0.97, 0.65, 0.45]);
  });

  test('the tag that tells', () => {
    expect(tellingTag({ name: 'x', natural: 'scrub' })).toBe('natural=scrub');
    expect(tellingTag({ name: 'x' })).toBe('without a telling tag');
  });
});

describe('hostile XML', () => {
  test.each([
    [
      '<?xml version="1.0"?><!DOCTYPE osm [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><osm>&b;</osm>',
      /document types and entities are not read/,
    ],
    ['<osm>' + '<a>'.repeat(100_000), /nested too deeply \(got 9 levels/],
    [
      '<osm><node id="1" lon="9" lat="47"></osm>',
      /line 1: the XML is not well formed \(got <\/osm>, expected <\/node>/,
    ],
    [
      '<osm>\n<node id="1" lon="9" lat="97"/></osm>',
      /line 2: a node has no good longitude and latitude \(got 97/,
    ],
    ['<osm><node id="1" lon="" lat="47"/></osm>', /no good longitude/],
    ['<osm><node id="1e3" lon="9" lat="47"/></osm>', /an id or ref is wrong \(got 1e3/],
    ['<osm><way id="1"><nd ref="x"/></way></osm>', /an id or ref is wrong/],
    ['<osm><node id="1" lon="9" lat="47"', /not well formed/],
    ['<osm><node id="1" lon="9" lat="47"/>', /ends too early \(got <osm> still open/],
    ['<osm><!-- never closed', /ends too early/],
    ['<html><body/></html>', /not OpenStreetMap XML \(got <html>/],
    ['<osmChange></osmChange>', /not OpenStreetMap XML/],
    ['<?xml version="1.0"?>', /not OpenStreetMap XML/],
    ['hello', /not OpenStreetMap data/],
  ])('%#', (text, said) => {
    const began = performance.now();
    expect(message(() => readOsm(text, options('x.osm')))).toMatch(said);
    expect(performance.now() - began).toBeLessThan(1000);
  });

  test('a hundred thousand attributes, brackets in names, an unknown entity: read in time', () => {
    const many = Array.from({ length: 100_000 }, (_, i) => ` a${i}="x"`).join('');
    const text = `<osm><node id="1" lon="9" lat="47"${many}><tag k="natural" v="spring"/><tag k="name" v='a > b &amp;lt; &bomb; "q"'/></node></osm>`;
    const began = performance.now();
    const { features } = readOsm(text, options('x.osm'));
    expect(features).toMatchObject([{ id: 'n1', kind: 'spring', name: 'a > b &lt; &bomb; "q"' }]);
    expect(performance.now() - began).toBeLessThan(2000);
  });

  test('__proto__ and constructor are keys like any other', () => {
    const data = readOsmXml(
      '<osm><node id="1" lon="9" lat="47"><tag k="__proto__" v="x"/><tag k="constructor" v="y"/></node></osm>',
      'x',
    );
    expect(Object.keys(data.nodes[0]!.tags)).toEqual(['__proto__', 'constructor']);
    expect(
      readOsm(
        '<osm><way id="3"><nd ref="1"/><nd ref="2"/><tag k="__proto__" v="x"/></way><node id="1" lon="9" lat="47"/><node id="2" lon="9" lat="47.1"/></osm>',
        options('x'),
      ).features,
    ).toEqual([]);
  });

  test('deleted elements are gone; 200 MB are refused before they are looked at', () => {
    expect(
      readOsm(
        '<osm><node id="1" lon="9" lat="47" action="delete"><tag k="natural" v="spring"/></node></osm>',
        options('x'),
      ).features,
    ).toEqual([]);
    expect(message(() => readOsm('<'.repeat(200_000_000), options('big.osm')))).toContain(
      'too large to read',
    );
  });
});

describe('hostile PBF', () => {
  const refused = (bytes: Uint8Array) => message(() => readOsmPbf(bytes, { where: 'x.pbf', unzlib }));
  test('no PBF, cut off, empty', () => {
    expect(refused(new TextEncoder().encode('<osm></osm>'))).toContain(
      'not OpenStreetMap PBF, or it is damaged',
    );
    expect(refused(pbf().subarray(0, 20_000))).toContain('damaged');
    expect(refused(new Uint8Array(0))).toContain('no OSMHeader block');
  });

  test('a length that promises gigabytes is refused before anything is allocated', () => {
    // BlobHeader: type "OSMData", datasize 2^31 − 1
    const header = [0x0a, 7, ...new TextEncoder().encode('OSMData'), 0x18, 0xff, 0xff, 0xff, 0xff, 0x07];
    const began = performance.now();
    expect(refused(new Uint8Array([0, 0, 0, header.length, ...header, 1, 2, 3]))).toContain('damaged');
    expect(performance.now() - began).toBeLessThan(200);
  });
});

function verticesOf(f: Feature): readonly Point[] {
  const g = f.geometry;
  return g.type === 'point' ? [g.at] : g.type === 'line' ? g.points : g.rings.flat();
}

/** The elements of tidy OSM XML by a few regular expressions: a second reader, good enough for a file written by osmium. */
function rawOf(text: string) {
  const plain = (s: string) =>
    s
      .replace(/&apos;/g, "'")
      .replace(/&quot;/g, '"')
      .replace(/&lt;/g, '<')
      .replace(/&gt;/g, '>')
      .replace(/&#x([0-9a-fA-F]+);/g, (_, h) => String.fromCodePoint(Number.parseInt(h, 16)))
      .replace(/&amp;/g, '&');
  const blocks = (name: string) => [
    ...text.matchAll(new RegExp(`<${name} ([^>]*?)(?:/>|>([^]*?)</${name}>)`, 'g')),
  ];
  const attribute = (s: string, k: string) => new RegExp(`\\b${k}="([^"]*)"`).exec(s)![1]!;
  const tags = (body = '') =>
    Object.fromEntries(
      [...body.matchAll(/<tag k="([^"]*)" v="([^"]*)"\/>/g)].map((m) => [plain(m[1]!), plain(m[2]!)]),
    );
  const common = (m: RegExpMatchArray) => ({ id: Number(attribute(m[1]!, 'id')), tags: tags(m[2]) });
  return {
    nodes: blocks('node').map((m) => ({
      type: 'node',
      ...common(m),
      lat: Number(attribute(m[1]!, 'lat')),
      lon: Number(attribute(m[1]!, 'lon')),
    })),
    ways: blocks('way').map((m) => ({
      type: 'way',
      ...common(m),
      nodes: [...(m[2] ?? '').matchAll(/<nd ref="(-?\d+)"/g)].map((n) => Number(n[1])),
    })),
    relations: blocks('relation').map((m) => ({
      type: 'relation',
      ...common(m),
      members: [...(m[2] ?? '').matchAll(/<member type="(\w+)" ref="(-?\d+)" role="([^"]*)"/g)].map((x) => ({
        type: x[1],
        ref: Number(x[2]),
        role: x[3],
      })),
    })),
  };
}
