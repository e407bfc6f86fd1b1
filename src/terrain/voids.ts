/** A region must stand this far below nearly all of its rim to be taken for a void, metres. Common practice, no source. */
const RIM_METRES = 25;
/** Share of the rim that may be lower: the sea has a shore nearly everywhere, a void has none. */
const LOW_SHARE = 0.05;

/**
 * Undeclared voids: connected cells (by sides) of exactly 0 m whose rim lies high above them nearly all round. Makes them NaN.
 * The sea and land at sea level have a low shore and stay.
 */
export function markVoids(
  data: Float32Array,
  columns: number,
  rows: number,
): { regions: number; cells: number } {
  let regions = 0;
  let cells = 0;
  if (data.indexOf(0) === -1) return { regions, cells };
  const seen = new Uint8Array(data.length);
  const region: number[] = [];
  for (let start = data.indexOf(0); start !== -1; start = data.indexOf(0, start + 1)) {
    if (seen[start] === 1) continue;
    region.length = 0;
    region.push(start);
    seen[start] = 1;
    let rim = 0;
    let low = 0;
    for (let n = 0; n < region.length; n++) {
      const i = region[n]!;
      const c = i % columns;
      for (let k = 0; k < 4; k++) {
        if ((k === 0 && c === 0) || (k === 1 && c === columns - 1)) continue;
        const j = k === 0 ? i - 1 : k === 1 ? i + 1 : k === 2 ? i - columns : i + columns;
        if (j < 0 || j >= columns * rows) continue;
        const z = data[j]!;
        if (z === 0) {
          if (seen[j] === 0) {
            seen[j] = 1;
            region.push(j);
          }
        } else if (!Number.isNaN(z)) {
          rim++;
          if (z < RIM_METRES) low++;
        }
      }
    }
    if (rim === 0 || low > rim * LOW_SHARE) continue;
    regions++;
    cells += region.length;
    for (const i of region) data[i] = Number.NaN;
  }
  return { regions, cells };
}
