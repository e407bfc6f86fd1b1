import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { unpackBits, unpackLzw } from '../../src/terrain/lzw.ts';
import { declaredNodata, toMetres } from '../../src/terrain/nodata.ts';
import { crsFromText } from '../../src/terrain/recognise-crs.ts';
import { markVoids } from '../../src/terrain/voids.ts';
import { fixture } from './heights.ts';

const text = (t: string) => new TextEncoder().encode(t);
const ascii = (t: string, limits?: { bytes: number; cells: number }) =>
  decodeHeights(text(t), 'a.asc', limits);

async function refusal(promise: Promise<unknown>): Promise<string> {
  const error = await promise.then(
    () => 'read',
    (caught: unknown) => caught,
  );
  expect(error).toBeInstanceOf(UserError);
  return (error as UserError).message;
}

describe('ESRI ASCII grid', () => {
  it('reads corners or centres, any order, any case, its own line ends', async () => {
    const corner = await ascii(
      'NCOLS 3\r\nNROWS 2\r\nXLLCORNER 100\r\nYLLCORNER 200\r\nCELLSIZE 10\r\n1 2 3\r\n4 5.5 -6e0\r\n',
    );
    expect(corner).toMatchObject({
      columns: 3,
      rows: 2,
      west: 100,
      north: 220,
      cellEast: 10,
      cellNorth: 10,
      crs: null,
    });
    expect(Array.from(corner.data)).toEqual([1, 2, 3, 4, 5.5, -6]);
    const centre = await ascii(
      'cellsize 10\nncols 3\nnrows 2\nyllcenter 205\nxllcenter 105\nNODATA_value 5.5\n1 2 3 4 5.5 6',
    );
    expect(centre).toMatchObject({ west: 100, north: 220 });
    expect(centre.data[4]).toBeNaN();
    expect(centre.notes).toEqual(['1 of 6 cells have no height.']);
  });

  it('takes −9999 for missing where it declares nothing, as the format says', async () => {
    const grid = await ascii('ncols 2\nnrows 1\nxllcorner 0\nyllcorner 0\ncellsize 1\n-9999 7');
    expect(Array.from(grid.data)).toEqual([Number.NaN, 7]);
  });

  it('reads every number as Number does, rounded to Float32', async () => {
    const number = fc.oneof(
      fc.double({ min: -400, max: 8000, noNaN: true }).map(String),
      fc.float({ min: -400, max: 8000, noNaN: true }).map((x) => x.toFixed(7)),
      fc.integer({ min: -400, max: 8000 }).map((n) => `${n}.`),
      fc.integer({ min: 1, max: 999 }).map((n) => `+.${n}`),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(number, { minLength: 1, maxLength: 20 }), async (numbers) => {
        const header = `ncols ${numbers.length}\nnrows 1\nxllcorner 0\nyllcorner 0\ncellsize 1\nnodata_value -32000\n`;
        const grid = await ascii(header + numbers.join(' '));
        const expected = numbers.map((n) => Math.fround(Number(n)));
        // zeros amid hills are voids by another rule
        for (let i = 0; i < expected.length; i++)
          if (expected[i] !== 0) expect(grid.data[i]).toBe(expected[i]);
      }),
      { seed: 2, numRuns: 100 },
    );
  });

  const head = 'ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n';
  it.each([
    ['ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\n1 2 3 4', 'cellsize'],
    ['ncols 2\nncols 2\n', 'line 2'],
    ['ncols two\n', 'line 1'],
    ['ncols 2\nbanana 7\n', 'line 2'],
    ['ncols -2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2', 'ncols'],
    ['ncols 2.5\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2', 'ncols'],
    ['ncols 999999\nnrows 999999\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2', 'shorter than its header'],
    ['ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 0\n1 2 3 4', 'cellsize'],
    ['ncols 2\nnrows 2\nxllcorner 1e300\nyllcorner 0\ncellsize 1\n1 2 3 4', 'xllcorner'],
    [`${head}1 2\n3          `, 'ends early'],
    [`${head}1 2\n3 x7`, 'line 7'],
    [`${head}1 2\n3 4\n5`, 'more heights'],
    [`${head}-9999 -9999\n-9999 -9999`, 'no height at all'],
  ])('refuses %j: %s', async (file, said) => {
    expect(await refusal(ascii(file))).toContain(said);
  });

  it('refuses more cells and bytes than the limits before it allocates', async () => {
    const file = `${head}1 2\n3 4`;
    expect(await refusal(ascii(file, { bytes: 1e6, cells: 3 }))).toContain('too large');
    expect(await refusal(ascii(file, { bytes: 20, cells: 100 }))).toContain('too large');
  });
});

