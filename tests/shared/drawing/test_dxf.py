"""DXF files read back by two readers; header figures, layers, both dialects, both units."""

from __future__ import annotations

import io
import math
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import ezdxf
import pyogrio
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing.arcs import bulge_arc, chords, shape_box
from edgewright.drawing.dxf import Dialect, dxf_text
from edgewright.drawing.layers import FINISHED_OUTLINE, KERFS, OLD_OUTLINE, REFERENCE
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.reference import FileUnits
from edgewright.drawing.strokes import dimension_strokes, hatch_strokes
from edgewright.drawing.view import Circle, Dimension, Hatch, Layer, Loop, Note, Segment, View
from edgewright.ticks import ticks_to_mm

DIALECTS: tuple[Dialect, ...] = ("R2000", "R12")
UNITS: tuple[FileUnits, ...] = ("in", "mm")
BOTH = pytest.mark.parametrize("dialect", DIALECTS)
EACH_UNIT = pytest.mark.parametrize("units", UNITS)
MM_PER_UNIT = {"in": 25.4, "mm": 1.0}

#: tan(90° / 4), the bulge of a quarter circle
QUARTER = math.sqrt(2) - 1
LENGTH, WIDTH, RADIUS = 2286.0, 1066.8, 50.0


def reference_part() -> Loop:
    """Rectangle 2286 x 1066.8 with corners R50, counter-clockwise."""
    x, y, r = LENGTH, WIDTH, RADIUS
    return Loop(
        (
            (r, 0, 0), (x - r, 0, QUARTER), (x, r, 0), (x, y - r, QUARTER),
            (x - r, y, 0), (r, y, QUARTER), (0, y - r, 0), (0, r, QUARTER),
        )
    )  # fmt: skip


def reference_view() -> View:
    return View(
        "part",
        "part",
        (
            ("FINISHED_OUTLINE", reference_part()),
            ("FINISHED_OUTLINE", Circle(300, 300, 20)),
            ("OLD_OUTLINE", Segment(-10, -10, 2300, -10)),
            ("REFERENCE", Note(0, 1200, 25, "Küche – 41 5/8″ × 90°", "middle", 90)),
            ("REFERENCE", Dimension(0, 0, LENGTH, 0, -80, "2286", 25)),
            ("KERFS", Hatch(Loop(((0, 0, 0), (300, 0, 0), (300, 10, 0), (0, 10, 0))), 45, 10)),
        ),
        (FINISHED_OUTLINE, OLD_OUTLINE, KERFS, REFERENCE),
    )


def read(text: str) -> Any:
    return ezdxf.read(io.StringIO(text))


def header_value(text: str, name: str) -> str:
    """Value of a header variable straight from the text: name, group code, value."""
    lines = text.splitlines()
    return lines[lines.index(name) + 2].strip()


def features(text: str, folder: Path, step: str) -> list[tuple[str, Any]]:
    """Layer and geometry of each feature as GDAL sees them."""
    path = folder / "part.dxf"
    path.write_text(text, encoding="ascii")
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": step})
    try:
        meta, _, geometry, fields = pyogrio.raw.read(str(path))
    finally:
        pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})
    layers = fields[list(meta["fields"]).index("Layer")]
    return list(zip(layers, shapely.from_wkb(geometry), strict=True))


@pytest.mark.reference
@EACH_UNIT
@BOTH
def test_header_says_the_units(units: FileUnits, dialect: Dialect) -> None:
    # DXF Reference: $INSUNITS 1 inch, 4 millimetre; $MEASUREMENT 0 imperial, 1 metric
    text = dxf_text(reference_view(), units, dialect)

    assert header_value(text, "$INSUNITS") == {"in": "1", "mm": "4"}[units]
    assert header_value(text, "$MEASUREMENT") == {"in": "0", "mm": "1"}[units]
    document = read(text)
    assert document.header["$INSUNITS"] == {"in": 1, "mm": 4}[units]
    assert document.header["$MEASUREMENT"] == {"in": 0, "mm": 1}[units]
    assert document.dxfversion == {"R2000": "AC1015", "R12": "AC1009"}[dialect]


@pytest.mark.example
@EACH_UNIT
@BOTH
def test_reads_back_clean_and_in_ascii(units: FileUnits, dialect: Dialect) -> None:
    text = dxf_text(reference_view(), units, dialect)
    document = read(text)
    auditor = document.audit()

    assert text.isascii()
    assert not auditor.errors
    assert not auditor.fixes
    [note] = [e for e in document.modelspace().query("TEXT") if e.dxf.rotation == 90]
    assert note.dxf.text == 'Kuche - 41 5/8" x 90 deg'


