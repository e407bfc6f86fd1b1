import { UserError } from '../../../src/door/user-error.ts';
import type { Feature } from '../../../src/features/feature.ts';
import type { Point } from '../../../src/math/plane.ts';
import { inflatedUpTo, zlibWrapped } from '../../../src/report/deflate.ts';
import { prepare, terrainFiles } from '../../../src/study/prepare.ts';
import { type FeatureFile, featureForm, readFeatureFile } from '../../../src/study/prepare-features.ts';
import { readTaskDocument } from '../../../src/study/read-task.ts';
import type { WrittenTask } from '../../../src/study/schema.ts';
import { decodeHeights } from '../../../src/terrain/decode-heights.ts';
import type { Terrain } from '../../../src/terrain/terrain.ts';
import type { Opened, ToOpener } from '../messages.ts';
import type { Folder } from '../work.ts';
import { openGround } from './open-files.ts';
import { taskOn } from './thinking.ts';

/** Reads what was dropped on the page, apart from the work: only what turned out whole is handed on. */
export function serveOpener(): void {
  self.onmessage = async ({ data }: MessageEvent<ToOpener>) => {
    try {
      self.postMessage(await answer(data));
    } catch (error) {
      const ours = !(error instanceof UserError);
      const message = error instanceof Error ? error.message : String(error);
      self.postMessage({ problem: message, ours } satisfies Opened);
    }
  };
}

async function answer(wish: ToOpener): Promise<Opened> {
  if (wish.do === 'features') return { features: await featuresFor(wish.folder, wish.files) };
  if (wish.do === 'check') {
    const opened = await openGround(wish.folder);
    taskOn(opened, wish.task);
    return { folder: wish.folder, task: wish.task };
  }
  return prepared(wish.name, wish.elevation, wish.features);
}

async function prepared(
  name: string,
  elevation: readonly FeatureFile[],
  features: readonly FeatureFile[],
): Promise<Opened> {
  const limits = { bytes: 80_000_000, cells: 16_000_000 };
  const grids = await Promise.all(elevation.map((f) => decodeHeights(f.bytes, f.name, limits)));
  const kindsTable = features.find((f) => featureForm(f.bytes) === 'kinds table') ?? null;
  const made = prepare(
    { grids, features: features.filter((f) => f !== kindsTable), kindsTable },
    {
      name,
      crs: null,
      cell: null,
      box: null,
      mapDate: null,
      licence: null,
      attribution: null,
      landforms: true,
      unzlib,
    },
  );
  const files = terrainFiles(made, zlibWrapped);
  const text = (file: string) => files.get(file) as string | undefined;
  const folder: Folder = {
    terrainJson: text('terrain.json')!,
    files: [{ name: 'elevation.tif', bytes: files.get('elevation.tif') as Uint8Array }],
    features: text('features.geojson') ?? null,
  };
  const opened = await openGround(folder);
  const first = text('first.task.yaml');
  const task =
    first === undefined ? acrossTheMiddle(opened.terrain) : readTaskDocument(first, 'first.task.yaml').value;
  taskOn(opened, task);
  return { folder, task };
}

async function featuresFor(folder: Folder, files: readonly FeatureFile[]): Promise<readonly Feature[]> {
  const { terrain } = await openGround({ ...folder, features: null });
  const { west, north, cell, columns, rows } = terrain.elevation;
  const box = { west, north, east: west + columns * cell, south: north - rows * cell };
  const wishes = { crs: terrain.crs, box, mapDate: terrain.mapDate, kindsTable: null, unzlib };
  return files.flatMap((file) => readFeatureFile(file, wishes).features);
}

/** A task on ground without any feature: two places in the open, to be moved. */
function acrossTheMiddle({ elevation }: Terrain): WrittenTask {
  const { west, north, cell, columns, rows, data } = elevation;
  const known = (share: number): Point => {
    const wanted = Math.floor(columns * share);
    const row = Math.floor(rows / 2);
    for (let k = 0; k < columns; k++) {
      for (const c of [wanted + k, wanted - k]) {
        if (c < 0 || c >= columns || Number.isNaN(data[row * columns + c]!)) continue;
        return [Math.round(west + (c + 0.5) * cell), Math.round(north - (row + 0.5) * cell)];
      }
    }
    throw new UserError({ what: 'the middle of this elevation holds no heights to plan on' });
  };
  return {
    version: 1,
    name: 'A first task',
    terrain: '.',
    start: { at: [...known(0.35)] as [number, number] },
    target: { at: [...known(0.65)] as [number, number], kind: 'boulder' },
    limits: { minutes: 120, searchMinutes: 10 },
    routes: [{ name: 'straight there', legs: [{ technique: 'bearing', to: 'target' }] }],
    find: { candidates: 4 },
    trials: 2000,
    seed: 1,
  };
}

function unzlib(bytes: Uint8Array, size: number): Uint8Array {
  // two bytes of header, four of checksum
  return inflatedUpTo(bytes.subarray(2, bytes.length - 4), size);
}
