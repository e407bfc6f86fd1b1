import { quoted } from '../door/quoted.ts';
import type { Language } from '../door/reading.ts';
import { UserError } from '../door/user-error.ts';
import { readLine } from '../route/read-line.ts';
import { germanPrepared } from '../study/german-prepared.ts';
import { type PrepareWishes, prepare, saidText, terrainFiles } from '../study/prepare.ts';
import { boxInMetres, boxRound, readBox } from '../study/prepare-box.ts';
import { type FeatureFile, featureForm } from '../study/prepare-features.ts';
import type { DecodedGrid } from '../terrain/decoded.ts';
import type { Box } from '../terrain/mosaic.ts';
import { groundCrs } from '../terrain/projection.ts';
import { refuseForeign } from './foreign-form.ts';
import { decodeInChild } from './node/decode-child.ts';
import { readBytes, readText, stem } from './node/files.ts';
import { onInterrupt, type Terminal } from './node/terminal.ts';
import { checkWritable, writeFolder } from './node/write-folder.ts';
import { deflate, unzlib } from './node/zlib.ts';
import { type Progress, progressOn } from './progress.ts';
import { CLI_WORDS, type CliWords } from './words.ts';

/** As commander gives them. */
export interface PrepareOptions {
  readonly out: string;
  readonly name?: string;
  readonly box?: string;
  readonly around?: string;
  readonly margin: string;
  readonly crs?: string;
  readonly cell?: string;
  readonly mapDate?: string;
  readonly attribution?: string;
  readonly licence?: string;
  readonly landforms: boolean;
  readonly language?: Language;
}

/** `mistwise prepare`: everything is read and made first, and only then written. */
export async function runPrepare(
  files: readonly string[],
  options: PrepareOptions,
  terminal: Terminal,
): Promise<void> {
  const wishes = await wishesOf(options);
  const { language = 'en' } = options;
  const words = CLI_WORDS[language];
  checkWritable(options.out);
  const progress = progressOn(terminal);
  const forget = onInterrupt(() => {
    progress.end();
    terminal.err(`${words.stopped}\n`);
  });
  try {
    const sources = await sourcesOf(files, progress, words);
    progress.stage(words.prepare.making);
    const prepared = about(sources.grids.length === 1 ? sources.elevation : undefined, () =>
      prepare(sources, wishes),
    );
    const made = terrainFiles(prepared, deflate);
    progress.end();
    writeFolder(options.out, made);
    const said = saidText(prepared);
    const { terrainIn, tryIt, nothingNamed } = words.prepare;
    terminal.out(language === 'de' ? germanPrepared(said) : said);
    terminal.out(`${terrainIn(options.out)}\n`);
    terminal.out(`${made.has('first.task.yaml') ? tryIt(`${options.out}/first.task.yaml`) : nothingNamed}\n`);
  } finally {
    progress.end();
    forget();
  }
}

/** Sorts the files by what they hold, not by their names. */
async function sourcesOf(files: readonly string[], progress: Progress, { prepare: say }: CliWords) {
  const grids: DecodedGrid[] = [];
  let elevation = '';
  const features: FeatureFile[] = [];
  let kindsTable: FeatureFile | null = null;
  progress.stage(say.reading);
  for (const [i, name] of files.entries()) {
    const bytes = await readBytes(name, 'data file');
    const form = featureForm(bytes);
    if (form === 'kinds table') kindsTable = { name, bytes };
    else if (form !== null) features.push({ name, bytes });
    else {
      refuseForeign(bytes, name);
      grids.push(await decoded(bytes, name));
      elevation = name;
    }
    progress.step(i + 1, files.length);
  }
  if (grids.length === 0) {
    throw new UserError({
      what: 'no elevation among the files',
      got: files.join(', ').slice(0, 200),
      expected: 'at least one GeoTIFF, ESRI ASCII grid or .hgt',
    });
  }
  return { grids, features, kindsTable, elevation };
}

async function decoded(bytes: Uint8Array, name: string): Promise<DecodedGrid> {
  const grid = await decodeInChild(bytes, name).catch((error: unknown) => {
    throw placed(error, name);
  });
  if (grid.crs !== null || grid.crsText !== null) return grid;
  // an ASCII grid may have its CRS in a text beside it
  const beside = name.replace(/\.[^./\\]*$/, '.prj');
  const text = await readText(beside, 'coordinate system').catch(() => null);
  return { ...grid, crsText: text };
}

/** Does something about the one elevation file: what goes wrong is said of it. */
function about<T>(name: string | undefined, work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw name === undefined ? error : placed(error, name);
  }
}

/** The same complaint with the file's name, unless it has a place already. */
function placed(error: unknown, name: string): unknown {
  if (!(error instanceof UserError) || error.where !== undefined) return error;
  const { what, got, expected } = error;
  return new UserError({
    what,
    where: name,
    ...(got === undefined ? {} : { got }),
    ...(expected === undefined ? {} : { expected }),
  });
}

async function wishesOf(options: PrepareOptions): Promise<PrepareWishes> {
  const { crs, name, mapDate } = options;
  if (crs !== undefined) groundCrs(crs);
  if (mapDate !== undefined && !/^\d{4}(-\d{2}(-\d{2})?)?$/.test(mapDate)) {
    throw wrong('--map-date', mapDate, 'a date such as 2024-05-01');
  }
  return {
    name: name ?? stem(options.out),
    crs: crs ?? null,
    cell: options.cell === undefined ? null : metres('--cell', options.cell, 0.5, 1000),
    box: await boxOf(options),
    mapDate: mapDate ?? null,
    licence: options.licence ?? null,
    attribution: options.attribution ?? null,
    landforms: options.landforms,
    unzlib,
  };
}

async function boxOf({ box, around, margin }: PrepareOptions): Promise<((crs: string) => Box) | null> {
  if (box !== undefined && around !== undefined) {
    throw new UserError({ what: '--box and --around cannot both be kept to', expected: 'one of them' });
  }
  if (around !== undefined) {
    const text = await readText(around, 'track');
    const room = metres('--margin', margin, 50, 50_000);
    return (crs) => boxRound(readLine(text, around, crs), room);
  }
  if (box === undefined) return null;
  const said = readBox(box);
  return (crs) => (said.degrees ? boxInMetres(said.box, crs) : said.box);
}

function metres(option: string, text: string, least: number, most: number): number {
  const value = Number(text);
  if (text.trim() !== '' && value >= least && value <= most) return value;
  throw wrong(option, text, `metres from ${least} to ${most}`);
}

function wrong(where: string, got: string, expected: string): UserError {
  return new UserError({ what: 'not as it should be', where, got: quoted(got), expected });
}
