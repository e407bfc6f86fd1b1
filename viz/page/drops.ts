import { UserError } from '../../src/door/user-error.ts';
import { readTaskDocument } from '../../src/study/read-task.ts';
import type { WrittenTask } from '../../src/study/schema.ts';
import type { NamedBytes } from './messages.ts';
import type { Folder, Suggestion } from './work.ts';
import { unzipped } from './zip.ts';

/** What dropped files come to. Only one of these happens at a time. */
export type Dropped =
  | { readonly is: 'work'; readonly folder: Folder; readonly task: WrittenTask }
  | { readonly is: 'task'; readonly task: WrittenTask }
  | { readonly is: 'features'; readonly files: readonly NamedBytes[] }
  | { readonly is: 'line'; readonly file: NamedBytes }
  | { readonly is: 'suggestions'; readonly suggestions: readonly Suggestion[] }
  | { readonly is: 'picture'; readonly image: NamedBytes; readonly world: NamedBytes }
  | {
      readonly is: 'elevation';
      readonly elevation: readonly NamedBytes[];
      /** Texts beside elevation files that say in which system they lie. */
      readonly systems: readonly NamedBytes[];
      readonly features: readonly NamedBytes[];
    };

const text = (file: NamedBytes) => new TextDecoder().decode(file.bytes).replace(/^\ufeff/, '');
const ends = (file: NamedBytes, pattern: RegExp) => pattern.test(file.name);

/** Sorts files by what they are; null when nothing here is of use. Throws UserError for what is broken. */
export function sortDropped(given: readonly NamedBytes[]): Dropped | null {
  const zip = given.find((f) => ends(f, /\.zip$/i));
  const files = zip === undefined ? given : unzipped(zip.bytes, zip.name);
  const description = files.find((f) => ends(f, /(^|\/)terrain\.json$/i));
  if (description !== undefined) return wholeFolder(files, description);
  const elevation = files.filter((f) => ends(f, /\.(tiff?|asc|hgt)$/i));
  const suggestions = files
    .filter((f) => ends(f, /\.json$/i))
    .map(suggestionOf)
    .filter((s) => s !== null);
  if (suggestions.length > 0) return { is: 'suggestions', suggestions };
  const features = files.filter((f) => ends(f, /\.(geojson|osm|pbf|csv)$/i) || isGeoJson(f));
  if (elevation.length > 0) {
    return { is: 'elevation', elevation, systems: files.filter((f) => ends(f, /\.prj$/i)), features };
  }
  const task = files.find((f) => ends(f, /\.(ya?ml|json)$/i) && !isGeoJson(f));
  if (task !== undefined) return { is: 'task', task: readTaskDocument(text(task), task.name).value };
  const image = files.find((f) => ends(f, /\.png$/i));
  const world = files.find((f) => ends(f, /\.(pgw|pngw|wld)$/i));
  if (image !== undefined && world !== undefined) return { is: 'picture', image, world };
  const line = files.find((f) => ends(f, /\.gpx$/i));
  if (line !== undefined) return { is: 'line', file: line };
  return features.length > 0 ? { is: 'features', files: features } : null;
}

function isGeoJson(file: NamedBytes): boolean {
  return (
    ends(file, /\.json$/i) &&
    /^\s*\{[^{]{0,200}"type"\s*:\s*"(Feature|FeatureCollection)"/.test(text(file).slice(0, 400))
  );
}

function wholeFolder(files: readonly NamedBytes[], description: NamedBytes): Dropped {
  const base = description.name.slice(0, -'terrain.json'.length);
  const terrainJson = text(description);
  let named: { elevation?: unknown; features?: unknown };
  try {
    named = JSON.parse(terrainJson) as typeof named;
  } catch {
    throw new UserError({ what: 'terrain.json is no JSON', where: description.name });
  }
  const inside = files
    .filter((f) => f.name.startsWith(base))
    .map((f) => ({ name: f.name.slice(base.length), bytes: f.bytes }));
  const features = inside.find((f) => f.name === named.features);
  const heights = new Set([named.elevation].flat());
  const taskFile = inside.find((f) => /\.task\.(ya?ml|json)$/i.test(f.name));
  if (taskFile === undefined) {
    throw new UserError({
      what: 'this folder holds no task',
      where: description.name,
      expected: 'a file *.task.yaml or *.task.json beside it',
    });
  }
  return {
    is: 'work',
    folder: {
      terrainJson,
      files: inside.filter((f) => heights.has(f.name) || /\.prj$/i.test(f.name)),
      features: features === undefined ? null : text(features),
    },
    task: readTaskDocument(text(taskFile), taskFile.name).value,
  };
}

function suggestionOf(file: NamedBytes): Suggestion | null {
  try {
    const read = JSON.parse(text(file)) as Partial<Suggestion> & { mistwise?: string };
    if (read.mistwise !== 'suggestion' || typeof read.who !== 'string') return null;
    const task = {
      version: 1,
      terrain: '.',
      start: { at: [0, 0] },
      target: { at: [1, 1] },
      routes: [read.route],
    };
    const { routes } = readTaskDocument(JSON.stringify(task), file.name).value;
    const confidence = Math.max(0, Math.min(100, Math.round(Number(read.confidence) || 0)));
    return { who: read.who.slice(0, 60), confidence, route: routes![0]!, opened: false };
  } catch (error) {
    if (error instanceof UserError) throw error;
    return null;
  }
}

/** A picture's place from its world file: six lines, no turn. Throws UserError. */
export function worldBounds(world: string, width: number, height: number) {
  const [a = NaN, d = NaN, b = NaN, e = NaN, c = NaN, f = NaN] = world.trim().split(/\s+/).map(Number);
  if (![a, e, c, f].every(Number.isFinite) || !(a > 0) || !(e < 0) || d !== 0 || b !== 0) {
    throw new UserError({
      what: 'the world file does not place the picture',
      got: world.trim().slice(0, 60),
      expected:
        'six numbers: a cell east, 0, 0, a cell south as a negative, easting and northing of the first cell',
    });
  }
  return { west: c - a / 2, east: c - a / 2 + a * width, north: f - e / 2, south: f - e / 2 + e * height };
}
