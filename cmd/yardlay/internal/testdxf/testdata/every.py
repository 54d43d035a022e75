"""Writes a DXF of each release with every kind of entity, by ezdxf, into a folder, and prints
what ezdxf makes of each as a line of JSON: lines by layer, as chords of its own; areas of what
is closed, by finer chords; texts; colours.

No insertion turns what another then stretches: ezdxf 0.18 has none that are sheared and draws
them otherwise (a test of the reader has one by hand).
"""
import json
import random
import sys

import ezdxf
from ezdxf import colors
from ezdxf.disassemble import recursive_decompose
from ezdxf.lldxf.encoding import decode_dxf_unicode

DISTANCE, FINE = 0.02, 0.0001


def curves(layout, old, rnd, name):
    """Adds every curve, each on a layer of its own, from above and from behind."""
    count = 0

    def marks(flip=False):
        nonlocal count
        count += 1
        made = {"layer": "%s-%d" % (name, count)}
        if flip:
            made["extrusion"] = (0, 0, -1)
        return made

    def at(size=120):
        return (rnd.uniform(-size, size), rnd.uniform(-size, size))

    layout.add_line(at(), at(), dxfattribs=marks())
    layout.add_point(at(), dxfattribs=marks())
    for flip in (False, True):
        layout.add_circle(at(), rnd.uniform(1, 80), dxfattribs=marks(flip))
        layout.add_arc(at(), rnd.uniform(1, 80), rnd.uniform(-360, 360), rnd.uniform(-360, 360),
                       dxfattribs=marks(flip))
        bulges = [at() + (rnd.choice([0, rnd.uniform(-3, 3), rnd.uniform(-.2, .2)]),) for _ in range(6)]
        for close in (False, True):
            layout.add_polyline2d(bulges, format="xyb", close=close, dxfattribs=marks(flip))
            if not old:
                layout.add_lwpolyline(bulges, format="xyb", close=close, dxfattribs=marks(flip))
    layout.add_polyline3d([at() + (7,) for _ in range(5)], dxfattribs=marks())
    if old:
        return
    for flip in (False, True):
        layout.add_ellipse(at(), at(80), rnd.uniform(.1, 1), dxfattribs=marks(flip))
        layout.add_ellipse(at(), at(80), rnd.uniform(.1, 1), rnd.uniform(0, 6), rnd.uniform(0, 6),
                           dxfattribs=marks(flip))
    for degree in (2, 3, 4, 5):
        layout.add_open_spline([at() for _ in range(8)], degree=degree, dxfattribs=marks())
        layout.add_rational_spline([at() for _ in range(8)], [rnd.uniform(.2, 5) for _ in range(8)],
                                   degree=degree, dxfattribs=marks())
    layout.add_spline_control_frame([at() for _ in range(7)], dxfattribs=marks())
    layout.add_cad_spline_control_frame([at() for _ in range(7)], dxfattribs=marks())
    # a sleeve: a cap of a spline, and its sides
    sleeve = marks()
    layout.add_open_spline([(0, 0), (60, 20), (110, 140), (200, 150), (290, 140), (340, 20), (400, 0)],
                           dxfattribs=sleeve)
    layout.add_lwpolyline([(400, 0), (330, -450), (70, -450), (0, 0)], dxfattribs=sleeve)


def flat(e, distance):
    """An entity as lines."""
    kind = e.dxftype()
    if kind == "LINE":
        return [[e.dxf.start, e.dxf.end]]
    if kind in ("CIRCLE", "ARC"):
        return [list(e.flattening(distance))]
    if kind in ("ELLIPSE", "SPLINE"):  # it looks at the middle of each chord alone: begin with short ones
        return [list(e.flattening(distance, 64))]
    if kind in ("POLYLINE", "LWPOLYLINE"):
        return [flat(part, distance)[0] for part in e.virtual_entities()]
    if kind == "POINT":
        return [[e.dxf.location]]
    return []


def area(parts):
    """The area within lines that follow each other, whichever way round each is; None: open."""
    ring = list(parts[0])
    if len(parts) > 1 and min(ring[-1].distance(parts[1][0]), ring[-1].distance(parts[1][-1])) > 1e-6:
        ring.reverse()
    for part in parts[1:]:
        part = list(part)
        if ring[-1].distance(part[0]) > ring[-1].distance(part[-1]):
            part.reverse()
        ring += part[1:]
    if ring[0].distance(ring[-1]) > 1e-6 or len(ring) < 4:
        return None
    return sum(p.x * q.y - q.x * p.y for p, q in zip(ring, ring[1:])) / 2


def write(version, number, folder):
    rnd = random.Random(number + 1)
    doc = ezdxf.new(version, setup=True)
    doc.header["$INSUNITS"] = 4
    old = version == "R12"
    msp = doc.modelspace()
    curves(msp, old, rnd, "own")
    piece = doc.blocks.new("PIECE", base_point=(5, 7))
    curves(piece, old, rnd, "piece")
    for name, scale in (("OUTER", -2), ("STRETCHED", 1)):
        outer = doc.blocks.new(name)
        outer.add_blockref("PIECE", (50, 60), dxfattribs={"xscale": 1.5, "yscale": -.5,
                                                          "rotation": 20 if name == "OUTER" else 0})
        curves(outer, old, rnd, name.lower())
        msp.add_blockref(name, (100, -900), dxfattribs={
            "xscale": -2, "yscale": abs(scale), "rotation": 75, "column_count": 2, "row_spacing": 700,
            "column_spacing": 300})
    msp.add_blockref("PIECE", (300, 200), dxfattribs={"rotation": 10, "extrusion": (0, 0, -1)})
    for index in range(1, 256):
        msp.add_line((0, 0), (index, 1), dxfattribs={"layer": "aci", "color": index})
    said = ["Größe 38", "юбка 45%%d", "plain", "50%%%"]
    for text in said:
        msp.add_text(text, dxfattribs={"insert": (1, 2)})
    if not old:
        for text in (r"{\fArial|b0;Piece Name:} collar\PSize: \C1;\H2x;38", r"a\\b \{x\} \Lline\l é"):
            msp.add_mtext(text)
    name = "%s/%s.dxf" % (folder, version)
    doc.saveas(name)
    return name


def told(name):
    doc = ezdxf.readfile(name)
    msp = doc.modelspace()
    layers = {}
    for e in recursive_decompose(msp):
        if e.dxf.layer != "aci":
            for line in flat(e, DISTANCE):
                layers.setdefault(e.dxf.layer, []).append([[p[0], p[1]] for p in line])
    areas = {}
    for e in msp:
        if e.dxf.layer.startswith("own"):
            areas.setdefault(e.dxf.layer, []).extend(flat(e, FINE))
    areas = {layer: area(parts) for layer, parts in areas.items() if parts}
    return {"file": name, "layers": layers, "areas": {k: v for k, v in areas.items() if v is not None},
            "texts": [decode_dxf_unicode(t.plain_text()) for t in msp.query("TEXT MTEXT")],
            "colours": ["#%02x%02x%02x" % tuple(colors.aci2rgb(i)) for i in range(1, 256)]}


for number, version in enumerate(["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]):
    print(json.dumps(told(write(version, number, sys.argv[1]))))
