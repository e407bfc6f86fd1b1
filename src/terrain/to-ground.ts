import { UserError } from '../door/user-error.ts';
import { type Georeference, type Raster, sample } from '../grid/raster.ts';
import { length, type Point } from '../math/plane.ts';
import { DECODE_LIMITS, type DecodedGrid, type DecodeLimits } from './decoded.ts';
import { type Box, boxOf, inStep, mosaic } from './mosaic.ts';
import { groundCrs, knownCrs, toLonLat, transformation, utmFor } from './projection.ts';
import { crsFromText } from './recognise-crs.ts';
import { placeError, warp } from './warp.ts';

/** What the raster of heights is to be like; what is left out follows from the files. */
export interface GroundChoice {
  /** Named CRS, metres on the ground. It also stands in for files that name none. */
  readonly crs?: string;
  /** Side of a cell in metres. */
  readonly cell?: number;
  /** Part of the ground to keep, metres of the CRS; whole cells round it are taken. */
  readonly box?: Box;
  readonly limits?: DecodeLimits;
}

/**
 * One raster in metres from any number of decoded files. Tiles in step are joined; another cell or a box cuts and resamples
 * (bilinear to finer cells, area mean to coarser ones); degrees and other CRSs are reprojected. Notes say what was done and with what
 * error. Throws `UserError`.
 */
export function toGround(
  grids: readonly DecodedGrid[],
  choice: GroundChoice = {},
): { raster: Raster; notes: string[] } {
  const limits = choice.limits ?? DECODE_LIMITS;
  const source = commonCrs(grids, choice.crs);
  const crs = targetCrs(source, grids, choice.crs);
  const transform = crs === source ? null : transformation(crs, source);
  const groups = inStepGroups(grids);
  const first = groups[0]![0]!;
  const square = Math.abs(first.cellEast / first.cellNorth - 1) * Math.max(first.columns, first.rows) <= 0.01;
  const own = source === crs && square ? first.cellEast : roundCell(cellMetres(first, source, crs));
  const cell = choice.cell ?? own;
  checkCell(cell);

  // paste without a change of any height where the lattice can stay
  if (transform === null && groups.length === 1 && square && Math.abs(cell / own - 1) < 1e-9) {
    const joined = mosaic(grids, limits, choice.box);
    if (joined === null) throw outside(choice.box!);
    const { columns, rows, data, west, north } = joined;
    checkHeights(data);
    return { raster: { crs, west, north, cell: own, columns, rows, data }, notes: [] };
  }

  const target = frame(grids, source, crs, cell, choice.box, limits);
  const data = new Float32Array(target.columns * target.rows).fill(Number.NaN);
  const window =
    transform === null
      ? grown(boxOfFrame(target), first)
      : grown(bounds(boxOfFrame(target), transform), first);
  const notes: string[] = [];
  let used = 0;
  for (const group of groups) {
    const joined = mosaic(group, limits, window);
    if (joined === null) continue;
    warp(joined, target, transform, data);
    notes.push(...describe(joined, source, { ...target, data }, transform));
    used++;
  }
  if (used === 0) throw outside(choice.box ?? boxOfFrame(target));
  checkHeights(data);
  return { raster: { ...target, data }, notes };
}

/** The one CRS of all files. A file without a code goes by its text, and by the named CRS in the last place. */
function commonCrs(grids: readonly DecodedGrid[], named: string | undefined): string {
  const codes = grids.map((grid) => {
    const own = grid.crs ?? (grid.crsText === null ? null : crsFromText(grid.crsText));
    if (own !== null) return knownCrs(own).code;
    if (named !== undefined) return knownCrs(named).code;
    throw new UserError({
      what: 'the elevation file names no coordinate system that is known here',
      got: grid.crsText === null ? 'none' : JSON.stringify(grid.crsText.slice(0, 80)),
      expected: 'a CRS named beside it: a .prj file, or --crs EPSG:27700',
    });
  });
  const other = codes.find((code) => code !== codes[0]);
  if (other !== undefined)
    throw new UserError({
      what: 'elevation tiles of different coordinate systems',
      got: `${codes[0]} and ${other}`,
      expected: 'one',
    });
  return codes[0]!;
}

