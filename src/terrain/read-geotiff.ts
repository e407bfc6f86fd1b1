import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { UserError } from '../door/user-error.ts';
import { type Codecs, DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from './decoded.ts';
import { crsOfKeys } from './geokey-crs.ts';
import { declaredNodata, type HeightRule, missingNote } from './nodata.ts';
import { paintBlocks } from './tiff-blocks.ts';
import { type TiffImage, tiffDirectories } from './tiff-directories.ts';
import { applyMask } from './tiff-mask.ts';
import { DEPTH_SYSTEMS, feetOf, metresPerUnit, tiffPlace } from './tiff-place.ts';

const REDUCED = 1;
const MASK = 4;
const WHITE_IS_ZERO = 0;
const BLACK_IS_ZERO = 1;
const USER_DEFINED = 32767;

/**
 * Heights of a GeoTIFF: the first band of its first full image, in metres, north row first; a mask among its images is applied,
 * overviews and further pages are left aside. Throws `UserError` for what is damaged, rotated, too large or no raster of heights.
 */
export async function readGeotiff(
  file: Uint8Array,
  limits: DecodeLimits = DECODE_LIMITS,
  codecs?: Codecs,
): Promise<DecodedGrid> {
  // Node's Buffer overrides `slice` to share memory; a plain view does not
  const bytes = new Uint8Array(file.buffer, file.byteOffset, file.byteLength);
  if (bytes.byteLength > limits.bytes) throw tooLarge(`${bytes.byteLength} bytes`, `${limits.bytes} bytes`);
  const directories = tiffDirectories(bytes);
  try {
    return await read(bytes, directories, limits, codecs);
  } catch (error) {
    if (error instanceof UserError) throw error;
    throw new UserError({ what: 'the GeoTIFF cannot be read', got: said(error) });
  }
}

async function read(
  bytes: Uint8Array,
  directories: readonly TiffImage[],
  limits: DecodeLimits,
  codecs: Codecs | undefined,
): Promise<DecodedGrid> {
  const whole = bytes.byteOffset === 0 && bytes.byteLength === bytes.buffer.byteLength;
  const buffer = whole ? bytes.buffer : bytes.slice().buffer;
  const tiff = await fromArrayBuffer(buffer as ArrayBuffer);
  const images: GeoTIFFImage[] = [];
  for (let i = 0; i < directories.length; i++) images.push(await tiff.getImage(i));
  const kinds = images.map((image) => subfile(image));
  const first = kinds.findIndex((kind) => (kind & (REDUCED | MASK)) === 0);
  const image = images[Math.max(first, 0)]!;
  const blocks = directories[Math.max(first, 0)]!;

  const columns = image.getWidth();
  const rows = image.getHeight();
  const cells = columns * rows;
  if (!(cells >= 1)) throw new UserError({ what: 'the GeoTIFF has no cells', got: `${columns} × ${rows}` });
  if (cells > limits.cells) throw tooLarge(`${columns} × ${rows} cells`, `${limits.cells} cells`);
  const notes: string[] = [];
  checkPicture(image);

  const keys: Keys = image.getGeoKeys() ?? {};
  const place = tiffPlace({
    columns,
    rows,
    tiePoints: list(image, 'ModelTiepoint'),
    pixelScale: list(image, 'ModelPixelScale'),
    transformation: list(image, 'ModelTransformation'),
    pixelIsPoint: keys.GTRasterTypeGeoKey === 2,
  });

  const rule = await heightRule(image, keys, notes);
  const data = new Float32Array(cells);
  const counts = await paintBlocks(bytes, image, blocks, data, rule, codecs);
  const mask = kinds.findIndex((kind, i) => (kind & MASK) !== 0 && (kind & REDUCED) === 0 && i !== first);
  if (mask >= 0) {
    const hidden = await applyMask(bytes, images[mask]!, directories[mask]!, data, columns, rows, codecs);
    counts.missing += hidden ?? 0;
    if (hidden === null) notes.push('The file holds a mask of another size or kind, which is left aside.');
    else if (hidden > 0) notes.push(`The file's mask hides ${hidden} cells.`);
  }
  if (place.southUp) turnOver(data, columns, rows);
  const missing = missingNote(counts, cells);
  if (missing !== undefined) notes.push(missing);

  const bands = image.getSamplesPerPixel();
  if (bands > 1) notes.push(`The first of ${bands} bands is taken as height.`);
  const pages = kinds.filter((kind) => (kind & (REDUCED | MASK)) === 0).length;
  if (pages > 1) notes.push(`The first of ${pages} images in the file is taken as height.`);
  const { west, north, cellEast, cellNorth } = place;
  return { format: 'GeoTIFF', columns, rows, data, west, north, cellEast, cellNorth, ...crsOf(keys), notes };
}

type Keys = Readonly<Record<string, unknown>>;

/** EPSG code of the keys, or for a system without one its definition, or else its citation. */
function crsOf(keys: Keys): { crs: string | null; crsText: string | null } {
  const projected = keys.ProjectedCSTypeGeoKey;
  const geographic = keys.GeographicTypeGeoKey;
  const code = keys.GTModelTypeGeoKey === 2 ? geographic : projected;
  if (typeof code === 'number' && code > 0 && code !== USER_DEFINED)
    return { crs: `EPSG:${code}`, crsText: null };
  const texts = [keys.PCSCitationGeoKey, keys.GTCitationGeoKey, keys.GeogCitationGeoKey];
  const text = texts.find((t) => typeof t === 'string' && t !== '') as string | undefined;
  return { crs: null, crsText: crsOfKeys(keys) ?? text?.slice(0, 4000) ?? null };
}

async function heightRule(image: GeoTIFFImage, keys: Keys, notes: string[]): Promise<HeightRule> {
  const directory = image.fileDirectory;
  const nodata = declaredNodata((await directory.loadValue('GDAL_NODATA')) as string | undefined);
  const metadata = ((await directory.loadValue('GDAL_METADATA')) as string | undefined) ?? '';
  const scale = role(metadata, 'scale');
  const offset = role(metadata, 'offset');
  const word = roleText(metadata, 'unittype');
  const { VerticalUnitsGeoKey: code, VerticalCSTypeGeoKey: system } = keys;
  if (typeof system === 'number' && DEPTH_SYSTEMS.includes(system))
    throw new UserError({
      what: 'the GeoTIFF holds depths, not heights',
      got: `vertical system EPSG:${system}`,
    });
  const unit = word ?? (typeof code === 'number' ? code : undefined);
  const metres = unit === undefined ? (feetOf(system) ?? 1) : metresPerUnit(unit);
  if (metres === undefined)
    throw new UserError({
      what: 'heights in an unknown unit',
      got: String(unit).slice(0, 60),
      expected: 'metres or feet',
    });
  if (metres !== 1) {
    const said = word ?? (unit === undefined ? `feet (vertical system EPSG:${system})` : `EPSG unit ${unit}`);
    notes.push(`Heights are turned from ${said} to metres.`);
  }
  if (scale !== 1 || offset !== 0)
    notes.push(`Heights are stored with scale ${scale} and offset ${offset}, both applied.`);
  return { nodata, scale, offset, metresPerUnit: metres };
}

/** The text of the first band's item with a role in GDAL's metadata. */
function roleText(metadata: string, name: string): string | undefined {
  const items = metadata.slice(0, 100_000).match(/<Item\b[^<>]{0,500}>[^<>]{0,200}<\/Item>/g) ?? [];
  const item = items.find((i) => i.includes(`role="${name}"`) && /sample="0"/.test(i));
  return item?.replace(/<[^<>]*>/g, '').trim();
}

function role(metadata: string, name: 'scale' | 'offset'): number {
  const text = roleText(metadata, name);
  const plain = name === 'scale' ? 1 : 0;
  if (text === undefined) return plain;
  const value = Number(text);
  if (text === '' || !Number.isFinite(value) || (name === 'scale' && value === 0))
    throw new UserError({ what: `the ${name} of the heights is no number`, got: text.slice(0, 60) });
  return value;
}

function subfile(image: GeoTIFFImage): number {
  const value = image.fileDirectory.getValue('NewSubfileType') as number | undefined;
  return typeof value === 'number' ? value : 0;
}

function list(
  image: GeoTIFFImage,
  tag: 'ModelTiepoint' | 'ModelPixelScale' | 'ModelTransformation',
): number[] {
  const value = image.fileDirectory.getValue(tag) as ArrayLike<number> | undefined;
  return value === undefined ? [] : Array.from(value);
}

/** Colours are no heights. */
function checkPicture(image: GeoTIFFImage): void {
  const photometric =
    (image.fileDirectory.getValue('PhotometricInterpretation') as number | undefined) ?? BLACK_IS_ZERO;
  const compression = image.fileDirectory.getValue('Compression') as number | undefined;
  const jpeg = compression === 6 || compression === 7 || compression === 50001;
  if ((photometric !== BLACK_IS_ZERO && photometric !== WHITE_IS_ZERO) || jpeg)
    throw new UserError({
      what: 'the GeoTIFF holds a picture, not heights',
      got: jpeg ? 'lossy picture compression' : `photometric interpretation ${photometric}`,
      expected: 'one band of numbers',
    });
}

function turnOver(data: Float32Array, columns: number, rows: number): void {
  const kept = new Float32Array(columns);
  for (let top = 0, low = rows - 1; top < low; top++, low--) {
    kept.set(data.subarray(top * columns, (top + 1) * columns));
    data.copyWithin(top * columns, low * columns, (low + 1) * columns);
    data.set(kept, low * columns);
  }
}

function tooLarge(got: string, expected: string): UserError {
  return new UserError({
    what: 'the elevation file is too large',
    got,
    expected: `at most ${expected}: cut it or take larger cells`,
  });
}

function said(error: unknown): string {
  const text = error instanceof Error ? error.message : String(error);
  return text.replace(/\s+/g, ' ').slice(0, 120);
}
