import createGraph from 'ngraph.graph';
import { aStar } from 'ngraph.path';
import { expect, test } from 'vitest';
import { type CostSurface, PACE_REACH, PACE_STEPS } from '../../src/cost/surface.ts';
import { leastCostPath } from '../../src/search/a-star.ts';
import { costField, pathFrom } from '../../src/search/field.ts';
import { stream } from './ground.ts';
import { paceTable } from './text-map.ts';

/** A grid with nothing smooth about it: every height, factor and pace of its own, a quarter of the cells closed or without a height. */
function wildGrid(seed: number): CostSurface {
  const next = stream(seed);
  const columns = 6 + Math.floor(next() * 20);
  const rows = 6 + Math.floor(next() * 20);
  const uphill = 1 + next() * 6;
  const downhill = next() * 3;
  const cell = [5, 10, 50][Math.floor(next() * 3)]!;
  const relief = cell * (0.2 + next());
  const factor = Float32Array.from({ length: columns * rows }, () =>
    next() < 0.2 ? Infinity : 0.5 + 4 * next(),
  );
  const elevation = Float32Array.from(factor, () => (next() < 0.05 ? Number.NaN : relief * next()));
  const pace = paceTable((g) => 0.6 + (g > 0 ? uphill * g : -downhill * g) + 0.3 * next());
  return { crs: 'EPSG:27700', west: 0, north: 0, cell, columns, rows, elevation, factor, pace };
}

/** The contract of src/cost/surface.ts, written again: explicit directed edges with their seconds. */
function explicitEdges(s: CostSurface): [from: number, to: number, seconds: number][] {
  const edges: [number, number, number][] = [];
  const open = (c: number, r: number) => {
    const i = r * s.columns + c;
    return (
      c >= 0 &&
      r >= 0 &&
      c < s.columns &&
      r < s.rows &&
      !Number.isNaN(s.elevation[i]!) &&
      s.factor[i]! < Infinity
    );
  };
  for (let r = 0; r < s.rows; r++) {
    for (let c = 0; c < s.columns; c++) {
      for (const [dc, dr] of [-1, 0, 1].flatMap((x) => [-1, 0, 1].map((y) => [x, y] as const))) {
        if ((dc === 0 && dr === 0) || !open(c, r) || !open(c + dc, r + dr)) continue;
        if (!open(c + dc, r) && !open(c, r + dr)) continue;
        const [a, b] = [r * s.columns + c, (r + dr) * s.columns + c + dc];
        const d = s.cell * Math.sqrt(dc * dc + dr * dr);
        const gradient = (s.elevation[b]! - s.elevation[a]!) / d;
        const index = Math.round((gradient + PACE_REACH) * PACE_STEPS);
        const pace = s.pace[Math.min(Math.max(index, 0), s.pace.length - 1)]!;
        edges.push([a, b, (d * pace * (s.factor[a]! + s.factor[b]!)) / 2]);
      }
    }
  }
  return edges;
}

