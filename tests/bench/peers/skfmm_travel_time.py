import sys

import numpy as np
import skfmm
import surface

shape, elevation, factor, pace = surface.read(sys.argv[1])
speed = 1 / (factor.astype("f8") * pace[shape["paceReach"] * shape["paceSteps"]])
phi = np.ones(factor.shape)
phi[divmod(shape["source"], shape["columns"])] = -1


def work():
    field = skfmm.travel_time(phi, speed, dx=shape["cell"])
    return lambda: field.sum()


surface.serve(f"scikit-fmm {skfmm.__version__} travel_time", work)
