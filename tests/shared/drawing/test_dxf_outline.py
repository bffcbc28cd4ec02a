"""Outlines read from DXF files: what is taken exactly, and the sentence for what cannot be."""

import math
import os
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing.dxf_outline import DrawingFaultError, Loop, Loops, read_loops

Draw = Callable[[Any], None]
INCH, MM = 1, 4
SQUARE = [(0, 0), (1000, 0), (1000, 500), (0, 500)]


def write(path: Path, draw: Draw, units: int = MM, version: str = "R2000") -> str:
    document = ezdxf.new(version, setup=False, units=units)
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    document.saveas(path)
    return str(path)


def loop_of(points: list[tuple[float, float]], layer: str = "0") -> Draw:
    return lambda space: space.add_lwpolyline(points, close=True, dxfattribs={"layer": layer})


def lines(*points: tuple[float, float]) -> Draw:
    def draw(space: Any) -> None:
        for start, end in pairwise(points):
            space.add_line(start, end)

    return draw


def both(*draws: Draw) -> Draw:
    def draw(space: Any) -> None:
        for each in draws:
            each(space)

    return draw


def area(loop: Loop) -> float:
    """Signed area of a loop (mm²): chords by the shoelace formula, and a circular segment for each bulge."""
    total = 0.0
    for (x, y, bulge), (x1, y1, _) in zip(loop, (*loop[1:], loop[0]), strict=True):
        total += (x * y1 - x1 * y) / 2
        if bulge:
            sweep, chord = 4 * math.atan(bulge), math.hypot(x1 - x, y1 - y)
            radius = chord / (2 * math.sin(abs(sweep) / 2))
            total += math.copysign(radius**2 * (abs(sweep) - math.sin(abs(sweep))) / 2, bulge)
    return total


def fault(path: str, **keys: Any) -> tuple[str, str]:
    with pytest.raises(DrawingFaultError) as caught:
        read_loops(path, **keys)
    assert str(caught.value).isprintable()
    return caught.value.key, str(caught.value)


@pytest.mark.example
@pytest.mark.parametrize("version", ["R12", "R2000", "R2010", "R2018"])
def test_a_racetrack_of_lines_and_arcs_is_chained(tmp_path: Path, version: str) -> None:
    """1000 by 400 mm: 600 * 400 between the ends, and pi * 200² at them; the pieces lie in no order."""

    def draw(space: Any) -> None:
        space.add_arc((800, 200), 200, 270, 90)
        space.add_line((800, 400), (200, 400))
        space.add_line((800, 0), (200, 0))
        space.add_arc((200, 200), 200, 90, 270)

    (loop,) = read_loops(write(tmp_path / "a.dxf", draw, version=version), "mm" if version == "R12" else None)

    assert len(loop) == 4
    assert abs(area(loop)) == pytest.approx(600 * 400 + math.pi * 200**2, rel=1e-9)


@pytest.mark.example
@pytest.mark.parametrize(("units", "mm"), [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0)])
def test_the_unit_of_the_drawing_is_used(tmp_path: Path, units: int, mm: float) -> None:
    size = 1000 / mm
    points = [(0.0, 0.0), (size, 0.0), (size, size), (0.0, size)]
    (loop,) = read_loops(write(tmp_path / "a.dxf", loop_of(points), units))

    assert area(loop) == pytest.approx(1e6, rel=1e-12)


@pytest.mark.example
def test_a_drawing_without_unit_needs_one_and_one_with_another_refuses_it(tmp_path: Path) -> None:
    inches = [(x / 25.4, y / 25.4) for x, y in SQUARE]
    none = write(tmp_path / "none.dxf", loop_of(inches), 0)
    miles = write(tmp_path / "miles.dxf", loop_of(inches), 3)
    inch = write(tmp_path / "inch.dxf", loop_of(inches), INCH)

    assert fault(none) == ("file", '"none.dxf" names no unit: write units = "in" or units = "mm" beside file')
    assert "$INSUNITS 3" in fault(miles)[1]
    assert area(read_loops(none, "in")[0]) == pytest.approx(5e5)
    assert area(read_loops(inch, "in")[0]) == pytest.approx(5e5)
    key, message = fault(inch, units="mm")
    assert key == "units"
    assert '"mm" contradicts the drawing, which is in in' in message
    # read in the wrong unit it would be 39 mm long
    assert fault(none, units="mm")[0] == "units"
    assert "39.37 mm (1.55 in): 6 in to 20 ft is allowed" in fault(none, units="mm")[1]


