import { readFileSync } from 'node:fs';
import type { Ground } from '../../viz/map/ground.ts';

export const fixture = (name: string): string =>
  readFileSync(new URL(`../fixtures/viz/${name}`, import.meta.url), 'utf8');

/** An ESRI ASCII raster as a ground; only what the fixtures need. */
export function asciiGround(name: string): Ground {
  const lines = fixture(name).trim().split('\n');
  const head = new Map(
    lines.slice(0, 6).map((l) => {
      const [key, value] = l.trim().split(/\s+/);
      return [key!.toLowerCase(), Number(value)] as const;
    }),
  );
  const missing = head.get('nodata_value');
  const [columns, rows, cell] = [head.get('ncols')!, head.get('nrows')!, head.get('cellsize')!];
  const heights = Float32Array.from(
    lines
      .slice(6)
      .flatMap((l) => l.trim().split(/\s+/).map(Number))
      .map((v) => (v === missing ? Number.NaN : v)),
  );
  return {
    heights,
    columns,
    rows,
    cell,
    west: head.get('xllcorner')!,
    north: head.get('yllcorner')! + rows * cell,
  };
}
