import type { GeoTIFFImage } from 'geotiff';
import type { Codecs } from './decoded.ts';
import { blockGrid, checkTable } from './tiff-blocks.ts';
import type { TiffImage } from './tiff-directories.ts';
import { unpacker } from './unpack.ts';

/**
 * Makes NaN of every cell that a mask image (TIFF 6.0 transparency mask) does not let through. Gives how many cells lost their
 * height so; null where the mask is of another size or kind and is left aside.
 */
export async function applyMask(
  bytes: Uint8Array,
  image: GeoTIFFImage,
  table: TiffImage,
  data: Float32Array,
  columns: number,
  rows: number,
  codecs?: Codecs,
): Promise<number | null> {
  const bits = image.getBitsPerSample(0);
  if (
    image.getWidth() !== columns ||
    image.getHeight() !== rows ||
    (bits !== 1 && bits !== 8) ||
    image.getSamplesPerPixel() !== 1
  )
    return null;
  const grid = blockGrid(image, bits);
  checkTable(table, grid.across * grid.down, bytes.byteLength);
  const unpack = await unpacker(image, codecs);
  let hidden = 0;
  for (let b = 0; b < grid.across * grid.down; b++) {
    const r0 = Math.floor(b / grid.across) * grid.blockHeight;
    const c0 = (b % grid.across) * grid.blockWidth;
    const height = Math.min(grid.blockHeight, rows - r0);
    const width = Math.min(grid.blockWidth, columns - c0);
    const rowBytes = Math.ceil((grid.blockWidth * bits) / 8);
    const packed = bytes.subarray(table.offsets[b]!, table.offsets[b]! + table.byteCounts[b]!);
    const shown = packed.length === 0 ? new Uint8Array(0) : await unpack(packed, rowBytes * grid.blockHeight);
    for (let r = 0; r < height; r++) {
      for (let c = 0; c < width; c++) {
        const byte = shown[r * rowBytes + (bits === 1 ? c >> 3 : c)] ?? 0;
        if ((bits === 1 ? (byte >> (7 - (c & 7))) & 1 : byte) !== 0) continue;
        const i = (r0 + r) * columns + c0 + c;
        if (!Number.isNaN(data[i]!)) hidden++;
        data[i] = Number.NaN;
      }
    }
  }
  return hidden;
}