function targetCrs(source: string, grids: readonly DecodedGrid[], named: string | undefined): string {
  if (named !== undefined) {
    groundCrs(named);
    if (knownCrs(source).use === 'ground' && source !== named)
      throw new UserError({
        what: 'the elevation is in another coordinate system than the terrain',
        got: `${source} in the file, ${named} named for the terrain`,
        expected: 'the same; a named one may differ only where the file is in degrees or Mercator metres',
      });
    return named;
  }
  if (knownCrs(source).use === 'ground') return source;
  const box = unionBox(grids);
  return utmFor(toLonLat(source, middle(box)));
}

function inStepGroups(grids: readonly DecodedGrid[]): DecodedGrid[][] {
  const groups: DecodedGrid[][] = [];
  for (const grid of grids) {
    const group = groups.find((g) => inStep(g[0]!, grid));
    if (group === undefined) groups.push([grid]);
    else group.push(grid);
  }
  return groups;
}

function unionBox(grids: readonly DecodedGrid[]): Box {
  const boxes = grids.map(boxOf);
  return {
    west: Math.min(...boxes.map((b) => b.west)),
    south: Math.min(...boxes.map((b) => b.south)),
    east: Math.max(...boxes.map((b) => b.east)),
    north: Math.max(...boxes.map((b) => b.north)),
  };
}

function middle(box: Box): Point {
  return [(box.west + box.east) / 2, (box.south + box.north) / 2];
}

/** Mean side in metres of a source cell amid its grid. */
function cellMetres(grid: DecodedGrid, source: string, crs: string): number {
  const forward = source === crs ? (x: number, y: number) => [x, y] as const : transformation(source, crs);
  const [x, y] = middle(boxOf(grid));
  const at = forward(x, y);
  const east = forward(x + grid.cellEast, y);
  const north = forward(x, y + grid.cellNorth);
  return Math.sqrt(length(east[0] - at[0], east[1] - at[1]) * length(north[0] - at[0], north[1] - at[1]));
}

const ROUND_CELLS = [1, 1.5, 2, 2.5, 3, 4, 5, 6, 8];

/** The next round length below. */
function roundCell(metres: number): number {
  let ten = 1;
  while (metres >= ten * 10) ten *= 10;
  while (metres < ten && ten > 1e-3) ten /= 10;
  return Math.max(...ROUND_CELLS.filter((n) => n * ten <= metres * 1.001)) * ten;
}

function checkCell(cell: number): void {
  if (!(cell >= 0.1 && cell <= 1000))
    throw new UserError({ what: 'side of a cell', got: `${cell} m`, expected: '0.1 to 1000 m' });
}

/** Where the cells of the result lie: on whole multiples of the cell, round the box or round all the ground there is. */
function frame(
  grids: readonly DecodedGrid[],
  source: string,
  crs: string,
  cell: number,
  box: Box | undefined,
  limits: DecodeLimits,
): Georeference {
  const all = unionBox(grids);
  const ground = source === crs ? all : bounds(all, transformation(source, crs));
  toLonLat(crs, middle(box ?? ground));
  const wanted = box ?? ground;
  const west = Math.floor(wanted.west / cell + 1e-6) * cell;
  const north = Math.ceil(wanted.north / cell - 1e-6) * cell;
  const columns = Math.ceil((wanted.east - west) / cell - 1e-6);
  const rows = Math.ceil((north - wanted.south) / cell - 1e-6);
  if (!(columns >= 1 && rows >= 1)) throw outside(wanted);
  if (columns * rows > limits.cells)
    throw new UserError({
      what: 'the terrain would be too large',
      got: `${columns} × ${rows} cells of ${cell} m`,
      expected: `at most ${limits.cells} cells: name a box or a larger cell`,
    });
  return { crs, west, north, cell, columns, rows };
}