@pytest.mark.reference
def test_bulges_of_the_part_are_those_of_quarter_circles() -> None:
    # DXF Reference, LWPOLYLINE: 90 vertex count, 70 bit 1 closed, 42 bulge = tan(angle / 4)
    # a quarter turn gives 0.414213562373
    [line] = read(dxf_text(reference_view(), "mm")).modelspace().query("LWPOLYLINE")
    points = line.get_points("xyb")

    assert line.closed
    assert len(line) == 8
    assert points[0][:2] != points[-1][:2]
    assert [bulge for _, _, bulge in points] == pytest.approx([0, 0.414213562373] * 4, abs=1e-12)
    assert line.dxf.elevation == 0


@pytest.mark.reference
def test_bulge_facts() -> None:
    # DXF Reference, group code 42: negative clockwise, 1 is half a circle
    # chord 100 √2 with tan(π / 8) is a quarter circle of radius 100; sagitta = chord |bulge| / 2
    bulge, chord = math.tan(math.pi / 8), 100 * math.sqrt(2)
    arc = bulge_arc((0, 0), (chord, 0), bulge)
    assert arc.radius == pytest.approx(100, rel=1e-14)
    assert arc.turn == pytest.approx(math.pi / 2, rel=1e-14)
    assert arc.y - arc.radius == pytest.approx(-chord * bulge / 2, rel=1e-13)

    half = bulge_arc((0, 0), (10, 0), 1.0)
    assert (half.x, half.y, half.radius) == pytest.approx((5, 0, 5), abs=1e-14)
    assert bulge_arc((0, 0), (10, 0), -1.0).turn == -half.turn
    # counter-clockwise from west to east runs below the chord
    assert shape_box(Loop(((0, 0, 1.0), (10, 0, 0.0)))) == pytest.approx((0, -5, 10, 0), abs=1e-14)
    assert shape_box(Loop(((0, 0, -1.0), (10, 0, 0.0)))) == pytest.approx((0, 0, 10, 5), abs=1e-14)


@pytest.mark.example
@EACH_UNIT
def test_r12_chains_lines_and_arcs_into_the_part(units: FileUnits) -> None:
    document = read(dxf_text(reference_view(), units, "R12"))
    entities = list(document.modelspace().query('*[layer=="FINISHED_OUTLINE"]'))
    assert sorted(e.dxftype() for e in entities) == ["ARC"] * 4 + ["CIRCLE"] + ["LINE"] * 4

    scale = MM_PER_UNIT[units]
    chain = [e for e in entities if e.dxftype() != "CIRCLE"]
    ends = [(e.start_point, e.end_point) if e.dxftype() == "ARC" else (e.dxf.start, e.dxf.end) for e in chain]
    # readers chain ends within 1 µm
    for (_, end), (start, _) in zip(ends, [*ends[1:], ends[0]], strict=True):
        assert end.distance(start) * scale < 1e-3
    assert all(
        e.dxf.radius * scale == pytest.approx(RADIUS, rel=1e-14) for e in chain if e.dxftype() == "ARC"
    )


@pytest.mark.reference
@EACH_UNIT
def test_second_reader_measures_the_part(units: FileUnits, tmp_path: Path) -> None:
    # closed forms: area 1066.8 x 2286 - (4 - π) 50², perimeter 2 (1066.8 + 2286) - 8 x 50 + 2 π 50
    area, perimeter = 2436558.7816, 6619.75927
    found = features(dxf_text(reference_view(), units), tmp_path, "0.05")
    scale = MM_PER_UNIT[units]
    [part] = [shape for layer, shape in found if layer == "FINISHED_OUTLINE" and shape.length * scale > 1000]

    assert part.is_closed if part.geom_type == "LineString" else part.geom_type == "Polygon"
    polygon = shapely.Polygon(part.coords) if part.geom_type == "LineString" else part
    assert polygon.area * scale**2 == pytest.approx(area, rel=1e-8)
    assert polygon.length * scale == pytest.approx(perimeter, abs=1e-4)
    x0, y0, x1, y1 = (value * scale for value in polygon.bounds)
    assert (x0, y0, x1, y1) == pytest.approx((0, 0, LENGTH, WIDTH), abs=1e-6)


