/** What one elevation file holds, as it lies in the file: cells of metres or degrees, not yet fit for the engine. */
export interface DecodedGrid {
  readonly format: 'GeoTIFF' | 'ESRI ASCII' | 'hgt';
  readonly columns: number;
  readonly rows: number;
  /** Metres, row 0 north, NaN where missing. */
  readonly data: Float32Array;
  /** West and north outer edges and the sides of a cell, in the units of the CRS. */
  readonly west: number;
  readonly north: number;
  readonly cellEast: number;
  readonly cellNorth: number;
  /** `EPSG:n` as the file says, in our list or not; null when it says none. */
  readonly crs: string | null;
  /** What the file says of a CRS that has no code. */
  readonly crsText: string | null;
  /** Facts a person should know, one sentence each. */
  readonly notes: readonly string[];
}

/** Checked before anything is allocated. */
export interface DecodeLimits {
  /** Bytes of a file. */
  readonly bytes: number;
  /** Cells of a raster. */
  readonly cells: number;
}

/** 600 MB and 64 million cells (256 MB of heights): 16 × 16 km at 2 m. */
export const DECODE_LIMITS: DecodeLimits = { bytes: 600_000_000, cells: 64_000_000 };

/** Decoders that a platform may do faster than the engine's own. */
export interface Codecs {
  /** Inflates a zlib stream of at most `size` bytes; throws when it is damaged or longer. */
  readonly inflate: (bytes: Uint8Array, size: number) => Uint8Array | Promise<Uint8Array>;
}
