import sys

from osgeo import gdal

import surface

ground = gdal.GetDriverByName("MEM").CreateCopy("", gdal.Open(f"{sys.argv[1]}/ground.tif"))


def work():
    slope = gdal.DEMProcessing("", ground, "slope", format="MEM", slopeFormat="percent")

    def checksum():
        values = slope.ReadAsArray()
        return values[values != -9999].sum(dtype="f8")

    return checksum


surface.serve(f"GDAL {gdal.__version__} DEMProcessing", work)
