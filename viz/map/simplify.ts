/** Douglas–Peucker: the points of a line in px that matter at this tolerance; its ends stay. */
export function simplified(
  points: readonly (readonly [number, number])[],
  tolerance: number,
): (readonly [number, number])[] {
  if (points.length < 3) return [...points];
  const keep = new Uint8Array(points.length);
  keep[0] = 1;
  keep[points.length - 1] = 1;
  const open: [number, number][] = [[0, points.length - 1]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    const a = points[from]!;
    const b = points[to]!;
    let most = tolerance;
    let at = -1;
    for (let i = from + 1; i < to; i++) {
      const away = awayFrom(points[i]!, a, b);
      if (away > most) {
        most = away;
        at = i;
      }
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return points.filter((_, i) => keep[i] === 1);
}

function awayFrom(
  p: readonly [number, number],
  a: readonly [number, number],
  b: readonly [number, number],
): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  const x = a[0] + dx * t - p[0];
  const y = a[1] + dy * t - p[1];
  return Math.sqrt(x * x + y * y);
}
