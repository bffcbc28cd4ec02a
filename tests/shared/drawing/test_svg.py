"""SVG measured by an independent reader: area and length of the outline, size on paper, escaping, bytes."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ET
from typing import Any

import pytest
import svgpathtools
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing.lettering import FONT
from edgewright.drawing.svg import drawn_box, svg_text
from edgewright.drawing.view import Circle, Dimension, Face, Hatch, Layer, Loop, Note, Segment, Vertex, View

WIDE = Layer("WIDE", "edge", 0.7, "continuous", False)
DASHED = Layer("DASHED", "covered", 0.5, "dashed", False)
CHAIN = Layer("CHAIN", "guide", 0.25, "long dash dot", False)
SVG = "{http://www.w3.org/2000/svg}"

#: tan(90° / 4), the bulge of a quarter circle
QUARTER = math.sqrt(2) - 1


def view(*shapes: Any, layer: Layer = WIDE) -> View:
    return View("v", "v", tuple((layer.name, shape) for shape in shapes), (layer,))


def rounded(length: float, width: float, r: float) -> Loop:
    x, y = length, width
    vertices: tuple[Vertex, ...] = (
        (r, 0, 0), (x - r, 0, QUARTER), (x, r, 0), (x, y - r, QUARTER),
        (x - r, y, 0), (r, y, QUARTER), (0, y - r, 0), (0, r, QUARTER),
    )  # fmt: skip
    return Loop(vertices)


def written(v: View, **more: Any) -> str:
    return svg_text(v, title="t", description="d", **more)


def tree(v: View, **more: Any) -> ET.Element:
    return ET.fromstring(written(v, **more))


def measured(v: View) -> Any:
    paths = [element.get("d") for element in tree(v).iter(f"{SVG}path")]
    assert len(paths) == 1
    return svgpathtools.parse_path(paths[0])


def enclosed(path: Any) -> float:
    """Signed area by Green's theorem, exact for lines and circular arcs; y points down."""
    total = 0.0
    for segment in path:
        a, b = segment.start, segment.end
        total += (a.real * b.imag - b.real * a.imag) / 2
        if isinstance(segment, svgpathtools.Arc):
            turn = math.radians(segment.delta)
            total += segment.radius.real**2 * (turn - math.sin(turn)) / 2
    return total


@pytest.mark.reference
def test_outline_of_the_reference_part_has_its_area_and_length():
    # 2286 x 1066.8 less four corners of (1 - pi / 4) 50²; four quarter circles are one circle
    area = 2286 * 1066.8 - (4 - math.pi) * 50**2
    length = 2 * (2286 + 1066.8) - 8 * 50 + 2 * math.pi * 50
    assert area == pytest.approx(2436558.7816, abs=1e-4)
    assert length == pytest.approx(6619.75927, abs=1e-5)

    path = measured(view(rounded(2286, 1066.8, 50)))

    assert path.isclosed()
    assert sum(isinstance(segment, svgpathtools.Arc) for segment in path) == 4
    assert -enclosed(path) == pytest.approx(area, abs=1e-3)
    assert sum(segment.length() for segment in path) == pytest.approx(length, abs=1e-5)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(-6, 6), st.floats(0.5, 500))
def test_a_bulged_edge_keeps_its_side_and_length(bulge: float, chord: float):
    if abs(bulge) < 0.01:
        bulge = 0.01
    path = measured(view(Loop(((0, 0, bulge), (chord, 0, 0)))))
    turn = 4 * math.atan(abs(bulge))
    radius = chord * (1 + bulge**2) / (4 * abs(bulge))
    middle = path[0].point(0.5) - (path[0].start + path[0].end) / 2
    # a positive bulge turns left, so it runs below the chord: on the page that is further down
    assert middle.imag == pytest.approx(chord * bulge / 2, rel=1e-3, abs=1e-3)
    assert path[0].length() == pytest.approx(radius * turn, rel=1e-3)


@pytest.mark.example
def test_size_on_paper_is_the_view_box_in_millimetres():
    # lines 0.7 wide reach 0.35 beyond the outline, and 1 mm of paper is left around
    root = tree(view(rounded(100, 60, 5)))
    assert (root.get("width"), root.get("height")) == ("102.7mm", "62.7mm")
    assert root.get("viewBox") == "0 0 102.7 62.7"
    given = tree(view(rounded(100, 60, 5)), box=(0, 0, 180, 110))
    assert (given.get("width"), given.get("viewBox")) == ("180mm", "0 0 180 110")


@pytest.mark.example
def test_y_points_down_on_the_page():
    root = tree(view(Segment(10, 20, 30, 50)), box=(0, 0, 100, 100))
    assert next(root.iter(f"{SVG}path")).get("d") == "M10,80L30,50"


@pytest.mark.reference
@pytest.mark.parametrize(
    ("layer", "dashes"),
    [(WIDE, None), (DASHED, [6.0, 1.5]), (CHAIN, [6.0, 0.75, 0.125, 0.75])],
)
def test_line_widths_and_dashes_are_those_of_iso_128(layer: Layer, dashes: list[float] | None):
    # ISO 128-2: dash 12 d, gap 3 d; long dash 24 d, dot at most 0.5 d
    group = next(
        g
        for g in tree(view(Segment(0, 0, 9, 0), layer=layer)).iter(f"{SVG}g")
        if g.get("class") == layer.name
    )
    assert float(group.get("stroke-width", "")) == layer.line_width_mm
    pattern = group.get("stroke-dasharray")
    assert (pattern and [float(dash) for dash in pattern.split()]) == dashes


