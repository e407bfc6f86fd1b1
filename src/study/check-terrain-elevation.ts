import type { Raster } from '../grid/raster.ts';
import { length } from '../math/plane.ts';
import type { Relief, Terrain } from '../terrain/terrain.ts';
import type { Finding } from './check-finding.ts';

/** A cell that stands this much above or below all its neighbours is a fault of the data, metres per metre of cell, and at least. */
const SPIKE_SLOPE = 2;
const SPIKE_METRES = 25;
/** tan 35°. */
const TAN_35 = 0.7002075;
/** Share of the cells on one whole 10 m of height above which contours were turned into a raster. */
const STEPPED = 0.35;

/** What is wrong or limited in the elevation and its papers. */
export function checkElevation(terrain: Terrain, relief: Relief): Finding[] {
  const { elevation } = terrain;
  return [
    ...papers(terrain),
    ...missing(elevation),
    ...spikes(elevation),
    ...steps(elevation),
    ...grain(elevation),
    ...steepest(relief),
  ];
}

function papers({ attribution, licence, mapDate, invented }: Terrain): Finding[] {
  const findings: Finding[] = [];
  const say = (says: string) => findings.push({ weight: 'doubtful', about: 'elevation', says });
  if (attribution.trim() === '')
    say('no attribution: a report made from this data may not be shown to others');
  if (licence.trim() === '') say('no licence is named');
  if (mapDate === null && !invented)
    say('no map date: how many things have changed since cannot be reckoned');
  return findings;
}

function missing({ data }: Raster): Finding[] {
  let none = 0;
  for (let i = 0; i < data.length; i++) if (Number.isNaN(data[i]!)) none++;
  if (none === 0) return [];
  const share = none / data.length;
  const says = `${percent(share)} of the cells have no height; no route leads through them`;
  return [{ weight: share > 0.5 ? 'doubtful' : 'known', about: 'elevation', says }];
}

function spikes({ data, columns, rows, cell, west, north }: Raster): Finding[] {
  const least = Math.max(SPIKE_METRES, SPIKE_SLOPE * cell);
  let count = 0;
  let first = -1;
  for (let r = 1; r < rows - 1; r++)
    for (let c = 1; c < columns - 1; c++) {
      const i = r * columns + c;
      const z = data[i]!;
      let high = Number.NEGATIVE_INFINITY;
      let low = Number.POSITIVE_INFINITY;
      for (let y = -1; y <= 1; y++)
        for (let x = -1; x <= 1; x++) {
          const n = data[i + y * columns + x]!;
          if (x === 0 && y === 0) continue;
          if (n > high) high = n;
          if (n < low) low = n;
        }
      // a missing cell or neighbour makes the comparison false
      if (z > high + least || z < low - least) {
        if (first < 0) first = i;
        count++;
      }
    }
  if (count === 0) return [];
  const at: [number, number] = [
    west + ((first % columns) + 0.5) * cell,
    north - (Math.floor(first / columns) + 0.5) * cell,
  ];
  const says = `${count} ${count === 1 ? 'cell stands' : 'cells stand'} more than ${Math.round(least)} m out of all neighbours: spikes or holes in the data`;
  return [{ weight: 'doubtful', about: 'elevation', says, at }];
}

/** Heights that come in whole tens: contours turned into a raster, with flat terraces between them. */
function steps({ data }: Raster): Finding[] {
  let whole = 0;
  let some = 0;
  for (let i = 0; i < data.length; i += 7) {
    const z = data[i]!;
    // the sea is level without contours
    if (Number.isNaN(z) || z === 0) continue;
    some++;
    if (z % 10 === 0) whole++;
  }
  if (some === 0 || whole / some < STEPPED) return [];
  const says = `${percent(whole / some)} of the cells lie on a whole 10 m: made from contours, with false terraces`;
  return [{ weight: 'doubtful', about: 'elevation', says }];
}

function grain({ cell }: Raster): Finding[] {
  const metres = Math.round(cell * 10) / 10;
  if (cell <= 10) return [];
  const says = `cells of ${metres} m: knolls, hollows and crags narrower than ${Math.round(2 * cell)} m are not in it`;
  return [{ weight: cell > 25 ? 'doubtful' : 'known', about: 'elevation', says }];
}

/** Ground steeper than 35° by the elevation alone, whatever the map says of cliffs. */
function steepest({ eastward, northward }: Relief): Finding[] {
  const limit = TAN_35;
  let steep = 0;
  let some = 0;
  for (let i = 0; i < eastward.data.length; i++) {
    const slope = length(eastward.data[i]!, northward.data[i]!);
    if (Number.isNaN(slope)) continue;
    some++;
    if (slope > limit) steep++;
  }
  if (steep === 0 || some === 0) return [];
  const says = `${percent(steep / some)} of the ground is steeper than 35° on these cells; single crags may be steeper than they show`;
  return [{ weight: 'known', about: 'elevation', says }];
}

function percent(share: number): string {
  const p = 100 * share;
  return p < 1 ? 'less than 1 in 100' : `${Math.round(p)} in 100`;
}
