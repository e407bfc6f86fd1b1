import sys

from osgeo import gdal

import surface

gdal.SetConfigOption("GDAL_NUM_THREADS", "1")


def work():
    heights = gdal.Open(f"{sys.argv[1]}/ground.tif").ReadAsArray()
    return lambda: heights.sum(dtype="f8")


surface.serve(f"GDAL {gdal.__version__} ReadAsArray", work)
