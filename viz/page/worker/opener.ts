import { UserError } from '../../../src/door/user-error.ts';
import type { Feature } from '../../../src/features/feature.ts';
import type { Point } from '../../../src/math/plane.ts';
import { inflatedUpTo, zlibWrapped } from '../../../src/report/deflate.ts';
import { prepare, terrainFiles } from '../../../src/study/prepare.ts';
import { type FeatureFile, featureForm, readFeatureFile } from '../../../src/study/prepare-features.ts';
import { readTaskDocument } from '../../../src/study/read-task.ts';
import type { WrittenTask } from '../../../src/study/schema.ts';
import { decodeHeights } from '../../../src/terrain/decode-heights.ts';
import { readPicture } from '../../../src/terrain/read-picture.ts';
import type { Terrain } from '../../../src/terrain/terrain.ts';
import { type Dropped, sortDropped, worldBounds } from '../drops.ts';
import type { GroundFiles, NamedBytes, Opened, ToOpener } from '../messages.ts';
import type { Folder } from '../work.ts';
import { openGround, readGround } from './open-files.ts';
import { taskOn, Unreadable } from './thinking.ts';

/** Reads what was dropped on the page, apart from the work: only what turned out whole is handed on. */
export function serveOpener(): void {
  self.onmessage = async ({ data }: MessageEvent<ToOpener>) => {
    try {
      self.postMessage(await answer(data));
    } catch (thrown) {
      const error = thrown instanceof Unreadable ? thrown.why : thrown;
      const ours = !(error instanceof UserError);
      const message = error instanceof Error ? error.message : String(error);
      self.postMessage({ problem: message, ours } satisfies Opened);
    }
  };
}

async function answer({ files, stem, folder, joined }: ToOpener): Promise<Opened> {
  const dropped = sortDropped(files);
  switch (dropped?.is) {
    case undefined:
      return { nothing: true };
    case 'work':
      return checked(dropped.folder, dropped.task);
    case 'task':
      return { task: (await checked(joined, dropped.task)).task };
    case 'elevation':
      return (await beneath(dropped.elevation, joined)) ?? prepared(stem, dropped);
    case 'features':
      return { features: await featuresFor(folder, dropped.files) };
    case 'suggestions':
      return { suggestions: dropped.suggestions };
    case 'line':
      return { line: new TextDecoder().decode(dropped.file.bytes) };
    case 'picture': {
      const picture = new Blob([dropped.image.bytes as Uint8Array<ArrayBuffer>], { type: 'image/png' });
      const { width, height } = await createImageBitmap(picture).catch(() => {
        throw new UserError({ what: 'the picture cannot be read', where: dropped.image.name });
      });
      return { picture, bounds: worldBounds(new TextDecoder().decode(dropped.world.bytes), width, height) };
    }
  }
}

async function checked(
  folder: GroundFiles,
  written: WrittenTask,
): Promise<{ folder: Folder; task: WrittenTask }> {
  const task = { ...written, terrain: '.' };
  taskOn(await openGround(folder), task);
  return { folder, task };
}

/** A single GeoTIFF of colours is a picture to lie beneath; null for heights. */
async function beneath([first, ...more]: readonly NamedBytes[], ground: GroundFiles): Promise<Opened | null> {
  if (first === undefined || more.length > 0 || !/\.tiff?$/i.test(first.name)) return null;
  const read = await readPicture(first.bytes);
  if (read === null) return null;
  const { width, height, pixels, crs, ...bounds } = read;
  const { terrain } = await readGround({ ...ground, features: null });
  if (crs !== null && crs !== terrain.crs) {
    throw new UserError({
      what: 'the picture lies in another system than the ground',
      where: first.name,
      got: crs,
      expected: terrain.crs,
    });
  }
  const canvas = new OffscreenCanvas(width, height);
  canvas.getContext('2d')!.putImageData(new ImageData(pixels, width, height), 0, 0);
  return { picture: await canvas.convertToBlob({ type: 'image/png' }), bounds };
}

type Elevation = Extract<Dropped, { is: 'elevation' }>;

async function prepared(name: string, { elevation, systems, features }: Elevation): Promise<Opened> {
  const limits = { bytes: 80_000_000, cells: 16_000_000 };
  const grids = await Promise.all(
    elevation.map(async (f) => {
      const grid = await decodeHeights(f.bytes, f.name, limits);
      // an ASCII grid may have its system in a text beside it
      const beside = systems.find((s) => stemOf(s.name) === stemOf(f.name));
      if (grid.format !== 'ESRI ASCII' || beside === undefined) return grid;
      return { ...grid, crsText: new TextDecoder().decode(beside.bytes.subarray(0, 8000)) };
    }),
  );
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

function stemOf(name: string): string {
  return name.replace(/\.[^.]*$/, '').toLowerCase();
}

function unzlib(bytes: Uint8Array, size: number): Uint8Array {
  // two bytes of header, four of checksum
  return inflatedUpTo(bytes.subarray(2, bytes.length - 4), size);
}
