"""Reads DXF files with Debian's ezdxf and says what is in them, as JSON: file names on the command line."""
import json
import sys

import ezdxf


def area(points):
    """Shoelace: above 0 when the chain runs against the clock."""
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1])) / 2


def read(path):
    document = ezdxf.readfile(path)
    auditor = document.audit()
    space = document.modelspace()
    outline = [line for line in space.query("LWPOLYLINE") if "OUTLINE" in line.dxf.layer]
    return {
        "version": document.dxfversion,
        "units": document.header["$INSUNITS"],
        "errors": [str(error.message) for error in auditor.errors],
        "fixes": [str(fix.message) for fix in auditor.fixes],
        "layers": [layer.dxf.name for layer in document.layers],
        "closed": all(line.closed for line in space.query("LWPOLYLINE")),
        "area": sum(area([(x, y) for x, y in line.get_points("xy")]) for line in outline),
        "pockets": sorted(
            [line.dxf.layer, round(area([(x, y) for x, y in line.get_points("xy")]), 3)]
            for line in space.query("LWPOLYLINE")
            if "OUTLINE" not in line.dxf.layer
        ),
        "holes": sorted(
            [round(c.dxf.center.x, 6), round(c.dxf.center.y, 6), round(2 * c.dxf.radius, 6)]
            for c in space.query("CIRCLE")
            if c.dxf.layer.startswith("HOLE_")
        ),
        "circles": len(space.query("CIRCLE")),
        "high": max((abs(c.dxf.center.z) for c in space.query("CIRCLE")), default=0),
    }


print(json.dumps({path: read(path) for path in sys.argv[1:]}))
