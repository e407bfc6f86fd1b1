import type { MappedGround } from '../../../src/cost/mapped-ground.ts';
import type { reportGround } from '../../../src/report/report-ground.ts';

/** The ground as the page draws it: all of the terrain, its heights already at hand. */
export const wholeGround: typeof reportGround = (ground: MappedGround, _candidates, _ends, lacking) => {
  const { terrain } = ground;
  const { west, north, cell, columns, rows } = terrain.elevation;
  return {
    box: { west, north, east: west + columns * cell, south: north - rows * cell },
    shown: {
      crs: terrain.crs,
      origin: [west, north],
      cell,
      columns,
      rows,
      layers: [],
      source: terrain.attribution,
      terrainCell: cell,
      lacking,
    },
  };
};