describe('.hgt', () => {
  const side = 1201;
  const bytes = new Uint8Array(side * side * 2);
  const view = new DataView(bytes.buffer);
  for (let i = 0; i < side * side; i++) view.setInt16(2 * i, 500 + (i % 7), false);
  view.setInt16(2 * 5, -32768, false);

  it.each([
    ['N49W124.hgt', -124, 50],
    ['s34e020.HGT', 20, -33],
    ['folder/N00E006.SRTMGL3.hgt', 6, 1],
  ])('%s lies by its name, posts on the degree lines', async (name, west, north) => {
    const grid = await decodeHeights(bytes, name);
    expect(grid).toMatchObject({ columns: side, rows: side, crs: 'EPSG:4326' });
    expect(grid.west + grid.cellEast / 2).toBeCloseTo(west, 12);
    expect(grid.north - grid.cellNorth / 2).toBeCloseTo(north, 12);
    expect([grid.data[0], grid.data[1], grid.data[5]]).toEqual([500, 501, Number.NaN]);
  });

  it.each([
    ['hills.hgt', bytes, 'name'],
    ['N49W124.hgt', bytes.subarray(2), 'size'],
    ['N49W124.hgt', new Uint8Array(0), 'empty'],
  ])('refuses %s', async (name, file, said) => {
    expect(await refusal(decodeHeights(file, name))).toContain(said);
  });
});

describe('LZW and PackBits', () => {
  // the first strip of the fixture, unpacked by GDAL into strip-none.tif
  it('never gives more than asked for, whatever the bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), fc.integer({ min: 1, max: 3000 }), (bytes, size) => {
        for (const unpack of [unpackLzw, unpackBits]) {
          try {
            expect(unpack(bytes, size).length).toBeLessThanOrEqual(size);
          } catch (error) {
            expect((error as Error).message).toContain('LZW');
          }
        }
      }),
      { seed: 1, numRuns: 500 },
    );
  });

  it('refuses the bit order of old files instead of running on it', () => {
    expect(() => unpackLzw(Uint8Array.of(0, 1, 0x80, 0x40), 100)).toThrow('old-style');
  });

  // Apple Technical Note TN1023, the example of PackBits
  it('unpacks the example of the format', () => {
    const packed = [0xfe, 0xaa, 0x02, 0x80, 0x00, 0x2a, 0xfd, 0xaa, 0x03, 0x80, 0x00, 0x2a, 0x22, 0xf7, 0xaa];
    const plain = [0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0xaa, 0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0x22];
    expect(Array.from(unpackBits(Uint8Array.from(packed), 24))).toEqual([...plain, ...Array(10).fill(0xaa)]);
  });
});

describe('which heights are missing', () => {
  it.each([
    ['-9999', -9999],
    ['-3.39999999999999996e+38\0', -3.4e38],
    [' nan ', null],
    ['', null],
    ['none', null],
    [undefined, null],
  ])('declared %j', (said, value) => {
    expect(declaredNodata(said)).toBe(value);
  });

  it('compares as Float32, then scales, then looks for impossible heights', () => {
    const data = Float32Array.of(-3.4e38, 1000, -32768, 65535, Number.POSITIVE_INFINITY, 12);
    const counts = { missing: 0, impossible: 0 };
    toMetres(data, { nodata: -3.4e38, scale: 0.1, offset: 5, metresPerUnit: 2 }, counts);
    expect(Array.from(data)).toEqual([
      Number.NaN,
      210,
      Number.NaN,
      Number.NaN,
      Number.NaN,
      Math.fround(12.4),
    ]);
    expect(counts).toEqual({ missing: 2, impossible: 2 });
  });
});