@pytest.mark.example
def test_circles_and_full_arcs_are_loops(tmp_path: Path) -> None:
    def draw(space: Any) -> None:
        space.add_circle((500, 500), 500)
        space.add_arc((500, 500), 50, 30, 30 + 360)

    loops = read_loops(write(tmp_path / "a.dxf", draw))

    assert sorted(abs(area(loop)) for loop in loops) == pytest.approx([math.pi * 50**2, math.pi * 500**2])


@pytest.mark.example
def test_an_arc_of_more_than_half_a_circle_keeps_its_shape(tmp_path: Path) -> None:
    """Three quarters of a circle and two radii: 3/4 pi r²."""

    def draw(space: Any) -> None:
        space.add_arc((0, 0), 300, 0, 270)
        space.add_line((0, -300), (0, 0))
        space.add_line((0, 0), (300, 0))

    (loop,) = read_loops(write(tmp_path / "a.dxf", draw))

    assert abs(area(loop)) == pytest.approx(0.75 * math.pi * 300**2, rel=1e-9)


@pytest.mark.example
def test_old_polylines_and_entities_seen_from_below_are_read(tmp_path: Path) -> None:
    """With the normal along -z, x is mirrored and arcs turn the other way; the area stays."""
    half = [(9, 0, 0), (1009, 0, 1), (1009, 500, 0), (9, 500, 0)]
    below = {"extrusion": (0, 0, -1)}

    def draw(space: Any) -> None:
        space.add_polyline2d(half, format="xyb", close=True)
        space.add_lwpolyline(half, format="xyb", close=True, dxfattribs=below)
        space.add_circle((700, 700), 100, dxfattribs=below)
        space.add_arc((-2000, 0), 200, 0, 180, dxfattribs=below)
        space.add_line((1800, 0), (2200, 0))

    loops = read_loops(write(tmp_path / "a.dxf", draw))
    areas = [area(loop) for loop in loops]

    bulged = 1000 * 500 + math.pi * 250**2 / 2
    expected = [bulged, -bulged, math.pi * 100**2, math.pi * 200**2 / 2]
    assert areas[:2] == pytest.approx(expected[:2], rel=1e-9)
    assert [abs(a) for a in areas[2:]] == pytest.approx(expected[2:], rel=1e-9)
    assert {x for x, _, _ in loops[1]} == {-9, -1009}
    assert [x for x, _, _ in loops[2]] == pytest.approx([-800, -600])


@pytest.mark.example
def test_only_the_layer_that_is_named_is_read(tmp_path: Path) -> None:
    def notes(space: Any) -> None:
        space.add_text("wall", dxfattribs={"layer": "NOTES"})
        space.add_mtext("wall", dxfattribs={"layer": "TOP"})
        space.add_point((1, 2), dxfattribs={"layer": "TOP"})

    one = write(tmp_path / "one.dxf", both(loop_of(SQUARE, "TOP"), notes))
    two = write(tmp_path / "two.dxf", both(loop_of(SQUARE, "TOP"), lines((0, 0), (9, 9)), notes))

    assert len(read_loops(one)) == len(read_loops(one, layer="top")) == len(read_loops(two, layer="TOP")) == 1
    assert fault(two) == (
        "file",
        '"two.dxf" holds lines or arcs on 2 layers: name one with layer, of "0", "TOP"',
    )
    assert fault(one, layer="NOTES") == (
        "layer",
        '"NOTES" is no layer with lines or arcs in "one.dxf": those are "TOP"',
    )
    assert "no lines or arcs" in fault(write(tmp_path / "empty.dxf", lambda space: None))[1]


def _spline(space: Any) -> None:
    space.add_spline([(1, 2), (300, 4), (500, 600)], dxfattribs={"layer": "CURVE"})


def _block(space: Any) -> None:
    space.doc.blocks.new("TOP").add_line((0, 0), (1, 1))
    space.add_blockref("TOP", (7, 8))


