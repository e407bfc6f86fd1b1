/** Where a raster lies: square cells, rows from north to south, metres of a projected CRS. */
export interface Georeference {
  /** For example `EPSG:27700`. */
  readonly crs: string;
  /** East of the outer west edge, metres. */
  readonly west: number;
  /** North of the outer north edge, metres. */
  readonly north: number;
  /** Side of a cell, metres. */
  readonly cell: number;
  readonly columns: number;
  readonly rows: number;
}

export type Cells =
  | Float32Array
  | Float64Array
  | Uint8Array
  | Uint16Array
  | Int16Array
  | Int32Array
  | Uint32Array;

/** A raster: cell (column c, row r) is `data[r * columns + c]`. A missing height is NaN, the one nodata rule. */
export interface Raster<T extends Cells = Float32Array> extends Georeference {
  readonly data: T;
}

/** Column of an easting; outside the raster when < 0 or ≥ columns. */
export function columnOf(g: Georeference, east: number): number {
  return Math.floor((east - g.west) / g.cell);
}

/** Row of a northing, counted from the north edge. */
export function rowOf(g: Georeference, north: number): number {
  return Math.floor((g.north - north) / g.cell);
}

/** Index of the cell that holds a point, or −1 off the map. */
export function cellAt(g: Georeference, east: number, north: number): number {
  const c = columnOf(g, east);
  const r = rowOf(g, north);
  return c < 0 || r < 0 || c >= g.columns || r >= g.rows ? -1 : r * g.columns + c;
}

export function centreEast(g: Georeference, column: number): number {
  return g.west + (column + 0.5) * g.cell;
}

export function centreNorth(g: Georeference, row: number): number {
  return g.north - (row + 0.5) * g.cell;
}

/** Bilinear value between cell centres; the outer half cell takes the edge value; NaN off the map or beside a missing cell. */
export function sample(raster: Raster, east: number, north: number): number {
  const { columns, rows, data } = raster;
  let x = (east - raster.west) / raster.cell - 0.5;
  let y = (raster.north - north) / raster.cell - 0.5;
  if (x < -0.5 || y < -0.5 || x > columns - 0.5 || y > rows - 0.5) return Number.NaN;
  x = x < 0 ? 0 : x > columns - 1 ? columns - 1 : x;
  y = y < 0 ? 0 : y > rows - 1 ? rows - 1 : y;
  const c = Math.min(Math.floor(x), Math.max(columns - 2, 0));
  const r = Math.min(Math.floor(y), Math.max(rows - 2, 0));
  const fx = x - c;
  const fy = y - r;
  const i = r * columns + c;
  const right = columns > 1 ? 1 : 0;
  const down = rows > 1 ? columns : 0;
  const top = data[i]! + (data[i + right]! - data[i]!) * fx;
  const low = data[i + down]! + (data[i + down + right]! - data[i + down]!) * fx;
  return top + (low - top) * fy;
}
