import { describe, expect, it } from 'vitest';
import { decodeHeights } from '../../src/terrain/decode-heights.ts';
import { crsOfKeys } from '../../src/terrain/geokey-crs.ts';
import { toLonLat } from '../../src/terrain/projection.ts';
import { crsFromText } from '../../src/terrain/recognise-crs.ts';
import { toGround } from '../../src/terrain/to-ground.ts';
import { fixture } from './heights.ts';

const KEYS = { GTModelTypeGeoKey: 1, ProjectedCSTypeGeoKey: 32767, ProjLinearUnitsGeoKey: 9001 };
const BRITISH = {
  ...KEYS,
  GeogSemiMajorAxisGeoKey: 6377563.396,
  ProjCoordTransGeoKey: 1,
  ProjNatOriginLatGeoKey: 49,
  ProjNatOriginLongGeoKey: -2,
  ProjScaleAtNatOriginGeoKey: 0.9996012717,
  ProjFalseEastingGeoKey: 400000,
  ProjFalseNorthingGeoKey: -100000,
};
const CONIC = {
  ...KEYS,
  GeographicTypeGeoKey: 4326,
  ProjCoordTransGeoKey: 8,
  ProjStdParallel1GeoKey: 54,
  ProjStdParallel2GeoKey: 55,
  ProjFalseOriginLatGeoKey: 54.3,
  ProjFalseOriginLongGeoKey: -3,
  ProjFalseOriginEastingGeoKey: 1000,
  ProjFalseOriginNorthingGeoKey: 2000,
};

describe('a coordinate system spelt out in the keys', () => {
  it('is read from a file, and the file is put on the ground of its UTM zone', async () => {
    const grid = await decodeHeights(fixture('other/own-transverse-mercator.tif'), 'a.tif');
    expect(grid.crs).toBeNull();
    const code = crsFromText(grid.crsText!)!;
    // gdaltransform (GDAL 3.6.2) of 7000 50000 by the definition in make.sh
    const [lon, lat] = toLonLat(code, [7000, 50000]);
    expect(lon).toBeCloseTo(-3.04605118380634, 8);
    expect(lat).toBeCloseTo(54.2695417499085, 8);
    const { raster } = toGround([grid]);
    expect(raster.crs).toBe('EPSG:32630');
  });

  it('is refused by name on a datum that is not known', async () => {
    const grid = await decodeHeights(fixture('other/own-other-datum.tif'), 'a.tif');
    expect(crsFromText(grid.crsText!)).toBeNull();
    expect(() => toGround([grid])).toThrow(/\+proj=tmerc \+lat_0=54 .*\+ellps=airy/);
  });

  it('is known again where the list holds it', () => {
    expect(crsFromText(crsOfKeys(BRITISH)!)).toBe('EPSG:27700');
    const zone = { ...KEYS, GeographicTypeGeoKey: 4326, ProjectionGeoKey: 16133 };
    expect(crsFromText(crsOfKeys(zone)!)).toBe('EPSG:32733');
  });

  it('may be a cone', () => {
    // gdaltransform (GDAL 3.6.2) of 7000 50000, +proj=lcc +lat_1=54 +lat_2=55 +lat_0=54.3 +lon_0=-3 +x_0=1000 +y_0=2000 +datum=WGS84
    const [lon, lat] = toLonLat(crsFromText(crsOfKeys(CONIC)!)!, [7000, 50000]);
    expect(lon).toBeCloseTo(-2.90686021367315, 8);
    expect(lat).toBeCloseTo(54.7311900394202, 8);
  });

  it.each([
    ['in feet', { ...CONIC, ProjLinearUnitsGeoKey: 9003 }],
    ['in grads', { ...CONIC, GeogAngularUnitsGeoKey: 9105 }],
    ['from another meridian', { ...CONIC, GeogPrimeMeridianLongGeoKey: 2.3372 }],
    ['without its parallels', { ...CONIC, ProjStdParallel2GeoKey: undefined }],
    ['by a projection that is not listed', { ...CONIC, ProjCoordTransGeoKey: 27 }],
    ['on no known ellipsoid', { ...CONIC, GeographicTypeGeoKey: 32767 }],
    ['with a parameter that is no number', { ...CONIC, ProjStdParallel1GeoKey: '54 +nadgrids=x' }],
  ])('is none %s', (_name, keys) => {
    expect(crsOfKeys(keys)).toBeNull();
  });

  it('lets nothing but numbers into a definition', () => {
    expect(crsFromText('+proj=tmerc +lat_0=54 +nadgrids=@null +ellps=GRS80')).toBeNull();
    expect(crsFromText('+proj=pipeline +step +inv +ellps=GRS80')).toBeNull();
  });
});