# What is drawn; words of the sentence.
REFUSED: list[tuple[Draw, list[str]]] = [
    (_spline, ["SPLINE", "layer CURVE", "at 1, 2", "explode it to arcs"]),
    (lambda s: s.add_ellipse((3, 4), (500, 0), 0.5), ["ELLIPSE", "at 3, 4", "explode it to arcs"]),
    (_block, ["INSERT", "at 7, 8", "a block: explode it"]),
    (lambda s: s.add_solid([(0, 0), (1, 0), (0, 1)]), ["SOLID", "lines, arcs, circles or polylines"]),
    (lines((0, 0), (600, 0), (600, 300), (0, 300)), ["open", "gap of 300", "0, 0", "0, 300"]),
    (lines((0, 0), (600, 0), (600, 300), (0, 0.5)), ["gap of 0.5 in drawing units (0.5 mm)", "0, 0.5"]),
    (lambda s: s.add_lwpolyline(SQUARE), ["open", "gap of 500", "0, 500"]),
    (both(loop_of(SQUARE), loop_of(SQUARE)), ["twice", "from 0, 0 to 1000, 0", "LWPOLYLINE", "delete one"]),
    (
        both(loop_of(SQUARE), lines((1000, 0), (0, 0))),
        ["twice", "from 1000, 0 to 0, 0", "LINE", "delete one"],
    ),
    (both(loop_of(SQUARE), lines((0, 0), (500, 250))), ["3 edges that meet at 0, 0"]),
    (both(lambda s: s.add_circle((0, 0), 300), lambda s: s.add_circle((0, 0), 300)), ["twice", "CIRCLE"]),
    (lambda s: s.add_line((5, 6), (5, 6)), ["LINE", "no length at 5, 6", "delete it"]),
    (loop_of([*SQUARE, (0, 500)]), ["LWPOLYLINE", "no length at 0, 500"]),
    (lambda s: s.add_line((0, 0, 0), (9, 9, 2)), ["LINE", "z = 2", "flatten"]),
    (lambda s: s.add_circle((0, 0, 3), 300), ["CIRCLE", "z = 3", "flatten"]),
    (lambda s: s.add_lwpolyline(SQUARE, close=True, dxfattribs={"elevation": 4}), ["LWPOLYLINE", "z = 4"]),
    (
        lambda s: s.add_polyline2d(SQUARE, close=True, dxfattribs={"elevation": (0, 0, 5)}),
        ["POLYLINE", "z = 5"],
    ),
    (lambda s: s.add_polyline3d([(0, 0, 0), (9, 9, 9)]), ["POLYLINE", "no flat polyline"]),
    (lambda s: s.add_polyline2d(SQUARE, dxfattribs={"flags": 4}), ["POLYLINE", "smoothed", "explode"]),
    (lambda s: s.add_circle((0, 0), 300, dxfattribs={"extrusion": (0, 1, 0)}), ["CIRCLE", "tilted"]),
    (lambda s: s.add_circle((0, 0), -300), ["CIRCLE", "radius -300"]),
    (lambda s: s.add_lwpolyline([(1, 1)]), ["LWPOLYLINE", "1 vertices"]),
    (lambda s: s.add_line((0, 0), (math.nan, 1)), ["LINE", "no number"]),
    (lines((0, 0), (1e300, 1)), ["LINE", "too large"]),
    (loop_of([(0, 0), (100, 0), (100, 100)]), ["100 mm (3.937 in)", "6 in to 20 ft"]),
    (loop_of([(0, 0), (7000, 0), (100, 100)]), ["7000 mm", "6 in to 20 ft"]),
]


@pytest.mark.example
@pytest.mark.parametrize(("draw", "words"), REFUSED, ids=range(len(REFUSED)))
def test_what_cannot_be_taken_exactly_is_refused_with_its_place(
    tmp_path: Path, draw: Draw, words: list[str]
) -> None:
    key, message = fault(write(tmp_path / "top.dxf", draw))

    assert key == "file"
    for word in ['"top.dxf"', *words]:
        assert word in message, message


@pytest.mark.example
def test_places_are_told_in_the_units_of_the_drawing(tmp_path: Path) -> None:
    points = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 1.0)]
    _, message = fault(write(tmp_path / "top.dxf", lines(*points), INCH))

    assert "a gap of 1 in drawing units (25.4 mm) from 0, 0 to 0, 1" in message


