"""The body of the walker on a plain bearing leg, vectorised over the trials: the same errors, ground and time, no belief."""
import json
import sys
from pathlib import Path

import numpy as np
import surface

folder = Path(sys.argv[1])
w = json.loads((folder / "walk.json").read_text())
cells = np.fromfile(folder / "cells.bin", np.float32).reshape(-1, 4)
east_of, north_of, code_of = (np.ascontiguousarray(cells[:, i]) for i in (0, 1, 3))
code_of = code_of.astype(np.int32) % 64
pace_of = np.fromfile(folder / "pace.bin", np.float32)
slowness = np.array(w["slowness"], np.float32)
side_speed = np.array(w["sideSpeed"], np.float32)
side_pace = np.array(w["sidePace"], np.float32)
air = w["air"]
f = np.float32
trials, columns = w["trials"], w["columns"]
rng = np.random.default_rng(1)


def normal():
    return rng.standard_normal(trials, dtype=np.float32)


def walk():
    bias = f(0.8 * w["bearing"]) * normal() + f(0.6 * w["bearing"]) * normal()
    pace = f(w["pace"]) * normal() + f(w["pace"] / 3) * normal()
    drift = f(w["drift"]) * (1 + f(0.5) * normal())
    slow = 1 / np.maximum(f(0.5), 1 + f(w["speedSd"]) * normal())
    x = np.zeros(trials, np.float32)
    y = np.full(trials, -w["metres"] / 2, np.float32)
    clock = np.zeros(trials, np.float32)
    nearest = np.full(trials, np.inf, np.float32)
    tx, ty = f(0), f(w["metres"] / 2)
    per_cell = f(1 / w["cell"])

    def look_up():
        column = ((x - f(w["west"])) * per_cell).astype(np.int32)
        row = ((f(w["north"]) - y) * per_cell).astype(np.int32)
        at = row * columns + column
        return east_of[at], north_of[at], code_of[at]

    e, n, code = look_up()
    ux, uy = f(0), f(1)
    for _ in range(int(w["metres"] / w["step"])):
        cross = n * ux - e * uy
        across = np.abs(cross)
        at = np.minimum(across * 64 + f(0.5), 64).astype(np.int32)
        felt = np.minimum(f(air["paceOff"]) * side_pace[at], 3)
        metres = f(w["step"]) * np.maximum(1 + pace * felt, f(0.2))
        error = bias * f(air["bearingOff"]) + drift * cross
        lateral = normal() * f(w["wander"] * air["bearingOff"]) * np.sqrt(metres * f(0.01))
        c, s = np.cos(error), np.sin(error)
        dx, dy = ux * c + uy * s, uy * c - ux * s
        gradient = e * dx + n * dy
        row = np.clip((gradient + 2) * 256 + f(0.5), 0, 1024).astype(np.int32)
        clock += metres * pace_of[row] * slowness[code] / (f(air["speedOff"]) * side_speed[at]) * slow
        sx, sy = dx * metres + uy * lateral, dy * metres - ux * lateral
        # nearest to the target within the step
        px, py = tx - x, ty - y
        t = np.clip((px * sx + py * sy) / (sx * sx + sy * sy), 0, 1)
        qx, qy = px - t * sx, py - t * sy
        nearest = np.minimum(nearest, qx * qx + qy * qy)
        x += sx
        y += sy
        e, n, code = look_up()
    return (nearest <= f(w["radius"] ** 2)).mean()


steps = trials * int(w["metres"] / w["step"]) / 1e6


def work():
    share = walk()
    return lambda: float(share)


surface.serve(f"numpy {np.__version__}, float32", work, per=steps)
