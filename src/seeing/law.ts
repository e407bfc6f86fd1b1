import { exp, ln } from '../math/portable.ts';

/*
 * Laws of detection. Definite: seen when the walked line comes within W/2. Lateral: p(x) = e^(−(x/b)²) at a closest
 * distance x, with ∫p dx = b·√π = W. One draw per trial, object and leg turns the curve into a radius, since
 * P(R > x) = P(U < e^(−(x/b)²)) = p(x); a draw per step would see the thing again and again and inflate W.
 */
const SQRT_PI = Math.sqrt(Math.PI);

export type Law = 'definite' | 'lateral';

/** b in metres of the lateral curve with a sweep width W. */
export function lateralScale(sweepWidthMetres: number): number {
  return sweepWidthMetres / SQRT_PI;
}

/** p(x): chance to see the thing when passing it at x metres. */
export function lateralChance(b: number, x: number): number {
  return b > 0 ? exp(-(x / b) * (x / b)) : 0;
}

/** R = b·√(−ln U): the radius within which the thing is seen in this trial; U in (0, 1). */
export function rangeOfDraw(b: number, u: number): number {
  return b * Math.sqrt(-ln(u));
}

/** Radius within which a thing of sweep width W is seen in one trial, whichever law holds. */
export function seeingRadius(law: Law, sweepWidthMetres: number, u: number): number {
  return law === 'definite' ? sweepWidthMetres / 2 : rangeOfDraw(lateralScale(sweepWidthMetres), u);
}
