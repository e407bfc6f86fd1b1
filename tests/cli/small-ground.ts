import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** 1.2 × 1.2 km at 20 m that rises gently northward, a wall across it, a fold at the start and a cairn to be found. */
export function writeSmallGround(folder: string): void {
  const terrain = join(folder, 'ground');
  mkdirSync(terrain);
  const rows = Array.from({ length: 60 }, (_, r) =>
    Array.from({ length: 60 }, (_, c) => (260 - r + ((c * 7 + r * 13) % 5) / 10).toFixed(1)).join(' '),
  );
  writeFileSync(
    join(terrain, 'elevation.asc'),
    ['ncols 60', 'nrows 60', 'xllcorner 400000', 'yllcorner 500000', 'cellsize 20', ...rows, ''].join('\n'),
  );
  const feature = (id: string, kind: string, geometry: object) => ({
    type: 'Feature',
    properties: { id, kind },
    geometry,
  });
  const features = [
    feature('fold', 'fold', { type: 'Point', coordinates: [400_200, 500_200] }),
    feature('cairn', 'cairn', { type: 'Point', coordinates: [400_700, 500_800] }),
    feature('long-wall', 'wall', {
      type: 'LineString',
      coordinates: [
        [400_100, 500_950],
        [401_100, 500_950],
      ],
    }),
    feature('mere', 'lake', {
      type: 'Polygon',
      coordinates: [
        [
          [400_900, 500_300],
          [401_000, 500_300],
          [401_000, 500_400],
          [400_900, 500_400],
          [400_900, 500_300],
        ],
      ],
    }),
  ];
  writeFileSync(join(terrain, 'features.geojson'), JSON.stringify({ type: 'FeatureCollection', features }));
  writeFileSync(
    join(terrain, 'terrain.json'),
    JSON.stringify({
      version: 1,
      name: 'Small ground',
      crs: 'EPSG:27700',
      elevation: 'elevation.asc',
      features: 'features.geojson',
      featuresCrs: 'EPSG:27700',
      mapDate: '2024-05-01',
      licence: 'CC0-1.0',
      attribution: 'made for a test',
      invented: true,
    }),
  );
}

export const SMALL_TASK = `version: 1
terrain: ground
start: { feature: fold }
target: { feature: cairn }
conditions: { visibility: 120, date: 2026-11-25 }
limits: { minutes: 60 }
routes:
  - name: straight there
    legs:
      - { technique: bearing, to: target, catching: long-wall }
  - name: by the corner
    legs:
      - { technique: bearing, to: { at: [400700, 500200] } }
      - { technique: bearing, to: target }
find: { candidates: 2 }
trials: 1000
seed: 7
`;
