/**
 * SD of a sum of n stationary AR(1) errors of unit SD with correlation φ from one to the next (Box & Jenkins, Time Series Analysis):
 * Var = n(1+φ)/(1−φ) − 2φ(1−φⁿ)/(1−φ)²; φ = 0 independent, √n; φ → 1 a constant bias, n.
 */
export function ar1SumSd(n: number, phi: number): number {
  if (phi >= 1) return n;
  const rest = 1 - phi;
  return Math.sqrt((n * (1 + phi)) / rest - (2 * phi * (1 - power(phi, n))) / (rest * rest));
}

/** φⁿ for a whole n ≥ 0 by squaring. */
function power(base: number, n: number): number {
  let result = 1;
  let b = base;
  for (let k = n; k > 0; k = Math.floor(k / 2)) {
    if (k % 2 === 1) result *= b;
    b *= b;
  }
  return result;
}
