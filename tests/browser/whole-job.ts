import { readFeatures } from '../../src/features/read-geojson.ts';
import { writeReport } from '../../src/report/write-report.ts';
import { compare } from '../../src/study/compare.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import { resolveTask } from '../../src/study/resolve-task.ts';
import { fromLonLat } from '../../src/terrain/projection.ts';
import { openTerrain, readDescription } from '../../src/terrain/read-terrain.ts';
import { walkHere } from '../../src/walk/jobs.ts';

/** The files of a terrain with one raster, and a task on it: bytes as base64, so that they travel into a page. */
export interface JobFiles {
  readonly terrainJson: string;
  readonly elevation: string;
  readonly features: string;
  readonly task: string;
}

/** `compare` from files to the text of report.json, in whatever engine this runs. */
export async function wholeJob(files: JobFiles, trials: number, tells = false): Promise<string> {
  const bytes = Uint8Array.from(atob(files.elevation), (c) => c.charCodeAt(0));
  const terrain = await openTerrain({
    folderName: 'demo',
    terrainJson: files.terrainJson,
    readBytes: async () => bytes,
  });
  const { featuresCrs } = readDescription(files.terrainJson, 'terrain.json');
  const { features } = readFeatures(files.features, {
    crs: terrain.crs,
    where: 'features.geojson',
    fromLonLat: (lon, lat) => fromLonLat(terrain.crs, [lon, lat]),
    featuresInCrs: featuresCrs !== undefined,
    age: { mapDate: terrain.mapDate },
  });
  const task = resolveTask(readTaskDocument(files.task, 'demo.task.yaml'), { terrain, features });
  const compared = await compare({ task: { ...task, trials }, terrain }, { walkersFor: walkHere, tells });
  return JSON.stringify(writeReport(compared, 'a test'));
}