@pytest.mark.example
def test_joints_may_gape_by_what_files_round_off(tmp_path: Path) -> None:
    near, far = 0.0009, 0.0011
    points = [*SQUARE, (0.0, near)]

    assert len(read_loops(write(tmp_path / "a.dxf", lines(*points)))) == 1
    assert "gap of 0.0011" in fault(write(tmp_path / "b.dxf", lines(*SQUARE, (0.0, far))))[1]


@pytest.mark.example
@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "no DXF file"),
        (b"hello\nworld\n", "damaged or another kind"),
        (b"\x00\x01\x02", "no DXF file"),
        (b"AutoCAD Binary DXF\r\n\x1a\x00" + b"\x00" * 50, "binary DXF file: save it as ASCII"),
        (b"AC1032" + b"\x00" * 50, "DWG file: save it as ASCII"),
        (b"  0\nSECTION\n  2\nENTITIES\n  0\nLINE\n 10\nx\n", "damaged or another kind"),
        (b"  0\n" * (1 << 20) + b"0", "larger than 4 MiB"),
    ],
)
def test_files_that_are_no_drawings(tmp_path: Path, data: bytes, words: str) -> None:
    file = tmp_path / "a.dxf"
    file.write_bytes(data)

    assert words in fault(str(file))[1]


@pytest.mark.example
def test_a_missing_file_a_folder_a_pipe_and_an_odd_name(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.dxf")

    assert "is not there" in fault(str(tmp_path / "no.dxf"))[1]
    assert "no plain file" in fault(str(tmp_path))[1]
    assert "no plain file" in fault(str(tmp_path / "pipe.dxf"))[1]
    assert "cannot be read" in fault("a\0b")[1]


@pytest.mark.example
def test_a_flood_of_edges_and_of_gaps_is_refused_at_once(tmp_path: Path) -> None:
    def strokes(count: int) -> Draw:
        return lambda space: [space.add_line((i, 0), (i, 9)) for i in range(count)] and None

    assert "open" in fault(write(tmp_path / "a.dxf", strokes(3000)))[1]
    assert "more than 5000" in fault(write(tmp_path / "b.dxf", strokes(5001)))[1]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.binary(max_size=12), st.integers(0, 4000), st.integers(0, 12))
def test_a_damaged_file_is_read_or_refused(
    tmp_path_factory: pytest.TempPathFactory, put: bytes, at: int, away: int
) -> None:
    base = tmp_path_factory.getbasetemp() / "sound.dxf"
    if not base.exists():
        write(
            base,
            lambda s: s.add_polyline2d([(x, y, 0.1) for x, y in SQUARE], format="xyb", close=True),
            version="R12",
        )
    data = base.read_bytes()
    # near the entities, which stand at the end of the file
    at = max(0, len(data) - at)
    file = tmp_path_factory.getbasetemp() / "damaged.dxf"
    file.write_bytes(data[:at] + put + data[at + away :])

    loops = loops_or_none(str(file))
    assert loops is None or all(math.isfinite(v) for loop in loops for vertex in loop for v in vertex)


def loops_or_none(path: str) -> Loops | None:
    """Return the loops of a file, None for one that is refused; anything else passes through."""
    try:
        return read_loops(path, "mm")
    except DrawingFaultError as error:
        if not str(error):
            raise
        return None


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.permutations(range(6)), st.lists(st.booleans(), min_size=6, max_size=6))
def test_order_and_direction_of_the_pieces_do_not_matter(
    tmp_path_factory: pytest.TempPathFactory, order: list[int], turned: list[bool]
) -> None:
    """A hexagon of side 300 mm: 3/2 root 3 side²."""
    corners = [(300 * math.cos(math.pi * n / 3), 300 * math.sin(math.pi * n / 3)) for n in range(7)]

    def draw(space: Any) -> None:
        for n in order:
            ends = [corners[n], corners[n + 1]]
            space.add_line(*(reversed(ends) if turned[n] else ends))

    (loop,) = read_loops(write(tmp_path_factory.getbasetemp() / "hexagon.dxf", draw))

    assert len(loop) == 6
    assert abs(area(loop)) == pytest.approx(1.5 * math.sqrt(3) * 300**2, rel=1e-9)