@pytest.mark.reference
@EACH_UNIT
def test_second_reader_measures_r12(units: FileUnits, tmp_path: Path) -> None:
    found = features(dxf_text(reference_view(), units, "R12"), tmp_path, "0.05")
    scale = MM_PER_UNIT[units]
    lines = [
        shape
        for layer, shape in found
        if layer == "FINISHED_OUTLINE" and not (shape.geom_type == "LineString" and shape.is_closed)
    ]
    assert len(lines) == 8
    assert sum(line.length for line in lines) * scale == pytest.approx(6619.75927, abs=1e-4)
    bounds = shapely.union_all(lines).bounds
    assert [value * scale for value in bounds] == pytest.approx((0, 0, LENGTH, WIDTH), abs=1e-6)


@pytest.mark.example
@EACH_UNIT
@BOTH
def test_cut_layer_holds_no_text_and_the_file_no_curves_to_guess(units: FileUnits, dialect: Dialect) -> None:
    entities = list(read(dxf_text(reference_view(), units, dialect)).modelspace())
    allowed = {"LWPOLYLINE", "CIRCLE", "LINE", "ARC"}

    assert {e.dxftype() for e in entities if e.dxf.layer == "FINISHED_OUTLINE"} <= allowed
    assert {e.dxftype() for e in entities} <= allowed | {"TEXT"}
    assert {e.dxf.layer for e in entities if e.dxftype() == "TEXT"} == {"REFERENCE"}


@pytest.mark.example
@EACH_UNIT
@BOTH
def test_scale_bar_and_unit_note_stand_outside_the_part(units: FileUnits, dialect: Dialect) -> None:
    view = View("part", "part", (("FINISHED_OUTLINE", reference_part()),), (FINISHED_OUTLINE,))
    document = read(dxf_text(view, units, dialect))
    reference = list(document.modelspace().query('*[layer=="REFERENCE"]'))
    lines = [e for e in reference if e.dxftype() == "LINE"]
    texts = [e.dxf.text for e in reference if e.dxftype() == "TEXT"]

    bar = max(lines, key=lambda e: e.dxf.start.distance(e.dxf.end))
    assert bar.dxf.start.distance(bar.dxf.end) == pytest.approx({"in": 4, "mm": 100}[units], rel=1e-12)
    assert all(point.y < 0 for e in lines for point in (e.dxf.start, e.dxf.end))
    assert texts == [
        {"in": "this bar is 4 in long", "mm": "this bar is 100 mm long"}[units],
        {"in": "1 drawing unit = 1 inch", "mm": "1 drawing unit = 1 millimetre"}[units],
        # closed forms 2 (1066.8 + 2286) - 8 x 50 + 2 pi 50 and 1066.8 x 2286 - (4 - pi) 50 x 50, by 25.4 and its square
        {
            "in": "FINISHED_OUTLINE: 1 closed, 0 open, length 260.6204, area 3776.6737",
            "mm": "FINISHED_OUTLINE: 1 closed, 0 open, length 6619.7593, area 2436558.7816",
        }[units],
    ]
    # the note does not change what the cut layer measures
    assert "REFERENCE" in document.layers


@pytest.mark.example
@EACH_UNIT
@BOTH
def test_extents_and_dimension_scale(units: FileUnits, dialect: Dialect) -> None:
    text = dxf_text(reference_view(), units, dialect)
    document = read(text)
    scale = MM_PER_UNIT[units]
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]

    # the old edge begins at x = -10 and ends at 2300; the note's anchor is highest
    assert low[0] * scale == pytest.approx(-10, abs=1e-9)
    assert high[0] * scale == pytest.approx(2300, abs=1e-9)
    assert high[1] * scale == pytest.approx(1200, abs=1e-9)
    # below the part: dimension line at 80 and 0.8 x 25 past it
    # then the bar 3 and the unit note 4 lettering heights of 2310 / 80 further, and 2 for the figures of each layer
    assert low[1] * scale == pytest.approx(-80 - 20 - 13 * 2310 / 80, abs=1e-9)
    if dialect == "R2000":
        assert tuple(document.modelspace().dxf.extmin) == pytest.approx(low)
        assert tuple(document.modelspace().dxf.extmax) == pytest.approx(high)
    assert document.header["$DIMLFAC"] == 1
    assert document.dimstyles.get("Standard").get_dxf_attrib("dimlfac", 1) == 1


@pytest.mark.reference
def test_layers_carry_iso_128_widths_and_types() -> None:
    # ISO 128-2: widths 0.7 and 0.35 are a pair, wide to narrow 2:1; DXF counts hundredths of a millimetre
    layers = read(dxf_text(reference_view(), "mm")).layers

    assert layers.get("FINISHED_OUTLINE").dxf.lineweight == 70
    assert layers.get("OLD_OUTLINE").dxf.lineweight == 35
    assert layers.get("OLD_OUTLINE").dxf.linetype == "LONG_DASH_DOT"
    assert layers.get("KERFS").dxf.linetype == "DASHED"
    assert layers.get("FINISHED_OUTLINE").dxf.linetype.upper() == "CONTINUOUS"