@pytest.mark.example
def test_markup_in_any_text_is_only_text():
    nasty = 'a <b> & "c" \u0001 Ü'
    text = svg_text(view(Note(0, 0, 4, nasty)), title=nasty, description=nasty)
    root = ET.fromstring(text)
    # what XML cannot hold becomes the replacement character
    expected = nasty.replace("\u0001", "\ufffd")
    assert root.findtext(f"{SVG}title") == expected
    assert root.findtext(f"{SVG}desc") == expected
    note = next(root.iter(f"{SVG}text"))
    assert note.text == expected
    assert note.get("font-size") == "4"
    assert FONT in text
    assert not list(root.iter(f"{SVG}b"))


@pytest.mark.example
def test_turned_text_turns_about_its_anchor():
    note = next(tree(view(Note(10, 20, 4, "up", "middle", 90)), box=(0, 0, 50, 50)).iter(f"{SVG}text"))
    assert (note.get("x"), note.get("y"), note.get("text-anchor")) == ("10", "30", "middle")
    assert note.get("transform") == "rotate(-90 10 30)"


@pytest.mark.reference
def test_arrowheads_are_filled_and_three_times_as_long_as_wide():
    # ASME Y14.2 and ISO 129-1: about 3:1
    root = tree(view(Dimension(0, 0, 50, 0, 10, "50", 4)), box=(0, 0, 60, 20))
    heads = list(root.iter(f"{SVG}polygon"))
    assert len(heads) == 2
    for head in heads:
        tip, a, b = (complex(*map(float, point.split(","))) for point in head.get("points", "").split())
        assert abs(tip - (a + b) / 2) / abs(a - b) == pytest.approx(3, rel=1e-3)
        assert head.get("fill") == "#000000"
    tips = sorted(float(head.get("points", "").split(",")[0]) for head in heads)
    assert tips == [0, 50]
    assert next(root.iter(f"{SVG}text")).text == "50"


@pytest.mark.example
def test_a_hatch_is_lines_inside_its_loop():
    loop = rounded(40, 20, 5)
    path = measured(view(Hatch(loop, 45, 2)))
    assert len(path) > 10
    for segment in path:
        assert isinstance(segment, svgpathtools.Line)
        for end in (segment.start, segment.end):
            assert 1 - 1e-3 <= end.real <= 42
    # lines 2 apart cover an area: their length times their distance, within a few per cent
    area = 40 * 20 - (4 - math.pi) * 5**2
    assert sum(segment.length() for segment in path) * 2 == pytest.approx(area, rel=0.05)


@pytest.mark.example
def test_faces_are_filled_with_their_grey_and_have_no_edge():
    groups = [
        group
        for group in tree(view(Face(rounded(10, 10, 2), 0.5))).iter(f"{SVG}g")
        if group.get("stroke") == "none"
    ]
    ((face,),) = groups
    assert face.get("fill") == "#808080"


@pytest.mark.property
def test_a_face_of_many_corners_stays_where_it_is():
    """Points run from one to the next in whole hundredths, so that no error grows along the way."""
    loop = Loop(tuple((20 + 7.123456 * n % 19, 3 + n / 7, 0.0) for n in range(40)))
    (group,) = (g for g in tree(view(Face(loop, 0.5))).iter(f"{SVG}g") if g.get("stroke") == "none")
    path = svgpathtools.parse_path(group[0].get("d"))
    box = drawn_box(view(Face(loop, 0.5)))
    for segment, (x, y, _) in zip(path, loop.vertices, strict=True):
        assert segment.start.real == pytest.approx(x - box[0] + 1, abs=0.0051)
        assert segment.start.imag == pytest.approx(box[3] + 1 - y, abs=0.0051)


@pytest.mark.example
def test_lines_that_meet_are_one_line_and_others_are_not():
    path = next(tree(view(Segment(0, 0, 5, 0), Segment(5, 0, 5, 5), Segment(0, 1, 1, 2))).iter(f"{SVG}path"))
    assert path.get("d") == "M1.35,6.35L6.35,6.35L6.35,1.35M1.35,5.35L2.35,4.35"


@pytest.mark.example
def test_same_view_same_bytes_and_no_number_is_long_or_negative_nothing():
    v = view(rounded(1 / 3, 1e-9 + 1 / 7, 0.01), Circle(-1e-9, 0, 1 / 3), Segment(0, 0, 1e-5, 1))
    text = written(v)
    assert text == written(v)
    assert not re.search(r"\de-?\d", text)
    assert "-0 " not in text
    assert "-0," not in text


@pytest.mark.example
def test_shapes_without_a_layer_are_refused():
    with pytest.raises(ValueError, match="unknown layers"):
        written(View("v", "v", (("NOWHERE", Segment(0, 0, 1, 1)),), (WIDE,)))
    with pytest.raises(ValueError, match="no shapes"):
        written(View("v", "v", (), (WIDE,)))


@pytest.mark.example
def test_drawn_box_counts_text_and_line_widths():
    x0, y0, x1, y1 = drawn_box(view(Segment(0, 0, 10, 0), Note(20, 5, 4, "HHHH")))
    assert (x0, y0) == (-0.35, -0.35)
    # an H is 1386 / 2048 of the height wide
    assert x1 == pytest.approx(20 + 4 * 4 * 1386 / 2048)
    assert y1 > 5 + 0.72 * 4


@pytest.mark.example
def test_a_half_circle_stays_where_it_is():
    """Bulge 1 on a chord of 1.6875: the radius 0.84375 has five decimals."""
    path = measured(view(Loop(((0, 0, 1.0), (1.6875, 0, 0)))))
    middle = path[0].point(0.5) - (path[0].start + path[0].end) / 2
    assert middle.imag == pytest.approx(1.6875 / 2, abs=1e-3)
