import { distance, lineLength, type Point } from '../math/plane.ts';

/** A line in n equal steps: n + 1 places, its ends among them. One pass, unlike asking `pointAlong` n times. */
export function lineSteps(line: readonly Point[], n: number): Point[] {
  const step = lineLength(line) / n;
  const places: Point[] = [line[0]!];
  let walked = 0;
  let k = 1;
  for (let i = 1; i < n; i++) {
    const along = i * step;
    let d = distance(line[k - 1]!, line[k]!);
    while (walked + d < along && k < line.length - 1) {
      walked += d;
      k++;
      d = distance(line[k - 1]!, line[k]!);
    }
    const a = line[k - 1]!;
    const b = line[k]!;
    const t = d === 0 ? 1 : Math.min(1, (along - walked) / d);
    places.push([a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]);
  }
  places.push(line[line.length - 1]!);
  return places;
}

/** Fewer vertices, none farther than `tolerance` metres from what is left (Douglas & Peucker 1973). Ends stay. */
export function simplified(line: readonly Point[], tolerance: number): Point[] {
  if (line.length < 3) return [...line];
  const keep = new Uint8Array(line.length);
  keep[0] = 1;
  keep[line.length - 1] = 1;
  const open: [number, number][] = [[0, line.length - 1]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [first, last] = span;
    let far = tolerance;
    let at = -1;
    for (let i = first + 1; i < last; i++) {
      const d = awayFromChord(line[i]!, line[first]!, line[last]!);
      if (d > far) {
        far = d;
        at = i;
      }
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([first, at], [at, last]);
  }
  return line.filter((_, i) => keep[i] === 1);
}

function awayFromChord(p: Point, a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return distance(p, [a[0] + dx * t, a[1] + dy * t]);
}