@pytest.mark.example
@BOTH
def test_inch_fractions_are_written_exactly(dialect: Dialect) -> None:
    # every 64th up to 12 ft in mm is a rounded float; the file must hold the fraction itself
    marks = [ticks_to_mm(127 * n) for n in range(1, 64 * 144, 61)]
    shapes = tuple(("OLD_OUTLINE", Segment(0, mark, 100, mark)) for mark in marks)
    document = read(dxf_text(View("v", "v", shapes, (OLD_OUTLINE,)), "in", dialect))
    lines = document.modelspace().query('LINE[layer=="OLD_OUTLINE"]')

    assert [line.dxf.start.y for line in lines] == [n / 64 for n in range(1, 64 * 144, 61)]


BYTES = """
import sys
from edgewright.drawing.dxf import dxf_text
from edgewright.drawing.layers import FINISHED_OUTLINE, OLD_OUTLINE, REFERENCE
from edgewright.drawing.view import Loop, Note, View
loop = Loop(((0, 0, 0), (700, 0, 1), (700, 300, 0), (0, 300, 0)))
shapes = (("FINISHED_OUTLINE", loop), ("OLD_OUTLINE", loop), ("REFERENCE", Note(0, 400, 10, "caf\\u00e9")))
view = View("v", "v", shapes, (FINISHED_OUTLINE, OLD_OUTLINE, REFERENCE))
for units in ("in", "mm"):
    for dialect in ("R2000", "R12"):
        sys.stdout.write(dxf_text(view, units, dialect))
"""


@pytest.mark.example
def test_same_bytes_whatever_the_hash_order_and_the_time_zone() -> None:
    running = [
        subprocess.Popen(
            [sys.executable, "-c", BYTES],
            env=os.environ | {"PYTHONHASHSEED": hash_order, "TZ": zone},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        for hash_order, zone in (("0", "UTC"), ("1", "Pacific/Auckland"), ("4242", "America/St_Johns"))
    ]
    written = [process.communicate() for process in running]

    assert {errors for _, errors in written} == {b""}
    [text] = {output for output, _ in written}
    assert text.count(b"$ACADVER") == 4


@pytest.mark.example
def test_no_date_of_today_in_the_file() -> None:
    for dialect in DIALECTS:
        text = dxf_text(reference_view(), "in", dialect)
        assert dxf_text(reference_view(), "in", dialect) == text
        stamps = [line for line in text.splitlines() if line.count(":") >= 2]
        assert all("2000-01-01T00:00:00" in stamp for stamp in stamps)


@pytest.mark.example
def test_unknown_layer_is_refused() -> None:
    view = View("v", "v", (("NOWHERE", Segment(0, 0, 1, 1)),), (OLD_OUTLINE,))
    with pytest.raises(KeyError, match="NOWHERE"):
        dxf_text(view, "mm")


@pytest.mark.example
@pytest.mark.parametrize(
    ("text", "plain"),
    [
        ("1½ × 2¾ in", "1 1/2 x 2 3/4 in"),
        ("Müller & Søn", "Muller & Son"),
        ("41′ – 6″", "41' - 6\""),
        ("two\nlines\tand", "two lines and"),
        ("木 100%%c ^J C:\\U+0041", "? 100% %c 'J C:/U+0041"),
    ],
)
def test_text_is_spelled_in_plain_ascii(text: str, plain: str) -> None:
    assert plain_ascii(text) == plain


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.text(max_size=40))
def test_any_text_becomes_printable_ascii(text: str) -> None:
    plain = plain_ascii(text)
    assert all(" " <= c <= "~" for c in plain)
    assert plain_ascii(plain) == plain


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(
    st.floats(20, 3000), st.floats(20, 2000), st.floats(0.05, 0.95), st.sampled_from(UNITS),
    st.floats(-500, 500), st.floats(-500, 500),
)  # fmt: skip
def test_r12_and_r2000_hold_the_same_length(
    length: float, width: float, share: float, units: FileUnits, x: float, y: float
) -> None:
    # one round end outwards, one inwards: both signs of the bulge
    loop = Loop(((x, y, 0), (x + length, y, share), (x + length, y + width, 0), (x, y + width, -share)))
    view = View("v", "v", (("FINISHED_OUTLINE", loop),), (FINISHED_OUTLINE,))
    lengths = []
    for dialect in DIALECTS:
        total = 0.0
        for entity in read(dxf_text(view, units, dialect)).modelspace().query('*[layer=="FINISHED_OUTLINE"]'):
            parts = entity.virtual_entities() if entity.dxftype() == "LWPOLYLINE" else [entity]
            for part in parts:
                if part.dxftype() == "LINE":
                    total += part.dxf.start.distance(part.dxf.end)
                else:
                    turn = (part.dxf.end_angle - part.dxf.start_angle) % 360
                    total += part.dxf.radius * math.radians(turn)
        lengths.append(total * MM_PER_UNIT[units])
    # arc length = radius x turn, chord = 2 radius sin(turn / 2), turn = 4 atan(bulge)
    turn = 4 * math.atan(share)
    arc = width / (2 * math.sin(turn / 2)) * turn
    assert lengths == pytest.approx([2 * length + 2 * arc] * 2, rel=1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(-0.999, 0.999).filter(lambda b: abs(b) > 1e-3), st.floats(1, 500), st.floats(0, 6.3))
