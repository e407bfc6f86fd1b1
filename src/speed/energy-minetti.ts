/*
 * Energy cost per metre of path and kg of body, J/(kg·m), on a gradient i (rise/run) from −0.45 to 0.45.
 * Minetti AE, Moia C, Roi GS, Susta D, Ferretti G (2002) Energy cost of walking and running at extreme uphill and downhill slopes.
 * Journal of Applied Physiology 93(3):1039–1046. Ten trained runners on a treadmill; the walking polynomial gives 2.5 on the level
 * where 1.64 was measured. For the report only: no route is chosen by it.
 */
const WALKING = [280.5, -58.7, -76.8, 51.9, 19.6, 2.5] as const;
const RUNNING = [155.4, -30.4, -43.3, 46.3, 19.5, 3.6] as const;
const STEEPEST = 0.45;

/** C_w(i) = 280.5i⁵ − 58.7i⁴ − 76.8i³ + 51.9i² + 19.6i + 2.5; held beyond ±0.45. */
export function walkingCost(gradient: number): number {
  return polynomial(WALKING, gradient);
}

/** C_r(i) = 155.4i⁵ − 30.4i⁴ − 43.3i³ + 46.3i² + 19.5i + 3.6; held beyond ±0.45. */
export function runningCost(gradient: number): number {
  return polynomial(RUNNING, gradient);
}

function polynomial(coefficients: readonly number[], gradient: number): number {
  const i = Math.max(-STEEPEST, Math.min(STEEPEST, gradient));
  let sum = 0;
  for (const c of coefficients) sum = sum * i + c;
  return sum;
}

/** Measured gradients and walking costs of the same paper (its table), a better guide than the polynomial near the level. */
const MEASURED_GRADIENT = [-0.45, -0.4, -0.35, -0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3, 0.35, 0.4, 0.45] as const;
const MEASURED_WALKING = [
  3.46, 3.23, 2.65, 2.18, 1.3, 0.81, 1.64, 4.68, 8.07, 11.29, 12.72, 14.75, 17.33,
] as const;

/** The measured walking cost, linear between the gradients of the table and held beyond ±0.45. */
export function measuredWalkingCost(gradient: number): number {
  const last = MEASURED_GRADIENT.length - 1;
  if (gradient <= MEASURED_GRADIENT[0]) return MEASURED_WALKING[0];
  if (gradient >= MEASURED_GRADIENT[last]!) return MEASURED_WALKING[last]!;
  const k = MEASURED_GRADIENT.findIndex((g) => g > gradient);
  const low = MEASURED_GRADIENT[k - 1]!;
  const share = (gradient - low) / (MEASURED_GRADIENT[k]! - low);
  return MEASURED_WALKING[k - 1]! + (MEASURED_WALKING[k]! - MEASURED_WALKING[k - 1]!) * share;
}