function boxOfFrame(g: Georeference): Box {
  return {
    west: g.west,
    north: g.north,
    east: g.west + g.columns * g.cell,
    south: g.north - g.rows * g.cell,
  };
}

/** Box round the transformed edge of a box. */
function bounds(box: Box, transform: (x: number, y: number) => readonly [number, number]): Box {
  let west = Number.POSITIVE_INFINITY;
  let south = Number.POSITIVE_INFINITY;
  let east = Number.NEGATIVE_INFINITY;
  let north = Number.NEGATIVE_INFINITY;
  for (let i = 0; i <= 32; i++) {
    const x = box.west + ((box.east - box.west) * i) / 32;
    const y = box.south + ((box.north - box.south) * i) / 32;
    for (const [px, py] of [
      transform(x, box.south),
      transform(x, box.north),
      transform(box.west, y),
      transform(box.east, y),
    ]) {
      if (Number.isNaN(px)) continue;
      west = Math.min(west, px);
      east = Math.max(east, px);
      south = Math.min(south, py);
      north = Math.max(north, py);
    }
  }
  if (west > east)
    throw new UserError({
      what: 'the raster lies where its coordinate system gives no place',
      got: JSON.stringify(box),
    });
  return { west, south, east, north };
}

function grown(box: Box, { cellEast, cellNorth }: DecodedGrid): Box {
  const x = 3 * cellEast;
  const y = 3 * cellNorth;
  return { west: box.west - x, east: box.east + x, south: box.south - y, north: box.north + y };
}

const SAMPLES = 20_000;

/** What a change of lattice did, with how far heights read back at the source's own centres are from the source. */
function describe(
  grid: DecodedGrid,
  source: string,
  raster: Raster,
  transform: ((x: number, y: number) => readonly [number, number]) | null,
): string[] {
  const back = transform === null ? null : transformation(source, raster.crs);
  const every = Math.max(1, Math.floor(grid.data.length / SAMPLES));
  const differences: number[] = [];
  for (let i = 0; i < grid.data.length; i += every) {
    const x = grid.west + ((i % grid.columns) + 0.5) * grid.cellEast;
    const y = grid.north - (Math.floor(i / grid.columns) + 0.5) * grid.cellNorth;
    const [east, north] = back === null ? [x, y] : back(x, y);
    const difference = Math.abs(sample(raster, east, north) - grid.data[i]!);
    if (!Number.isNaN(difference)) differences.push(difference);
  }
  if (differences.length === 0) return [];
  differences.sort((a, b) => a - b);
  const mean = differences.reduce((sum, d) => sum + d, 0) / differences.length;
  const high = differences[Math.floor((differences.length - 1) * 0.95)]!;
  const error = `read back at the source's cells, heights differ by ${mean.toFixed(1)} m in the mean and by ${high.toFixed(1)} m or less at 95 of 100`;
  if (transform === null) return [`Heights are resampled to cells of ${raster.cell} m; ${error}.`];
  const away = placeError(grid, raster, transform);
  return [
    `Heights are reprojected from ${source} to ${raster.crs}, bilinear, cells of ${raster.cell} m, places right to ${away.toFixed(3)} of a source cell; ${error}.`,
  ];
}

function checkHeights(data: Float32Array): void {
  if (!data.some((z) => !Number.isNaN(z)))
    throw new UserError({
      what: 'no height is left on this ground',
      got: 'missing cells only',
      expected: 'another box or file',
    });
}

function outside(box: Box): UserError {
  const text = [box.west, box.south, box.east, box.north].map((n) => Math.round(n)).join(', ');
  return new UserError({
    what: 'no elevation lies in the box',
    got: text,
    expected: 'a box over the tiles, in metres of the terrain',
  });
}