test('field, traced line and A* equal ngraph.path on 200 random anisotropic grids', () => {
  let reached = 0;
  let asymmetric = 0;
  for (let seed = 1; seed <= 200; seed++) {
    const surface = wildGrid(seed);
    const cells = surface.columns * surface.rows;
    const next = stream(seed + 1000);
    const seconds = new Map<number, number>();
    const graph = createGraph<undefined, number>({ multigraph: false });
    for (let i = 0; i < cells; i++) graph.addNode(i);
    for (const [a, b, s] of explicitEdges(surface)) {
      graph.addLink(a, b, s);
      seconds.set(a * cells + b, s);
    }
    const finder = aStar(graph, { oriented: true, distance: (_to, _from, link) => link.data });
    const sum = (line: ArrayLike<number>) =>
      Array.from({ length: line.length - 1 }, (_, k) => seconds.get(line[k]! * cells + line[k + 1]!)!).reduce(
        (total, s) => total + s,
        0,
      );
    const away = (a: number, b: number) => Math.abs(a - b) / b;

    const [from, to] = [Math.floor(next() * cells), Math.floor(next() * cells)];
    const path = finder.find(from, to).map((node) => Number(node.id));
    path.reverse();
    const found = leastCostPath(surface, from, to);
    const fromField = costField(surface, [from], 'from');
    const toField = costField(surface, [to], 'to');
    const isOpen = surface.factor[from]! < Infinity && !Number.isNaN(surface.elevation[from]!);
    if (path[0] !== from || path.at(-1) !== to || (from === to && !isOpen)) {
      expect(found, `seed ${seed}`).toBeNull();
      expect(fromField[to], `seed ${seed}`).toBe(Infinity);
      expect(toField[from], `seed ${seed}`).toBe(Infinity);
      continue;
    }
    if (from === to) continue;
    reached++;
    const least = sum(path);
    expect(away(found!.seconds, least), `seed ${seed}`).toBeLessThan(5e-6);
    expect(away(sum(found!.cells), least), `seed ${seed}`).toBeLessThan(5e-6);
    expect(away(fromField[to]!, least), `seed ${seed}`).toBeLessThan(5e-6);
    expect(away(toField[from]!, least), `seed ${seed}`).toBeLessThan(5e-6);
    expect(away(sum(pathFrom(surface, fromField, to, 'from')!), least), `seed ${seed}`).toBeLessThan(5e-6);
    expect(away(sum(pathFrom(surface, toField, from, 'to')!), least), `seed ${seed}`).toBeLessThan(5e-6);
    if (away(costField(surface, [to], 'from')[from]!, least) > 0.01) asymmetric++;
  }
  expect(reached).toBeGreaterThan(80);
  expect(asymmetric).toBeGreaterThan(60);
});

test('one pace on every gradient: the field equals ngraph.path on 60 random grids, whatever the heights', () => {
  let reached = 0;
  for (let seed = 1; seed <= 60; seed++) {
    const surface = { ...wildGrid(seed), pace: paceTable(() => 0.9) };
    const cells = surface.columns * surface.rows;
    const next = stream(seed + 2000);
    const graph = createGraph<undefined, number>({ multigraph: false });
    for (let i = 0; i < cells; i++) graph.addNode(i);
    for (const [a, b, s] of explicitEdges(surface)) graph.addLink(a, b, s);
    const finder = aStar(graph, { oriented: true, distance: (_to, _from, link) => link.data });
    const from = Math.floor(next() * cells);
    const fields = (['from', 'to'] as const).map((way) => costField(surface, [from], way));
    expect(fields[0]).toEqual(fields[1]);
    for (const to of Array.from({ length: 5 }, () => Math.floor(next() * cells))) {
      if (to === from) continue;
      const path = finder.find(from, to).map((node) => Number(node.id));
      if (path[0] !== to || path.at(-1) !== from) {
        expect(fields[0]![to], `seed ${seed}`).toBe(Infinity);
        continue;
      }
      reached++;
      let least = 0;
      for (let k = 1; k < path.length; k++) least += graph.getLink(path[k]!, path[k - 1]!)!.data;
      expect(Math.abs(fields[0]![to]! / least - 1), `seed ${seed}`).toBeLessThan(5e-6);
    }
  }
  expect(reached).toBeGreaterThan(100);
});

test('A* reads rows as it comes to them: round a wall 400 rows long, on ground that the search before has left behind', () => {
  const columns = 30;
  const rows = 1000;
  const wall = (top: number, foot: number): CostSurface => {
    const next = stream(top);
    const factor = Float32Array.from({ length: columns * rows }, (_, i) => {
      const row = Math.floor(i / columns);
      return i % columns === 15 && row >= top && row <= foot ? Infinity : 1 + next();
    });
    const elevation = Float32Array.from(factor, () => 3 * next());
    const pace = paceTable((g) => 0.8 + 3 * Math.max(g, 0));
    return { crs: 'EPSG:27700', west: 0, north: 0, cell: 10, columns, rows, elevation, factor, pace };
  };
  const [from, to] = [500 * columns + 12, 503 * columns + 18];
  for (const [top, foot, end] of [
    [0, 700, 701],
    [300, 999, 299],
    [0, 999, -1],
    [120, 520, 521],
  ] as const) {
    const surface = wall(top, foot);
    const found = leastCostPath(surface, from, to);
    const least = costField(surface, [from], 'from')[to]!;
    if (end < 0) {
      expect(found).toBeNull();
      expect(least).toBe(Infinity);
      continue;
    }
    expect(Math.abs(found!.seconds / least - 1)).toBeLessThan(5e-6);
    expect(found!.cells.some((i) => Math.floor(i / columns) === end)).toBe(true);
  }
});

