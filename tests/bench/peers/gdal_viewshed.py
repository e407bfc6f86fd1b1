import json
import resource
import subprocess
import sys

from osgeo import gdal

folder = sys.argv[1]
ground = gdal.Open(f"{folder}/ground.tif")
with open(f"{folder}/place.json") as f:
    at = json.load(f)
place = ["-ox", str(at["east"]), "-oy", str(at["north"]), "-oz", "30", "-tz", "0", "-md", "0"]
# a plain file, so that no time goes into packing and unpacking
gdal.Translate(f"{folder}/plain.tif", ground)
print(json.dumps({"version": f"gdal_viewshed {gdal.__version__}"}), flush=True)
for _ in sys.stdin:
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(["gdal_viewshed", "-q", *place, f"{folder}/plain.tif", f"{folder}/seen.tif"], check=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    seconds = after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime
    hidden = int((gdal.Open(f"{folder}/seen.tif").ReadAsArray() == 0).sum())
    print(json.dumps({"seconds": seconds, "checksum": hidden}), flush=True)
