import { fromArrayBuffer, type GeoTIFFImage } from 'geotiff';
import { UserError } from '../door/user-error.ts';
import { tiffDirectories } from './tiff-directories.ts';
import { tiffPlace } from './tiff-place.ts';

/** A map picture and where it lies, in the units of its CRS. */
export interface MapPicture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue, alpha, 8 bits each, row 0 north. */
  readonly pixels: Uint8ClampedArray<ArrayBuffer>;
  readonly west: number;
  readonly east: number;
  readonly south: number;
  readonly north: number;
  /** `EPSG:n` as the file says; null when it says none. */
  readonly crs: string | null;
}

/** Pixels of a picture that a screen still holds at ease: 144 MB of them. */
const MOST_PIXELS = 36_000_000;
const WHITE_IS_ZERO = 0;
const BLACK_IS_ZERO = 1;
const JPEG_PACKINGS = [6, 7, 50001];
const USER_DEFINED = 32767;
/** A sample format of TIFF. */
const SIGNED = 2;

/**
 * The first image of a GeoTIFF when it is to be looked at: a palette, red-green-blue, grey in 8 bits or a lossy picture. Null when it
 * holds one band of other numbers, which are heights: those are seldom whole metres from 0 to 255. Throws `UserError` for what is damaged, rotated, nowhere or too large.
 */
export async function readPicture(file: Uint8Array): Promise<MapPicture | null> {
  const bytes = file.slice();
  tiffDirectories(bytes);
  try {
    const image = await (await fromArrayBuffer(bytes.buffer)).getImage(0);
    return isPicture(image) ? await picture(image) : null;
  } catch (error) {
    if (error instanceof UserError) throw error;
    const got = error instanceof Error ? error.message.slice(0, 120) : String(error);
    throw new UserError({ what: 'the picture in the GeoTIFF cannot be read', got });
  }
}

function isPicture(image: GeoTIFFImage): boolean {
  const photometric = value(image, 'PhotometricInterpretation') ?? BLACK_IS_ZERO;
  const packing = value(image, 'Compression') ?? 1;
  const coloured = photometric !== BLACK_IS_ZERO && photometric !== WHITE_IS_ZERO;
  return coloured || JPEG_PACKINGS.includes(packing) || isGrey(image);
}

function isGrey(image: GeoTIFFImage): boolean {
  const signed = image.getSampleFormat() === SIGNED;
  return image.getSamplesPerPixel() === 1 && image.getBitsPerSample() === 8 && !signed;
}

async function picture(image: GeoTIFFImage): Promise<MapPicture> {
  const [width, height] = [image.getWidth(), image.getHeight()];
  if (!(width * height >= 1) || width * height > MOST_PIXELS)
    throw new UserError({
      what: 'the picture is too large to lie beneath a map',
      got: `${width} × ${height} pixels`,
      expected: `at most ${MOST_PIXELS} pixels in all`,
    });
  const keys = (image.getGeoKeys() ?? {}) as Record<string, unknown>;
  const place = tiffPlace({
    columns: width,
    rows: height,
    tiePoints: list(image, 'ModelTiepoint'),
    pixelScale: list(image, 'ModelPixelScale'),
    transformation: list(image, 'ModelTransformation'),
    pixelIsPoint: keys.GTRasterTypeGeoKey === 2,
  });
  if (place.southUp)
    throw new UserError({ what: 'the picture stands on its head', expected: 'rows from north to south' });
  const code = keys.ProjectedCSTypeGeoKey ?? keys.GeographicTypeGeoKey;
  return {
    width,
    height,
    pixels: await coloured(image, width * height),
    west: place.west,
    east: place.west + width * place.cellEast,
    north: place.north,
    south: place.north - height * place.cellNorth,
    crs: typeof code === 'number' && code !== USER_DEFINED ? `EPSG:${code}` : null,
  };
}

async function coloured(image: GeoTIFFImage, count: number): Promise<Uint8ClampedArray<ArrayBuffer>> {
  const read = (await image.readRGB({ interleave: true, enableAlpha: true })) as ArrayLike<number>;
  const bands = Math.round(read.length / count);
  const pixels = new Uint8ClampedArray(4 * count);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < 3; k++) pixels[4 * i + k] = read[bands * i + k]!;
    pixels[4 * i + 3] = bands > 3 ? read[bands * i + 3]! : 255;
  }
  return pixels;
}

function value(image: GeoTIFFImage, tag: 'PhotometricInterpretation' | 'Compression'): number | undefined {
  return image.fileDirectory.getValue(tag) as number | undefined;
}

type PlaceTag = 'ModelTiepoint' | 'ModelPixelScale' | 'ModelTransformation';

function list(image: GeoTIFFImage, tag: PlaceTag): number[] {
  return Array.from((image.fileDirectory.getValue(tag) as ArrayLike<number> | undefined) ?? []);
}
