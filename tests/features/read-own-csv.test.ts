import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { readCsv } from '../../src/features/csv.ts';
import { readKindsTable } from '../../src/features/kinds-table.ts';
import { readFeatures } from '../../src/features/read-geojson.ts';
import { readOwnCsv } from '../../src/features/read-own-csv.ts';
import { parseGridReference } from '../../src/terrain/grid-reference.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';

const crs = 'EPSG:27700';
const options = {
  crs,
  where: 'own.csv',
  fromLonLat: (lon: number, lat: number) => fromLonLat(crs, [lon, lat]),
  fromGrid: (reference: string) => parseGridReference(reference, crs),
};
const message = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(UserError);
    return (error as Error).message;
  }
  throw new Error('nothing was wrong');
};

describe('own features', () => {
  test('as the manual has it: id, kind, grid reference, name, exists, last seen', () => {
    const { features } = readOwnCsv(
      'id,kind,grid reference,name,exists,last seen\nspring-1,spring,NY 213 105,"Cold, clear",0.7,2024-05-01\ncairn-1,cairn,NY 21350 10512,,,\n',
      options,
    );
    expect(features).toMatchObject([
      {
        id: 'spring-1',
        kind: 'spring',
        name: 'Cold, clear',
        // NY has its south-west corner at 300000, 500000 (Ordnance Survey's published lettering)
        geometry: { type: 'point', at: [321_300, 510_500] },
        given: { exists: 0.7, lastSeen: '2024-05-01' },
        origin: 'drawn',
      },
      { id: 'cairn-1', geometry: { type: 'point', at: [321_350, 510_512] }, given: {} },
    ]);
  });

  test('longitude and latitude in columns of their own, or in the place column; semicolons; any other doubt', () => {
    const { features } = readOwnCsv(
      'ID;Kind;Lon;Lat;Position metres;Head\r\na;stream-end;-3.2;54.5;20;spring-fed\r\n',
      options,
    );
    const other = readOwnCsv('id,kind,grid reference or lon/lat\na,stream-end,-3.2 54.5\n', options).features;
    expect(features[0]!.geometry).toEqual(other[0]!.geometry);
    expect(features[0]!.given).toEqual({ positionMetres: 20, head: 'spring-fed' });
  });

  test.each([
    [
      'id,kind\na,cairn',
      'own.csv: columns are missing (got id,kind, expected id, kind and either a grid reference or lon and lat)',
    ],
    [
      'id,knid,grid\na,cairn,NY 213 105',
      'own.csv: this column is not known (got knid, expected did you mean kind?)',
    ],
    [
      'id,kind,grid\na,carin,NY 213 105',
      'own.csv, feature "a": the kind of this feature is not known (got carin; did you mean cairn?',
    ],
    [
      'id,kind,grid\na,cairn,',
      'own.csv, line 2: a row has no place (expected a grid reference or lon and lat)',
    ],
    [
      'id,kind,lon,lat\na,cairn,200,54',
      'own.csv, line 2: a place is not longitude and latitude in degrees (got 200 54)',
    ],
    [
      'id,kind,grid,exists\na,cairn,NY 213 105,maybe',
      'own.csv, feature "a": exists of a feature is wrong (got "maybe", expected a number from 0 to 1)',
    ],
    [
      'id,kind,grid\na,cairn,NY 213 105\na,post,NY 213 106',
      'own.csv, feature "a": two features have the same id',
    ],
    [
      'id,kind,grid\na,cairn,NY 213 105,7',
      'own.csv, line 2: a row has more cells than the header (got 4, expected 3',
    ],
    ['id,kind,grid\n"a,cairn,NY 213 105', 'own.csv, line 2: a double quote is opened and never closed'],
    ['id,kind,grid,id\n', 'own.csv, line 1: a column stands twice in the header (got id)'],
    ['', 'own.csv: this table is empty'],
  ])('%s', (text, said) => {
    expect(message(() => readOwnCsv(text, options))).toContain(said);
  });

  test('a place that is no grid reference names its row', () => {
    expect(message(() => readOwnCsv('id,kind,grid\na,cairn,nowhere', options))).toMatch(
      /^own\.csv, line 2: .*got nowhere/,
    );
  });
});

describe('tables', () => {
  test('RFC 4180: quotes, doubled quotes, commas and line breaks in quotes, CRLF, comments, blank rows', () => {
    const { columns, rows } = readCsv(
      '\ufeffA b,c_d\r\n"x, ""y""\nz",2\r\n\r\n# a remark,\r\n 3 ,\r\n',
      't.csv',
    );
    expect(columns).toEqual(['ab', 'cd']);
    expect(rows.map((r) => [r.line, r.cells.ab, r.cells.cd])).toEqual([
      [2, 'x, "y"\nz', '2'],
      [6, '3', ''],
    ]);
  });
});

describe('kinds.csv', () => {
  test('makes rivers of the Ordnance Survey’s Meridian 2 streams by their code', () => {
    const foreign = readKindsTable(
      'property,value,kind\ncode,6224,stream\ncode,*,small-stream\n',
      'kinds.csv',
    );
    const read = readFeatures(readFileSync('tests/fixtures/features/cheviot-rivers.geojson', 'utf8'), {
      ...options,
      where: 'rivers',
      foreign,
    });
    const counts: Record<string, number> = {};
    for (const f of read.features) counts[f.kind] = (counts[f.kind] ?? 0) + 1;
    const codes = JSON.parse(
      readFileSync('tests/fixtures/features/cheviot-rivers.geojson', 'utf8'),
    ).features.map((f: { properties: { code: number } }) => f.properties.code);
    const large = codes.filter((c: number) => c === 6224).length;
    expect(counts).toEqual({
      ...(large > 0 ? { stream: large } : {}),
      ...(large < codes.length ? { 'small-stream': codes.length - large } : {}),
    });
  });

  test('first rule wins, - leaves out, what fits nothing is counted', () => {
    const { classify, ignoredAs } = readKindsTable(
      'property,value,kind\ntype,old wall,ruined-wall\ntype,wall,wall\ntype,hedge,-\n',
      'kinds.csv',
    );
    expect(
      [{ type: 'old wall' }, { type: 'wall' }, { type: 'hedge' }, {}].map((p) => classify(p, [])),
    ).toEqual([{ kind: 'ruined-wall' }, { kind: 'wall' }, null, null]);
    expect([ignoredAs!({ type: 'hedge' }), ignoredAs!({})]).toEqual([
      'type=hedge',
      'none of the properties of kinds.csv',
    ]);
  });

  test('a kind not known and a missing column are named', () => {
    expect(message(() => readKindsTable('property,value,kind\na,b,wal', 'kinds.csv'))).toContain(
      'kinds.csv, line 2: this kind is not known (got wal; did you mean wall?',
    );
    expect(message(() => readKindsTable('property,kind\na,b', 'kinds.csv'))).toContain(
      'kinds.csv: the column "value" is missing',
    );
  });
});
