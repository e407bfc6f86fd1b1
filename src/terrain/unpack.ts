import type { GeoTIFFImage } from 'geotiff';
import lerc from 'lerc';
import { ZSTDDecoder } from 'zstddec';
import { UserError } from '../door/user-error.ts';
import type { Codecs } from './decoded.ts';
import { inflate as inflateHere } from './inflate.ts';
import { unpackBits, unpackLzw } from './lzw.ts';

/** Unpacks a block to at most `size` bytes. The result is its caller's own, to be changed. */
export type Unpack = (packed: Uint8Array, size: number) => Uint8Array | Promise<Uint8Array>;

const DEFLATE = 8;
const ZSTD = 50000;
const LERC = 34887;

/**
 * How the blocks of an image are unpacked. All are bounded by the size of the block but LERC, which goes by what the
 * block says of itself. Throws `UserError` for a packing that is not read.
 */
export async function unpacker(image: GeoTIFFImage, codecs?: Codecs): Promise<Unpack> {
  const inflate = codecs?.inflate ?? inflateHere;
  const compression = (image.fileDirectory.getValue('Compression') as number | undefined) ?? 1;
  switch (compression) {
    case 1:
      return (packed) => packed.slice();
    case 5:
      return unpackLzw;
    case 32773:
      return unpackBits;
    case DEFLATE:
    case 32946:
      return inflate;
    case ZSTD:
      return zstd();
    case LERC: {
      // the second number says how the LERC block is packed again: 0 not, 1 deflate, 2 ZSTD
      const parameters = (await image.fileDirectory.loadValue('LercParameters')) as
        | ArrayLike<number>
        | undefined;
      const again = parameters?.[1] ?? 0;
      const outer: Unpack = again === 1 ? inflate : again === 2 ? await zstd() : (packed) => packed;
      return async (packed, size) => unpackLerc(await outer(packed, size + LERC_ROOM), size);
    }
    default:
      throw new UserError({
        what: 'the GeoTIFF is packed in a way that is not read',
        got: `compression ${compression}`,
        expected: 'none, LZW, deflate, PackBits, ZSTD or LERC',
      });
  }
}

/** Bytes that a LERC block of incompressible numbers needs beside them. */
const LERC_ROOM = 1_000_000;

/**
 * The size is given, so that a block's own word for it is never believed; a damaged block comes out empty. The geotiff package asks the
 * block, and on a damaged one runs for ever.
 */
async function zstd(): Promise<Unpack> {
  const decoder = new ZSTDDecoder();
  await decoder.init();
  return (packed, size) => decoder.decode(packed, size);
}

/** The geotiff package's own LERC decoder gives 0 for cells that the block's mask leaves out: here they are NaN. */
function unpackLerc(packed: Uint8Array, size: number): Uint8Array {
  const { pixels, mask } = lerc.decode(packed.slice().buffer, { returnPixelInterleavedDims: true });
  const values = pixels[0];
  if (values === undefined) throw new Error('an empty LERC block');
  if (mask && (values instanceof Float32Array || values instanceof Float64Array)) {
    const perPixel = values.length / mask.length;
    for (let i = 0; i < values.length; i++) {
      if (mask[Math.floor(i / perPixel)] === 0) values[i] = Number.NaN;
    }
  }
  return new Uint8Array(values.buffer, values.byteOffset, Math.min(values.byteLength, size));
}
