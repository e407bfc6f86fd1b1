import sys

import numpy as np
import skimage
import surface
from skimage.graph import MCP_Geometric

shape, elevation, factor, pace = surface.read(sys.argv[1])
# flat ground at one pace: an edge costs its length times the mean of its two cells, as MCP_Geometric has it
costs = factor.astype("f8") * pace[shape["paceReach"] * shape["paceSteps"]]
costs[~np.isfinite(costs)] = -1
source = divmod(shape["source"], shape["columns"])


def work():
    field, _ = MCP_Geometric(costs, fully_connected=True, sampling=(shape["cell"], shape["cell"])).find_costs([source])
    return lambda: field[np.isfinite(field)].sum()


surface.serve(f"scikit-image {skimage.__version__} MCP_Geometric", work)
