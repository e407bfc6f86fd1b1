import { readOwnCsv } from '../../src/features/read-own-csv.ts';
import { readLine } from '../../src/route/read-line.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import { readDescription } from '../../src/terrain/read-terrain.ts';
import { mutatedText } from '../features/mutations.ts';
import { FEATURES, flatTerrain } from './ground.ts';

const TASK = `version: 1
name: "Over the fell: a try"
terrain: ../flat
start: { feature: old-cairn }
target: { at: [400850, 500850], kind: spring, sweepWidthMetres: 24 }
conditions:
  visibility: { below: 5000, above: 200, cloudBase: 480 }
  ground: saturated
  wind: { metresPerSecond: 8, fromDegrees: 240 }
  date: 2026-11-25
party: { skill: expert, people: 4, set: { bearingDegrees: 3, wanderMetres: 0 } }
limits: { minutes: 90, searchMinutes: 10, turnRoundMinutes: 60 }
features:
  long-wall: { exists: 0.6, positionMetres: 15 }
routes:
  - name: over the top
    legs:
      - { technique: aim-off, line: beck-2, side: left, metres: 60 }
      - { technique: handrail, along: beck-2, towards: mouth, metres: 150 }
      - { technique: bearing, to: target }
  - { name: as drawn, line: drawn/by-hand.gpx }
find: { candidates: 6 }
trials: 10000
seed: 1
`;
const POINTS = Array.from({ length: 30 }, (_, i) => [-2 + i / 5000, 54.39 + i / 9000] as const);
const GPX = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1"><metadata><name>a &amp; b</name></metadata><trk><name>walk</name><trkseg>
${POINTS.map(([lon, lat], i) => `<trkpt lat="${lat}" lon="${lon}"><ele>${300 + i}</ele><time>2026-11-25T10:${String(i).padStart(2, '0')}:00Z</time></trkpt>`).join('\n')}
</trkseg></trk></gpx>`;
const GEOJSON = JSON.stringify({
  type: 'FeatureCollection',
  features: [
    { type: 'Feature', properties: { name: 'walk' }, geometry: { type: 'LineString', coordinates: POINTS } },
  ],
});
const TERRAIN = JSON.stringify({
  version: 1,
  name: 'Flat',
  crs: 'EPSG:27700',
  elevation: ['a.tif', 'b.tif'],
  features: 'features.geojson',
  cellMetres: 10,
  mapDate: '2020-01-01',
  licence: 'CC0-1.0',
  attribution: 'none',
  invented: true,
});
const OWN = 'id,kind,lon,lat,name,exists,last seen\nrough,cairn,-2,54.39,Rough "pile",0.7,2024\n';

const terrain = flatTerrain();
const line = [
  [400_100, 500_100],
  [400_850, 500_850],
] as const;

/** Ways in for the texts that a task stands on, with a sound text of each. */
export const TEXT_DOORS: Readonly<Record<string, (seed: number) => unknown>> = {
  'task in YAML': (seed) =>
    resolveTask(readTaskDocument(mutatedText(TASK, seed), 'a.task.yaml'), {
      terrain,
      features: FEATURES,
      lineOf: () => line,
    }),
  'drawn line in GPX': (seed) => readLine(mutatedText(GPX, seed), 'a.gpx', 'EPSG:27700'),
  'drawn line in GeoJSON': (seed) => readLine(mutatedText(GEOJSON, seed), 'a.geojson', 'EPSG:27700'),
  'terrain.json': (seed) => readDescription(mutatedText(TERRAIN, seed), 'terrain.json'),
  'own features in CSV': (seed) =>
    readOwnCsv(mutatedText(OWN, seed), {
      crs: 'EPSG:27700',
      where: 'own.csv',
      fromLonLat: (x, y) => [x * 70_000, y * 111_000],
      fromGrid: () => [400_000, 500_000],
    }),
};