describe('undeclared voids', () => {
  const grid = (rows: number[][]) => Float32Array.from(rows.flat());

  it('a pool of zeros high in the hills is one, two pools are two', () => {
    const data = grid([
      [300, 310, 320, 330, 340, 350],
      [300, 0, 0, 330, 340, 350],
      [300, 0, 320, 330, 0, 350],
      [300, 310, 320, 330, 340, 350],
    ]);
    expect(markVoids(data, 6, 4)).toEqual({ regions: 2, cells: 4 });
    expect([data[7], data[16]]).toEqual([Number.NaN, Number.NaN]);
  });

  it('the sea is not, though a cliff stands over a part of it', () => {
    const data = grid([
      [0, 0, 0, 5, 40, 80],
      [0, 0, 0, 3, 30, 90],
      [0, 0, 0, 60, 70, 95],
      [0, 0, 0, 2, 10, 20],
    ]);
    expect(markVoids(data, 6, 4)).toEqual({ regions: 0, cells: 0 });
  });

  it('a raster of sea alone stays', () => {
    expect(markVoids(new Float32Array(9), 3, 3)).toEqual({ regions: 0, cells: 0 });
  });
});

describe('a coordinate system described in words', () => {
  const british =
    'PROJCS["British_National_Grid",GEOGCS["GCS_OSGB_1936",DATUM["D_OSGB_1936",SPHEROID["Airy_1830",6377563.396,299.3249646]],PRIMEM["Greenwich",0],UNIT["Degree",0.017453292519943295]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",400000],PARAMETER["False_Northing",-100000],PARAMETER["Central_Meridian",-2],PARAMETER["Scale_Factor",0.999601272],PARAMETER["Latitude_Of_Origin",49],UNIT["Meter",1]]';
  const utm = (datum: string, spheroid: string) =>
    `PROJCS["x",GEOGCS["${datum}",DATUM["D_${datum}",SPHEROID[${spheroid}]],PRIMEM["Greenwich",0],UNIT["Degree",0.017453292519943295]],PROJECTION["Transverse_Mercator"],PARAMETER["False_Easting",500000],PARAMETER["False_Northing",0],PARAMETER["Central_Meridian",15],PARAMETER["Scale_Factor",0.9996],PARAMETER["Latitude_Of_Origin",0],UNIT["Meter",1]]`;

  it.each([
    [british, 'EPSG:27700'],
    [utm('WGS_1984', '"WGS_1984",6378137,298.257223563'), 'EPSG:32633'],
    [utm('ETRS_1989', '"GRS_1980",6378137,298.257222101'), 'EPSG:25833'],
    [`ESRI PE String = ${british}`, 'EPSG:27700'],
    [
      'GEOGCS["GCS_WGS_1984",DATUM["D_WGS_1984",SPHEROID["WGS_1984",6378137,298.257223563]],PRIMEM["Greenwich",0],UNIT["Degree",0.017453292519943295]]',
      'EPSG:4326',
    ],
    [british.replace('PARAMETER["Central_Meridian",-2]', 'PARAMETER["Central_Meridian",-3]'), null],
    [british.replace('UNIT["Meter",1]]', 'UNIT["Foot",0.3048]]'), null],
    ['PROJCS["broken', null],
    [`PROJCS[${'['.repeat(3000)}`, null],
    ['', null],
  ])('%.60s…', (wkt, code) => {
    expect(crsFromText(wkt)).toBe(code);
  });

  it('the .prj of the fixture', () => {
    expect(crsFromText(new TextDecoder().decode(fixture('encodings/ascii.prj')))).toBe('EPSG:27700');
  });
});
