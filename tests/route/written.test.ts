import { readFileSync } from 'node:fs';
import { XmlDocument, XsdValidator } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { csvOf } from '../../src/route/csv.ts';
import { geojsonOf } from '../../src/route/geojson.ts';
import { gpxOf } from '../../src/route/gpx.ts';
import type { WrittenRoute } from '../../src/route/written.ts';

const about = {
  title: 'T & "co" <x>',
  creator: 'mistwise',
  remarks: ['Modelled, not observed.'],
  crs: 'EPSG:27700',
};
const nasty = '=HYPERLINK("http://x")';
const routes: WrittenRoute[] = [
  {
    letter: 'A',
    name: 'over \u0000 the <top> \ud800 & down',
    strategy: 'along the wall, then 90 m on a bearing to the target',
    distanceMetres: 1100,
    climbMetres: 40,
    descentMetres: 10,
    legs: [
      {
        technique: 'handrail',
        from: 'the start',
        to: nasty,
        says: 'Follow "Long Dyke", north',
        gridBearingDegrees: 355.44,
        magneticBearingDegrees: null,
        distanceMetres: 1010,
        climbMetres: 40,
        descentMetres: 0,
        doublePaces: 660,
        minutes: 17.04,
        // Ordnance Survey's worked example, Annexe C1: 52°39′27.25″ N 1°43′4.52″ E on OSGB36.
        path: [
          [651409.903, 313177.27],
          [651409.903, 313500],
          [651400, 314180],
        ],
      },
      {
        technique: 'bearing',
        from: 'the corner',
        to: 'the target',
        says: 'Walk',
        gridBearingDegrees: 90,
        magneticBearingDegrees: 89.1,
        distanceMetres: 90,
        climbMetres: 0,
        descentMetres: 10,
        doublePaces: 60,
        minutes: 1.5,
        path: [
          [651400, 314180],
          [651490, 314180],
        ],
      },
    ],
  },
];

const schema = XmlDocument.fromString(
  readFileSync(new URL('../fixtures/gpx/gpx-1.1.xsd', import.meta.url), 'utf8'),
);
const validator = XsdValidator.fromDoc(schema);

describe('GPX', () => {
  it('is valid against the GPX 1.1 schema, whatever stands in a name', () => {
    const document = XmlDocument.fromString(gpxOf(routes, about));
    expect(() => validator.validate(document)).not.toThrow();
    const name = document.get('//g:rte/g:name', { g: 'http://www.topografix.com/GPX/1/1' });
    expect(name?.content).toBe('A over  the <top>  & down');
    document.dispose();
  });

  it('the schema refuses a file without a creator: the check can fail', () => {
    const document = XmlDocument.fromString(gpxOf(routes, about).replace(/ creator="[^"]*"/, ''));
    expect(() => validator.validate(document)).toThrow();
    document.dispose();
  });

  it('has one named point per leg end, and the bends between', () => {
    const gpx = gpxOf(routes, about);
    expect(gpx.match(/<rtept/g)).toHaveLength(4);
    expect(gpx.match(/<rtept[^>]*><name>/g)).toHaveLength(3);
  });
});

describe('GeoJSON', () => {
  it('holds a line per route and per leg in longitude and latitude', () => {
    const document = JSON.parse(geojsonOf(routes, about));
    expect(document.features.map((f: { properties: { part: string } }) => f.properties.part)).toEqual([
      'route',
      'leg',
      'leg',
    ]);
    expect(document.features[0].geometry.coordinates).toHaveLength(4);
    // WGS 84 of the same tower lies about 100 m from its OSGB36 figures 52.657570° N 1.717922° E.
    const [lon, lat] = document.features[0].geometry.coordinates[0];
    expect(Math.abs(lon - 1.717922)).toBeLessThan(0.003);
    expect(Math.abs(lat - 52.65757)).toBeLessThan(0.002);
  });
});

describe('CSV', () => {
  it('is RFC 4180, and no text starts a formula', () => {
    const lines = csvOf(routes).split('\r\n');
    expect(lines).toHaveLength(4);
    expect(lines[1]).toContain(`"'=HYPERLINK(""http://x"")"`);
    expect(lines[1]).toContain('"Follow ""Long Dyke"", north"');
    expect(lines[2]!.split(',').slice(6, 9)).toEqual(['90', '89.1', '90']);
  });
});
