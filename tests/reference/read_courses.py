"""Reads the courses of the demonstration with ezdxf and holds them against their table.

    build/venv/bin/python tests/reference/read_courses.py COURSES.csv METRIC.dxf US.dxf
"""

import csv
import sys

import ezdxf


def pieces(name):
    """Part, course and the block of each piece (mm)."""
    with open(name, newline="", encoding="ascii") as table:
        for row in csv.DictReader(table):
            sides = ("left_m", "front_m", "bottom_m", "width_m", "depth_m", "height_m")
            yield row["part"].upper(), row["course"], [1000 * float(row[side]) for side in sides]


def blocks(name, code, millimeters):
    """Layer without its number and the block of each closed polyline (mm)."""
    document = ezdxf.readfile(name)
    audit = document.audit()
    if audit.errors or audit.fixes:
        sys.exit(f"{name}: {audit.errors} {audit.fixes}")
    if (document.dxfversion, document.header["$INSUNITS"]) != ("AC1009", code):
        sys.exit(f"{name}: {document.dxfversion}, units {document.header['$INSUNITS']}")
    known = {layer.dxf.name for layer in document.layers}
    for entity in document.modelspace():
        if entity.dxf.layer not in known:
            sys.exit(f"{name}: no layer {entity.dxf.layer}")
    for outline in document.modelspace().query("POLYLINE"):
        if not outline.is_closed:
            sys.exit(f"{name}: an outline is open")
        x, y, z = zip(*(vertex.dxf.location for vertex in outline.vertices))
        block = (min(x), min(y), z[0], max(x) - min(x), max(y) - min(y), outline.dxf.thickness)
        layer = outline.dxf.layer.split("_", 2)[-1]
        yield layer, [side * millimeters for side in block]


def key(layer, block):
    return layer, *(round(side, 1) + 0.0 for side in block)


def check(table, name, code, millimeters):
    drawn = {key(*block) for block in blocks(name, code, millimeters)}
    wanted = {key(f"{part}_{course}", block) for part, course, block in pieces(table)}
    if missing := wanted - drawn:
        sys.exit(f"{name}: not drawn: {sorted(missing)[:5]} of {len(missing)}")
    print(f"{name}: {len(wanted)} pieces, each on the layer of its course")


check(sys.argv[1], sys.argv[2], 4, 1.0)
check(sys.argv[1], sys.argv[3], 1, 25.4)
