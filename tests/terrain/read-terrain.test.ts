import { describe, expect, it } from 'vitest';
import { UserError } from '../../src/door/user-error.ts';
import { openTerrain } from '../../src/terrain/read-terrain.ts';
import { fixture } from './heights.ts';

const description = {
  version: 1,
  name: 'A cut',
  crs: 'EPSG:27700',
  elevation: 'encodings/strip-none.tif' as string | string[],
  licence: 'OGL',
  attribution: 'Contains OS data',
};

function open(change: object, text?: string) {
  return openTerrain({
    folderName: 'terrains/cut',
    terrainJson: text ?? JSON.stringify({ ...description, ...change }),
    readBytes: async (name) => fixture(name),
  });
}

describe('a terrain folder', () => {
  it('opens with where it comes from', async () => {
    const terrain = await open({ mapDate: '2013-04-01' });
    expect(terrain).toMatchObject({
      name: 'A cut',
      crs: 'EPSG:27700',
      mapDate: '2013-04-01',
      licence: 'OGL',
      attribution: 'Contains OS data',
      invented: false,
      notes: [],
    });
    expect(terrain.elevation).toMatchObject({
      crs: 'EPSG:27700',
      west: 324000,
      north: 516000,
      cell: 50,
      columns: 40,
      rows: 40,
    });
  });

  it('takes the coordinate system from the file, or from the text beside an ASCII grid', async () => {
    expect((await open({ crs: undefined })).crs).toBe('EPSG:27700');
    expect((await open({ crs: undefined, elevation: 'encodings/ascii.asc' })).crs).toBe('EPSG:27700');
  });

  it('joins tiles, resamples, reprojects, and says so', async () => {
    const both = await open({
      elevation: ['encodings/strip-none.tif', 'encodings/nodata.tif'],
      cellMetres: 25,
    });
    expect(both.elevation.columns).toBe(80);
    expect(both.notes.join(' ')).toContain('resampled to cells of 25 m');
    const degrees = await open({ crs: undefined, elevation: 'encodings/degrees.tif', cellMetres: 40 });
    expect(degrees.crs).toBe('EPSG:32630');
    expect(degrees.notes.join(' ')).toContain('reprojected from EPSG:4326');
  });

  it.each([
    ['no JSON', {}, 'x: [', 'terrain.json'],
    ['no name', { name: undefined }, undefined, 'name'],
    ['a misspelt key', { elevtion: 'x' }, undefined, 'did you mean'],
    ['a version to come', { version: 9 }, undefined, 'newer'],
    ['a path out of the folder', { elevation: '../secret.tif' }, undefined, 'outside the terrain folder'],
    ['the same with features', { features: 'a/../../b' }, undefined, 'outside the terrain folder'],
    ['an absolute path', { elevation: '/etc/passwd' }, undefined, 'outside the terrain folder'],
    ['an unknown system', { crs: 'EPSG:99999' }, undefined, 'not in the list'],
    ['degrees', { crs: 'EPSG:4326' }, undefined, 'not metres on the ground'],
    ['another system', { crs: 'EPSG:32630' }, undefined, 'another coordinate system'],
    ['a damaged raster', { elevation: 'encodings.py' }, undefined, 'terrains/cut/encodings.py'],
    ['negative cells', { cellMetres: -5 }, undefined, 'cellMetres'],
  ])('%s is one message with its place', async (_name, change, text, said) => {
    const error = await open(change, text).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(UserError);
    expect((error as UserError).message).toContain(said);
    expect((error as UserError).message).toContain('terrains/cut');
  });
});
