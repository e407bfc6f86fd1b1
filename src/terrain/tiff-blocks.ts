import type { GeoTIFFImage } from 'geotiff';
import { UserError } from '../door/user-error.ts';
import type { Codecs } from './decoded.ts';
import { type HeightRule, keepsSound, type MissingCells, sound, toMetres } from './nodata.ts';
import type { TiffImage } from './tiff-directories.ts';
import { type SampleLayout, samplesOf } from './tiff-samples.ts';
import { unpacker } from './unpack.ts';

/** Bytes and blocks decoded at the same time: bounds the memory, keeps the threads of an asynchronous decoder busy. */
const BYTES_AT_ONCE = 16_000_000;
const BLOCKS_AT_ONCE = 16;

/** Bytes of one unpacked block. */
const MAX_BLOCK = 256_000_000;

export interface BlockGrid {
  readonly columns: number;
  readonly rows: number;
  readonly blockWidth: number;
  readonly blockHeight: number;
  readonly across: number;
  readonly down: number;
  readonly bitsPerPixel: number;
}

/**
 * Unpacks the first band into `data` as metres, each block while it is still near the processor. A block that the file leaves out stays
 * missing. Gives the cells without a height. Throws.
 */
export async function paintBlocks(
  bytes: Uint8Array,
  image: GeoTIFFImage,
  table: TiffImage,
  data: Float32Array,
  rule: HeightRule,
  codecs?: Codecs,
): Promise<MissingCells> {
  const layout = await layoutOf(image, table.littleEndian);
  const grid = blockGrid(image, layout.bits * layout.perPixel);
  checkTable(table, grid.across * grid.down, bytes.byteLength);
  const unpack = await unpacker(image, codecs);
  const { columns, rows, blockWidth, blockHeight, across } = grid;
  const { perPixel } = layout;
  const counts = { missing: 0, impossible: 0 };
  const plainRule = keepsSound(rule);

  const paint = async (b: number): Promise<void> => {
    const r0 = Math.floor(b / across) * blockHeight;
    const c0 = (b % across) * blockWidth;
    const height = Math.min(blockHeight, rows - r0);
    const width = Math.min(blockWidth, columns - c0);
    const to = r0 * columns + c0;
    const packed = bytes.subarray(table.offsets[b]!, table.offsets[b]! + table.byteCounts[b]!);
    if (packed.length === 0) {
      for (let r = 0; r < height; r++) data.fill(Number.NaN, to + r * columns, to + r * columns + width);
      counts.missing += width * height;
      return;
    }
    const stored = image.isTiled ? blockHeight : height;
    const size = (blockWidth * stored * perPixel * layout.bits) / 8;
    const samples = samplesOf(await unpack(packed, size), layout);
    const have = Math.min(height, Math.floor(samples.length / (blockWidth * perPixel)));
    if (have < height) throw new Error(`block ${b} is cut short`);
    const plain = perPixel === 1 && plainRule && samples instanceof Float32Array;
    // a tile may be wider than the image
    if (plain && blockWidth === columns && copySound(samples, width * height, data, to)) return;
    const allSound = plain && sound(samples, 0, blockWidth * height);
    for (let r = 0; r < height; r++) {
      const from = r * blockWidth * perPixel;
      const row = to + r * columns;
      if (perPixel === 1) data.set(samples.subarray(from, from + width), row);
      else for (let c = 0; c < width; c++) data[row + c] = samples[from + c * perPixel]!;
      if (!allSound) toMetres(data, rule, counts, row, row + width);
    }
  };
  const blocks = across * grid.down;
  const blockBytes = (blockWidth * blockHeight * grid.bitsPerPixel) / 8;
  const atOnce = Math.max(1, Math.min(BLOCKS_AT_ONCE, Math.floor(BYTES_AT_ONCE / blockBytes)));
  let next = 0;
  const lane = async () => {
    while (next < blocks) await paint(next++);
  };
  await Promise.all(Array.from({ length: Math.min(atOnce, blocks) }, lane));
  return counts;
}

/** Numbers that are looked at and copied while they are near the processor. */
const SLICE = 8192;

/** Copies numbers that are all heights as they stand; false, with some copied, where one is not. */
function copySound(samples: Float32Array, count: number, data: Float32Array, to: number): boolean {
  for (let at = 0; at < count; at += SLICE) {
    const end = Math.min(count, at + SLICE);
    if (!sound(samples, at, end)) return false;
    data.set(samples.subarray(at, end), to + at);
  }
  return true;
}

/** How an image is cut into tiles or strips. Throws for sizes that no file needs. */
export function blockGrid(image: GeoTIFFImage, bitsPerPixel: number): BlockGrid {
  const columns = image.getWidth();
  const rows = image.getHeight();
  const blockWidth = image.getTileWidth();
  const blockHeight = image.isTiled ? image.getTileHeight() : Math.min(image.getTileHeight(), rows);
  const sound =
    blockWidth >= 1 && blockHeight >= 1 && Number.isInteger(blockWidth) && Number.isInteger(blockHeight);
  if (!sound || (blockWidth * blockHeight * bitsPerPixel) / 8 > MAX_BLOCK)
    throw new UserError({
      what: 'the GeoTIFF is cut into impossible blocks',
      got: `${blockWidth} × ${blockHeight}`,
    });
  const across = Math.ceil(columns / blockWidth);
  const down = Math.ceil(rows / blockHeight);
  return { columns, rows, blockWidth, blockHeight, across, down, bitsPerPixel };
}

/** Bands on separate planes come one after the other: the first plane's blocks are the first of the table. */
export function checkTable(table: TiffImage, blocks: number, size: number): void {
  const { offsets, byteCounts } = table;
  if (offsets.length < blocks || byteCounts.length < blocks)
    throw new UserError({
      what: 'the GeoTIFF is damaged: blocks are missing',
      got: `${offsets.length} of ${blocks}`,
    });
  for (let b = 0; b < blocks; b++) {
    if (!(offsets[b]! + byteCounts[b]! <= size))
      throw new UserError({ what: 'the GeoTIFF is damaged: a block lies beyond its end', got: `block ${b}` });
  }
}

async function layoutOf(image: GeoTIFFImage, littleEndian: boolean): Promise<SampleLayout> {
  const bits = image.getBitsPerSample(0);
  const format = image.getSampleFormat(0);
  const planar = (image.fileDirectory.getValue('PlanarConfiguration') as number | undefined) ?? 1;
  const perPixel = planar === 2 ? 1 : image.getSamplesPerPixel();
  const kind = format === 3 ? 'float' : format === 2 ? 'signed' : 'unsigned';
  const known = kind === 'float' ? bits === 32 || bits === 64 : bits === 8 || bits === 16 || bits === 32;
  if (!known || !(format >= 1 && format <= 3) || !(perPixel >= 1 && perPixel <= 1024))
    throw new UserError({
      what: 'the GeoTIFF holds a type of number that is not read',
      got: `${bits} bits, sample format ${format}, ${perPixel} bands`,
      expected: '8, 16 or 32-bit integers, 32 or 64-bit floats',
    });
  const predictor = ((await image.fileDirectory.loadValue('Predictor')) as number | undefined) ?? 1;
  if (predictor < 1 || predictor > 3 || (predictor === 3 && kind !== 'float'))
    throw new UserError({ what: 'the GeoTIFF has an unknown predictor', got: String(predictor) });
  return {
    bits: bits as 8 | 16 | 32 | 64,
    kind,
    littleEndian,
    predictor,
    perPixel,
    width: image.getTileWidth(),
  };
}