def test_chords_and_box_follow_the_arc(bulge: float, chord: float, angle: float) -> None:
    end = (chord * math.cos(angle), chord * math.sin(angle))
    loop = Loop(((0, 0, bulge), (*end, 0)))
    points = chords(loop, 0.001)
    arc = bulge_arc((0, 0), end, bulge)

    assert all(math.dist(point, (arc.x, arc.y)) == pytest.approx(arc.radius, rel=1e-9) for point in points)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    assert shape_box(loop) == pytest.approx((min(xs), min(ys), max(xs), max(ys)), abs=2e-3)


@pytest.mark.example
def test_dimension_is_taken_apart() -> None:
    # 100 long, line 20 to the left, lettering 5: arrows 5 long and 5/3 wide, extension lines to 20 + 0.8 x 5
    lines, note = dimension_strokes(Dimension(0, 0, 100, 0, 20, "100", 5))
    assert Segment(0, 20, 100, 20) in lines
    assert Segment(0, 1, 0, 24) in lines
    assert len(lines) == 7
    assert {round(abs(s.y1 - 20), 9) for s in lines if (s.x0, s.y0) == (0, 20) and s.x1 == 5} == {
        round(5 / 6, 9)
    }
    assert (note.x, note.y, note.text, note.anchor, note.angle) == (50, 22, "100", "middle", 0)

    # measured from right to left the text still stands upright, above its line
    _, turned = dimension_strokes(Dimension(100, 0, 0, 0, -20, "100", 5))
    assert (turned.x, turned.y) == pytest.approx((50, 22))
    assert turned.angle == 0


@pytest.mark.example
def test_hatch_fills_the_loop_and_leaves_a_notch_free() -> None:
    # a 40 x 30 rectangle with a 20 x 10 notch from the top; a line every 5: 4 full rows, 2 rows in two parts
    loop = Loop(
        ((0, 1, 0), (40, 1, 0), (40, 31, 0), (30, 31, 0), (30, 21, 0), (10, 21, 0), (10, 31, 0), (0, 31, 0))
    )
    lines = hatch_strokes(Hatch(loop, 0, 5))
    assert [(s.x0, s.y0, s.x1) for s in lines] == [
        (0, 5, 40), (0, 10, 40), (0, 15, 40), (0, 20, 40),
        (0, 25, 10), (30, 25, 40), (0, 30, 10), (30, 30, 40),
    ]  # fmt: skip


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=50)
@given(st.floats(-180, 180), st.floats(20, 200))
def test_hatch_of_a_circle_covers_its_area(angle: float, radius: float) -> None:
    # lines times spacing is the area, but for the ends of the rows
    loop = Loop(((-radius, 0, 1), (radius, 0, 1)))
    lines = hatch_strokes(Hatch(loop, angle, radius / 100))
    total = sum(math.hypot(s.x1 - s.x0, s.y1 - s.y0) for s in lines) * radius / 100
    assert total == pytest.approx(math.pi * radius**2, rel=5e-3)
    assert all(math.hypot(x, y) <= radius + 0.02 for s in lines for x, y in ((s.x0, s.y0), (s.x1, s.y1)))


@pytest.mark.example
def test_layer_constants_are_plain_words() -> None:
    layers: tuple[Layer, ...] = (FINISHED_OUTLINE, OLD_OUTLINE, KERFS, REFERENCE)
    assert all(layer.name.isupper() and layer.name.isascii() and layer.purpose for layer in layers)
    assert not REFERENCE.cut
