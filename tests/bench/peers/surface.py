"""The cost surface that the benches write, its directed edges, and the peers' way of answering."""
import json
import sys
import time

import numpy as np


def read(folder):
    with open(f"{folder}/shape.json") as f:
        shape = json.load(f)
    size = (shape["rows"], shape["columns"])
    elevation = np.fromfile(f"{folder}/elevation.f32", "f4").reshape(size)
    factor = np.fromfile(f"{folder}/factor.f32", "f4").reshape(size)
    pace = np.fromfile(f"{folder}/pace.f32", "f4").astype("f8")
    return shape, elevation, factor, pace


def edges(shape, elevation, factor, pace):
    """(from, to, seconds) of every open directed edge of the 8 neighbours, costs as in src/search/edge.ts."""
    rows, columns = elevation.shape
    number = np.arange(rows * columns, dtype="i4").reshape(rows, columns)
    z = elevation.astype("f8")
    f = factor.astype("f8")
    steps, zero = shape["paceSteps"], shape["paceReach"] * shape["paceSteps"]
    closed = ~np.isfinite(f)
    parts = []
    for dr in (-1, 0, 1):
        for dc in (-1, 0, 1):
            if dr == 0 and dc == 0:
                continue
            a = (slice(max(0, -dr), rows - max(0, dr)), slice(max(0, -dc), columns - max(0, dc)))
            b = (slice(max(0, dr), rows + min(0, dr)), slice(max(0, dc), columns + min(0, dc)))
            metres = shape["cell"] * (np.sqrt(2.0) if dr and dc else 1.0)
            index = np.floor((z[b] - z[a]) * (steps / metres) + (zero + 0.5))
            index = np.clip(index, 0, 2 * zero).astype("i4")
            seconds = metres * 0.5 * pace[index] * (f[a] + f[b])
            ok = np.isfinite(seconds)
            if dr and dc:
                ok &= ~(closed[a[0], b[1]] & closed[b[0], a[1]])
            parts.append((number[a][ok], number[b][ok], seconds[ok]))
    return [np.concatenate(p) for p in zip(*parts)]


def serve(version, work, per=1):
    """Answers every line read with the processor seconds of one round over `per` and its checksum, which work() gives as a function, untimed."""
    print(json.dumps({"version": version}), flush=True)
    for _ in sys.stdin:
        start = time.process_time()
        checksum_of = work()
        seconds = (time.process_time() - start) / per
        print(json.dumps({"seconds": seconds, "checksum": float(checksum_of())}), flush=True)
