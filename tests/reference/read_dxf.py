"""Reads the DXF files of the demonstration with ezdxf: audit, units, layers, sizes by hand.

    build/venv/bin/python tests/reference/read_dxf.py METRIC.dxf US.dxf
"""

import sys

import ezdxf
from ezdxf import bbox

# Firebox wall 114, gap 6, facing 115 mm to the left of the firebox; runs of 2000, core 64, gap and
# facing to the right; 114 below the floor of the firebox, firebox 620, crown 100, five runs of 240 with four baffles of 64, cap 150 mm.
MASONRY = (-235.0, -114.0, 2185.0, 2326.0)
MOUTH = 8200.0
LAYERS = {"CORE", "FACING", "BAFFLES", "OUTLINE", "DIMENSIONS", "TEXT", "SPACES", "DOOR", "HOUSE"}


def near(found, expected, what):
    if abs(found - expected) > 0.01:
        sys.exit(f"{what}: {found} is not {expected}")


def read(name, code, millimeters):
    document = ezdxf.readfile(name)
    audit = document.audit()
    if audit.errors or audit.fixes:
        sys.exit(f"{name}: {audit.errors} {audit.fixes}")
    if (document.dxfversion, document.header["$INSUNITS"]) != ("AC1009", code):
        sys.exit(f"{name}: {document.dxfversion}, units {document.header['$INSUNITS']}")
    space = document.modelspace()
    used = {entity.dxf.layer for entity in space}
    known = {layer.dxf.name for layer in document.layers}
    if not LAYERS <= used or not used <= known:
        sys.exit(f"{name}: layers {sorted(used)}")
    outlines = list(space.query('*[layer=="OUTLINE"]'))
    masonry, chimney = (bbox.extents([outline]) for outline in outlines[:2])
    corners = (*masonry.extmin.vec2, *masonry.extmax.vec2)
    for found, expected in zip(corners, MASONRY):
        near(found * millimeters, expected, f"{name}: masonry")
    near(chimney.extmax.y * millimeters, MOUTH, f"{name}: mouth")
    for outline in outlines:
        if outline.dxftype() == "POLYLINE" and not outline.is_closed:
            sys.exit(f"{name}: an outline is open")
    whole = bbox.extents(space)
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    if whole.extmin.x < low[0] or whole.extmax.y > high[1] or whole.extmax.x > high[0]:
        sys.exit(f"{name}: {whole} is beyond {low} {high}")
    print(f"{name}: {len(space)} entities on {len(used)} layers, as the design")


read(sys.argv[1], 4, 1.0)
read(sys.argv[2], 1, 25.4)