test('nearest of several sources, and a limit', () => {
  const surface = wildGrid(7);
  const open = [...surface.factor.keys()].filter(
    (i) => surface.factor[i]! < Infinity && surface.elevation[i]! >= 0,
  );
  const sources = [open[3]!, open[40]!, open[77]!];
  const together = costField(surface, sources, 'from');
  const apart = sources.map((s) => costField(surface, [s], 'from'));
  together.forEach((seconds, i) => {
    expect(seconds).toBe(Math.min(...apart.map((field) => field[i]!)));
  });
  const limit = together.filter((s) => s < Infinity).sort()[20]!;
  const limited = costField(surface, sources, 'from', limit);
  limited.forEach((seconds, i) => {
    expect(seconds).toBe(together[i]! <= limit ? together[i] : Infinity);
  });
});

test('costs that span ten powers of ten still go through the coarse buckets exactly', () => {
  const next = stream(5);
  const surface: CostSurface = {
    ...wildGrid(3),
    columns: 40,
    rows: 40,
    elevation: new Float32Array(1600),
    factor: Float32Array.from({ length: 1600 }, () => 10 ** (6 * next() - 3)),
    pace: paceTable(() => 1),
  };
  const graph = createGraph<undefined, number>({ multigraph: false });
  for (const [a, b, s] of explicitEdges(surface)) graph.addLink(a, b, s);
  const finder = aStar(graph, { oriented: true, distance: (_to, _from, link) => link.data });
  const field = costField(surface, [0], 'from');
  for (const to of [39, 777, 1234, 1599]) {
    const path = finder
      .find(0, to)
      .map((node) => Number(node.id))
      .reverse();
    let least = 0;
    for (let k = 1; k < path.length; k++) least += graph.getLink(path[k - 1]!, path[k]!)!.data;
    expect(Math.abs(field[to]! / least - 1)).toBeLessThan(5e-6);
    expect(Math.abs(leastCostPath(surface, 0, to)!.seconds / least - 1)).toBeLessThan(5e-6);
  }
});

test('what only a fault of ours can bring is thrown: sizes, a factor of 0, a pace of 0, a cell off the raster', () => {
  const surface = wildGrid(2);
  const zero = Float32Array.from(surface.factor);
  zero[zero.findIndex((f, i) => f < Infinity && surface.elevation[i]! >= 0)] = 0;
  expect(() => costField({ ...surface, factor: zero }, [0], 'from')).toThrow(RangeError);
  expect(() => costField({ ...surface, pace: new Float32Array(1025) }, [0], 'from')).toThrow(RangeError);
  expect(() => costField({ ...surface, columns: 3 }, [0], 'from')).toThrow(RangeError);
  for (const cell of [-1, 1e6, 0.5, Number.NaN]) {
    expect(() => costField(surface, [cell], 'from')).toThrow(RangeError);
    expect(() => leastCostPath(surface, 0, cell)).toThrow(RangeError);
  }
});

test('start = target, one cell, one row', () => {
  const row = (columns: number): CostSurface => ({
    ...wildGrid(2),
    columns,
    rows: 1,
    elevation: new Float32Array(columns),
    factor: new Float32Array(columns).fill(1),
    pace: paceTable(() => 1),
    cell: 10,
  });
  expect(leastCostPath(row(1), 0, 0)).toEqual({ cells: Int32Array.of(0), seconds: 0 });
  expect([...costField(row(4), [1], 'from')]).toEqual([10, 0, 10, 20]);
});
