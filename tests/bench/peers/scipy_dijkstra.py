import sys

import scipy
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

import numpy as np
import surface

shape, elevation, factor, pace = surface.read(sys.argv[1])
start, end, seconds = surface.edges(shape, elevation, factor, pace)
cells = elevation.size
graph = csr_matrix((seconds, (start, end)), shape=(cells, cells))
del start, end, seconds


def work():
    field = dijkstra(graph, directed=True, indices=shape["source"])
    return lambda: field[np.isfinite(field)].sum()


surface.serve(f"scipy {scipy.__version__} csgraph.dijkstra", work)
