import type { Ground } from './ground.ts';
import { palettePng, pngUri } from './png.ts';

const SHADES = 24;
/** Paper and the darkest grey that the relief may have. */
const LIGHT = [0xfa, 0xfa, 0xf7] as const;
const DARK = [0xd9, 0xdc, 0xd8] as const;
/** Heights are stretched, or hills of 50 m would not show. */
const STRETCH = 2;

/** From full light to full shade, and one colour that is not there for missing cells. */
export const RELIEF_PALETTE: readonly (readonly [number, number, number, number])[] = [
  ...Array.from({ length: SHADES }, (_, i) => {
    const t = i / (SHADES - 1);
    const mix = (k: 0 | 1 | 2) => Math.round(LIGHT[k] + (DARK[k] - LIGHT[k]) * t);
    return [mix(0), mix(1), mix(2), 255] as const;
  }),
  [0, 0, 0, 0],
];

/** Relief lit from the north-west as a picture in a data URI, one px per cell. */
export function reliefUri(ground: Ground, level: 1 | 9 = 9): string {
  return pngUri(palettePng(ground.columns, ground.rows, shades(ground), RELIEF_PALETTE, level));
}

/**
 * Shade of every cell as an index of the palette. Lambert: cos of the angle between the surface and a light 45° high in the
 * north-west; the gradient is Horn's (1981), with missing neighbours taken as level.
 */
export function shades(ground: Ground): Uint8Array {
  const { heights, columns, rows, cell } = ground;
  const indices = new Uint8Array(columns * rows);
  const k = STRETCH / (8 * cell);
  for (let r = 0; r < rows; r++) {
    for (let c = 0; c < columns; c++) {
      const h = heights[r * columns + c]!;
      if (Number.isNaN(h)) {
        indices[r * columns + c] = SHADES;
        continue;
      }
      const at = (dc: number, dr: number): number => {
        const cc = Math.min(columns - 1, Math.max(0, c + dc));
        const rr = Math.min(rows - 1, Math.max(0, r + dr));
        const v = heights[rr * columns + cc]!;
        return Number.isNaN(v) ? h : v;
      };
      const east = k * (at(1, -1) + 2 * at(1, 0) + at(1, 1) - at(-1, -1) - 2 * at(-1, 0) - at(-1, 1));
      const south = k * (at(-1, 1) + 2 * at(0, 1) + at(1, 1) - at(-1, -1) - 2 * at(0, -1) - at(1, -1));
      // Light from the north-west: (−½, ½) along the ground in (east, north), √½ up.
      const lit = (0.5 * east + 0.5 * south + Math.SQRT1_2) / Math.sqrt(1 + east * east + south * south);
      // Level ground, lit .71, stays nearly paper; only what turns away darkens.
      const shade = (0.8 - lit) / 0.8;
      indices[r * columns + c] = Math.max(0, Math.min(SHADES - 1, Math.round(shade * (SHADES - 1) * 1.25)));
    }
  }
  return indices;
}
