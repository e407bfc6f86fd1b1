import { readdirSync } from 'node:fs';
import { expect } from 'vitest';
import { type OpenedTerrain, openTerrain } from '../../src/cli/open-terrain.ts';

/** Opens a folder twice: heights and relief are kept the first time, and come back bit for bit. */
export async function expectKept(folder: string, cache: string): Promise<OpenedTerrain> {
  const kept = () => readdirSync(cache).filter((name) => name.endsWith('.arrays')).length;
  const before = kept();
  const first = await openTerrain(folder);
  expect(first.terrain.notes.join(' ')).toMatch(/reprojected from EPSG:4326 to EPSG:32610/);
  expect(kept()).toBe(before + 2);
  const second = await openTerrain(folder);
  expect(kept()).toBe(before + 2);
  const { data: _, ...frame } = first.terrain.elevation;
  expect(second.terrain).toMatchObject({ notes: first.terrain.notes, crs: 'EPSG:32610', elevation: frame });
  expect(same(second.terrain.elevation.data, first.terrain.elevation.data)).toBe(true);
  for (const name of ['eastward', 'northward', 'flow', 'wetness'] as const) {
    expect(same(second.relief[name].data, first.relief[name].data), name).toBe(true);
  }
  return first;
}

function same(a: Float32Array, b: Float32Array): boolean {
  const bytes = (x: Float32Array) => Buffer.from(x.buffer, x.byteOffset, x.byteLength);
  return bytes(a).equals(bytes(b));
}
