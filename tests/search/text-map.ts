import { type CostSurface, PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';

/**
 * A text map: `#` closed, a digit is the factor, `.` is 1, letters are places on factor 1.
 * Flat unless `heights` gives one character 0–9 per cell (× `rise` metres).
 */
export function textMap(
  map: string,
  options: { cell?: number; heights?: string; rise?: number; pace?: (gradient: number) => number } = {},
): { surface: CostSurface; place: (letter: string) => number } {
  const lines = rowsOf(map);
  const columns = lines[0]!.length;
  const rows = lines.length;
  const text = lines.join('');
  const heights = options.heights === undefined ? '' : rowsOf(options.heights).join('');
  return {
    surface: {
      crs: 'EPSG:27700',
      west: 0,
      north: 0,
      cell: options.cell ?? 10,
      columns,
      rows,
      elevation: Float32Array.from(text, (_, i) => Number(heights[i] ?? 0) * (options.rise ?? 1)),
      factor: Float32Array.from(text, (c) => (c === '#' ? Infinity : /\d/.test(c) ? Number(c) : 1)),
      pace: paceTable(options.pace ?? (() => 1)),
    },
    place: (letter) => text.indexOf(letter),
  };
}

/** The map with a route drawn on it, `*` on every cell that is not a letter. */
export function drawn(map: string, cells: Iterable<number>): string {
  const lines = rowsOf(map);
  const columns = lines[0]!.length;
  const text = lines.join('').split('');
  for (const i of cells) if (!/[A-Z]/.test(text[i]!)) text[i] = '*';
  return lines.map((_, r) => text.slice(r * columns, (r + 1) * columns).join('')).join('\n');
}

export function rowsOf(map: string): string[] {
  return map
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

export function paceTable(pace: (gradient: number) => number): Float32Array {
  return Float32Array.from({ length: 2 * PACE_REACH * PACE_STEPS + 1 }, (_, k) =>
    pace(k / PACE_STEPS - PACE_REACH),
  );
}
