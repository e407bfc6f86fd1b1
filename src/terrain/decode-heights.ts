import { UserError } from '../door/user-error.ts';
import { type Codecs, DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from './decoded.ts';
import { looksLikeAscii, readAscii } from './read-ascii.ts';
import { readGeotiff } from './read-geotiff.ts';
import { readHgt } from './read-hgt.ts';
import { markVoids } from './voids.ts';

/**
 * What an elevation file holds, whatever its format: GeoTIFF or ESRI ASCII by content, `.hgt` by name. Pure: the same in a child
 * process, in Node and in a browser. Undeclared voids are found and made missing. Throws `UserError` for everything it does not read.
 */
export async function decodeHeights(
  bytes: Uint8Array,
  name: string,
  limits: DecodeLimits = DECODE_LIMITS,
  codecs?: Codecs,
): Promise<DecodedGrid> {
  const grid = await decode(bytes, name, limits, codecs);
  const { regions, cells } = markVoids(grid.data, grid.columns, grid.rows);
  const notes = [...grid.notes];
  if (regions > 0) {
    const places = regions === 1 ? 'an undeclared void' : `${regions} undeclared voids`;
    notes.push(`${cells} cells of exactly 0 m amid high ground are taken for ${places} and have no height.`);
  }
  if (!grid.data.some((z) => !Number.isNaN(z)))
    throw new UserError({
      what: 'the elevation file holds no height at all',
      got: `${grid.data.length} missing cells`,
    });
  return { ...grid, notes };
}

async function decode(
  bytes: Uint8Array,
  name: string,
  limits: DecodeLimits,
  codecs?: Codecs,
): Promise<DecodedGrid> {
  if (bytes.byteLength === 0) throw new UserError({ what: 'the elevation file is empty' });
  const tiff = (bytes[0] === 0x49 && bytes[1] === 0x49) || (bytes[0] === 0x4d && bytes[1] === 0x4d);
  if (tiff) return readGeotiff(bytes, limits, codecs);
  if (looksLikeAscii(bytes)) return readAscii(bytes, limits);
  if (/\.hgt$/i.test(name)) return readHgt(bytes, name);
  throw new UserError({
    what: 'the elevation file is of no format that is read',
    got: `a file that begins with ${Array.from(bytes.subarray(0, 4), (b) => b.toString(16).padStart(2, '0')).join(' ')}`,
    expected: 'GeoTIFF, ESRI ASCII grid or .hgt',
  });
}
