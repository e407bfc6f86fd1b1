/*
 * The one place that says which heights are missing:
 * 1. the value that the file declares, compared after rounding both to Float32 (−3.4e38 as text is no Float32);
 * 2. NaN and the infinities;
 * 3. after scale, offset and unit: what no open ground has, below −500 m or above 9000 m (−32768, 65535, −9999 undeclared);
 * 4. regions of exactly 0 m, or of the lowest value of an integer type, that stand beside much higher ground all round (`voids.ts`).
 * A missing height is NaN from here on.
 */

/** Lowest dry land is −430 m, highest 8849 m. */
const LOWEST = -500;
const HIGHEST = 9000;

/** How stored numbers become metres. */
export interface HeightRule {
  /** Declared missing value, null for none. */
  readonly nodata: number | null;
  /** metres = (stored × scale + offset) × metresPerUnit */
  readonly scale: number;
  readonly offset: number;
  readonly metresPerUnit: number;
}

/** The missing value of a file's text, such as "-9999" or "nan"; null when there is none or it is no number (NaN is always missing). */
export function declaredNodata(text: string | undefined): number | null {
  if (text === undefined) return null;
  const trimmed = text.replace(/\0.*$/s, '').trim();
  if (trimmed === '' || /^[-+]?nan$/i.test(trimmed)) return null;
  const value = Number(trimmed);
  return Number.isNaN(value) ? null : value;
}

/** Turns stored numbers into metres in place. Gives how many cells were missing by declaration and how many by rule 3. */
export function toMetres(data: Float32Array, rule: HeightRule): { missing: number; impossible: number } {
  // a number that Float32 cannot hold, such as NaN here, equals nothing
  const nodata = rule.nodata === null ? Number.NaN : Math.fround(rule.nodata);
  const factor = rule.scale * rule.metresPerUnit;
  const shift = rule.offset * rule.metresPerUnit;
  const plain = factor === 1 && shift === 0;
  let missing = 0;
  let impossible = 0;
  for (let i = 0; i < data.length; i++) {
    const stored = data[i]!;
    if (stored === nodata || !(stored - stored === 0)) {
      data[i] = Number.NaN;
      missing++;
      continue;
    }
    const z = plain ? stored : stored * factor + shift;
    if (z >= LOWEST && z <= HIGHEST) {
      if (!plain) data[i] = z;
    } else {
      data[i] = Number.NaN;
      impossible++;
    }
  }
  return { missing, impossible };
}

/** The sentence about cells without a height; undefined when all have one. */
export function missingNote(
  counts: { missing: number; impossible: number },
  cells: number,
): string | undefined {
  const { missing, impossible } = counts;
  if (missing + impossible === 0) return undefined;
  const share = (n: number) => `${n} of ${cells} cells`;
  const declared = missing === 0 ? '' : `${share(missing)} have no height`;
  const beyond =
    impossible === 0
      ? ''
      : `${share(impossible)} hold a height that no ground has (below ${LOWEST} m or above ${HIGHEST} m) and are taken as missing`;
  return `${[declared, beyond].filter((s) => s !== '').join('; ')}.`;
}
