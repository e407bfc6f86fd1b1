#!/usr/bin/env python3
"""Writes the small grounds of the scenarios: run it in this folder. The task files beside them are written by hand.

Metres in EPSG:32630 about the point (500000, 6000000). Plain geometry, nothing real.
"""
import json, math, os

E0, N0 = 500000, 6000000


def ground(folder, features, half=1500, cell=75, height=lambda e, n: 300):
    os.makedirs(folder, exist_ok=True)
    k = 2 * half // cell
    rows = []
    for r in range(k):
        n = half - (r + .5) * cell
        rows.append(' '.join(f'{height(-half + (c + .5) * cell, n):.1f}'.rstrip('0').rstrip('.') for c in range(k)))
    head = [f'ncols {k}', f'nrows {k}', f'xllcorner {E0 - half}', f'yllcorner {N0 - half}', f'cellsize {cell}']
    open(f'{folder}/elevation.asc', 'w').write('\n'.join(head + rows) + '\n')
    with open(f'{folder}/features.geojson', 'w') as f:
        f.write('{"type":"FeatureCollection","features":[\n' + ',\n'.join(json.dumps(x) for x in features) + '\n]}\n')
    json.dump(
        {
            'version': 1,
            'name': folder,
            'crs': 'EPSG:32630',
            'elevation': 'elevation.asc',
            'features': 'features.geojson',
            'featuresCrs': 'EPSG:32630',
            'licence': 'MIT, as the project',
            'attribution': 'made for a test',
            'invented': True,
        },
        open(f'{folder}/terrain.json', 'w'),
        indent=1,
    )


def at(p):
    return [E0 + p[0], N0 + p[1]]


def spot(id, kind, p, **more):
    return {'type': 'Feature', 'properties': {'id': id, 'kind': kind, **more}, 'geometry': {'type': 'Point', 'coordinates': at(p)}}


def line(id, kind, *points, **more):
    return {'type': 'Feature', 'properties': {'id': id, 'kind': kind, **more}, 'geometry': {'type': 'LineString', 'coordinates': [at(p) for p in points]}}


def tilt(degrees, towards):
    """Ground that falls by so much towards a bearing."""
    t, a = math.tan(math.radians(degrees)), math.radians(towards)
    return lambda e, n: 500 - t * (e * math.sin(a) + n * math.cos(a))


SURE = {'exists': 1, 'positionMetres': 0}
# what is looked for: there, with a sweep width of 30 m and nothing like it beside it
STONE = {**SURE, 'sweepWidthMetres': 30, 'alike': 0}


def stone(p):
    return spot('stone', 'boulder', p, **STONE)


def start(p):
    return spot('start', 'gate', p, **SURE)


ground('01-aiming-off', [start((0, -400)), stone((0, 0)), line('stream', 'stream', (-1000, 0), (1000, 0), **SURE)])
ground(
    '02-over-or-round',
    [
        start((0, -1100)), stone((0, 1000)),
        line('path', 'path', (0, -1100), (-500, -750), (-800, -200), (-700, 300), (-150, 820), **SURE),
        line('stream', 'stream', (-900, 1000), (900, 1000), **SURE),
        spot('ruin', 'ruin', (-150, 820)),
        spot('knoll', 'knoll', (80, 1000), exists=1, rangeMetres=800),
    ],
)
ground(
    '03-oblique-or-chain',
    [
        start((0, -500)), stone((0, 0)),
        spot('ruin', 'ruin', (-220, -180)),
        line('track', 'track', (0, -500), (-220, -180), **SURE),
        line('stream', 'stream', (-1000, 0), (1000, 0), **SURE),
    ],
    height=tilt(12, 45),
)
ground(
    '04-stream-end',
    [
        start((0, -700)), stone((60, 0)),
        line('stream', 'stream', (0, 0), (0, -1400), **SURE),
        line('feeder', 'stream', (-700, 350), (0, -140), **SURE),
    ],
    height=lambda e, n: 500 + n * .08 + abs(e) * .02,
)
ground(
    '05-last-leg',
    [start((-400, -500)), stone((0, 0)), spot('near-fold', 'fold', (0, -100), **SURE), spot('far-fold', 'fold', (-300, -400), **SURE)],
    height=tilt(6, 60),
)
ground(
    '06-cloud-on-top',
    [start((-700, 0)), stone((700, 0)), spot('west-fold', 'fold', (-350, -600), **SURE), spot('east-fold', 'fold', (650, -150), **SURE)],
    height=lambda e, n: 300 + 300 * math.exp(-(e * e + (n - 100) ** 2) / (2 * 350 ** 2)),
)
ground('07-pace-or-clock', [start((0, -300)), stone((0, 0))])
ground(
    '08-doubtful-row',
    [
        start((0, -240)),
        *[spot(f'post-{i + 1}', 'post', (0, -200 + 40 * i), row='row', rowPlace=i + 1, extraPerGap=.1, exists=.85) for i in range(8)],
        line('wall', 'wall', (0, -230), (0, 400), **SURE),
        line('side-wall', 'wall', (-600, -150), (0, -150), **SURE),
        spot('hut', 'building', (-600, -150), **SURE),
    ],
)
ground(
    '09-twin-streams',
    [
        start((-200, -400)), stone((0, 0)),
        line('first', 'stream', (-1000, -80), (1000, -80), **SURE),
        line('second', 'stream', (-1000, 0), (1000, 0), **SURE),
        line('wall', 'wall', (-200, -400), (-200, 400), **SURE),
    ],
)
ground('10-side-slope', [start((0, 0)), stone((0, 300))], height=tilt(20, 90))
ground(
    '11-right-of-way',
    [
        start((0, -700)), stone((0, 800)), spot('ruin', 'ruin', (0, 650), **SURE),
        line('way', 'right-of-way', (0, -700), (120, -200), (0, 650), exists=.2),
        line('track', 'track', (0, -700), (-500, -400), (-500, 400), (0, 650), **SURE),
    ],
)
ground('12-search', [start((0, -300)), stone((0, 0))], height=tilt(8, 60))
