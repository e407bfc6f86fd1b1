import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { deflateSync } from 'node:zlib';
import type { Raster } from '../../src/grid/raster.ts';
import { writeGeoTiff } from '../../src/terrain/write-geotiff.ts';

/** Seeded hills of 40 crossed waves, rough to a decimetre as surveyed ground is: `side` × `side` cells of 5 m in UTM zone 33. */
export function ground(side: number): Raster {
  let s = 1;
  const next = () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    return s / 2 ** 32;
  };
  const waves = Array.from({ length: 40 }, () => {
    const length = 20 * 60 ** next();
    const across = Float64Array.from({ length: side }, (_, c) => Math.sin((6.28 * c) / length + 3));
    const down = Float64Array.from({ length: side }, (_, r) =>
      Math.cos((6.28 * r) / (length * (0.6 + next())) + 1),
    );
    return { across, down, metres: length * 0.06 };
  });
  const data = new Float32Array(side * side);
  for (let r = 0; r < side; r++) {
    for (let c = 0; c < side; c++) {
      let z = 700 + next();
      for (const { across, down, metres } of waves) z += metres * across[c]! * down[r]!;
      data[r * side + c] = Math.round(z * 10) / 10;
    }
  }
  return { crs: 'EPSG:32633', west: 500_000, north: 5_000_000, cell: 5, columns: side, rows: side, data };
}

/** Writes `ground.tif`, deflated Float32, and gives its bytes. */
export function writeGround(raster: Raster, folder: string): Uint8Array {
  const bytes = writeGeoTiff(raster, (strip) => deflateSync(strip));
  writeFileSync(join(folder, 'ground.tif'), bytes);
  return bytes;
}
