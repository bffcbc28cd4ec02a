"""The cut drawing against areas and positions worked out on paper, in inches from the old corner."""

from __future__ import annotations

import dataclasses
import io
import math
from functools import cache
from typing import Any

import ezdxf
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.cut_view import cut_view, lane_shape
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan, Piece
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.drawing.audit import audit_view
from edgewright.drawing.dxf import dxf_text
from edgewright.drawing.view import Loop, Note, Segment, View
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "Küche, table ½"
[top]
length = "{length}"
width = "{width}"
thickness = "23/32 in"
material = "plywood"
[trim]
{trim}
[edge]
strip_width = "1 7/8 in"
corner_radius = "{radius}"
corners = "{corners}"
[saw]
kerf = "1/8 in"
[[stock]]
name = "planed board"
length = "96 in"
width = "8 in"
thickness = "23/32 in"
price = 20
count = 2
"""


@cache
def planned(
    length: str = "72 in",
    width: str = "42 in",
    trim: str = 'north = "6 in"',
    radius: str = "0 in",
    corners: str = "butt",
) -> tuple[Design, CutPlan, View]:
    job = parse_job(JOB.format(length=length, width=width, trim=trim, radius=radius, corners=corners))
    design = build_design(job)
    plan = make_cut_plan(design)
    return design, plan, cut_view(design, plan, "k7m2")


def inches(view: View, layer: str) -> list[shapely.Polygon]:
    return [
        shapely.Polygon([(x / 25.4, y / 25.4) for x, y, _ in shape.vertices])
        for shape in view.on(layer)
        if isinstance(shape, Loop)
    ]


def keep_lines(view: View) -> list[tuple[float, ...]]:
    return [
        tuple(round(v / 25.4, 9) for v in (s.x0, s.y0, s.x1, s.y1))
        for s in view.on("KEEP_LINES")
        if isinstance(s, Segment)
    ]


def box(polygon: shapely.Polygon) -> tuple[float, ...]:
    return tuple(round(value, 9) for value in polygon.bounds)


@pytest.mark.example
def test_narrowed_top_strips_and_kerfs_tile_the_offcut() -> None:
    # 72 x 42 to 72 x 36 off the north, kerf 1/8, strips 1 7/8: three lanes, pitch 2, fill the 6 in exactly
    _, plan, view = planned()
    strips, kerfs = inches(view, "STRIPS"), inches(view, "KERFS")

    assert keep_lines(view) == [(0, 40, 72, 40), (0, 38, 72, 38), (0, 36, 72, 36)]
    assert [box(kerf) for kerf in kerfs] == [
        (0, 40, 72, 40.125), (0, 38, 72, 38.125), (0, 36, 72, 36.125)
    ]  # fmt: skip
    # two sides of 72 run through, two of 36 - 2 x 1 7/8 = 32 1/4 share the third lane with one kerf between
    assert sorted(strip.area for strip in strips) == pytest.approx([32.25 * 1.875] * 2 + [72 * 1.875] * 2)
    [short, shorter] = [strip for strip in strips if strip.area < 100]
    assert short.distance(shorter) == pytest.approx(0.125)
    # what is left of that lane: 72 - 2 x 32 1/4 = 7 1/2, with a kerf on each side of the second piece
    rest = 7.5 * 1.875
    covered = sum(part.area for part in (*strips, *kerfs))
    assert covered + rest == pytest.approx(72 * 6, rel=1e-12)
    assert shapely.union_all([*strips, *kerfs]).area == pytest.approx(covered, rel=1e-12)
    assert {lane.id for stick in plan.sticks if stick.side for lane in stick.lanes} == {
        piece.lane_id for piece in plan.pieces
    }


@pytest.mark.example
def test_kerfs_lie_on_the_waste_side_of_their_keep_lines() -> None:
    _, _, view = planned(trim='north = "6 in"\nwest = "5 in"\nsouth = "2 in"', radius="2 in")
    lines = [line for line in view.on("KEEP_LINES") if isinstance(line, Segment)]
    [finished] = inches(view, "FINISHED_OUTLINE")
    left, bottom, right, top = finished.bounds

    kerfs = inches(view, "KERFS")
    assert len(kerfs) == len(lines) > 3
    for line, kerf in zip(lines, kerfs, strict=True):
        drawn = shapely.LineString([(line.x0 / 25.4, line.y0 / 25.4), (line.x1 / 25.4, line.y1 / 25.4)])
        # the line is one long side of the band, and the finished top lies beyond it
        assert kerf.exterior.distance(drawn.centroid) < 1e-9
        assert kerf.area / drawn.length == pytest.approx(0.125)
        assert kerf.intersection(shapely.box(left, bottom, right, top)).area < 1e-9
        inward = shapely.Point((left + right) / 2, (bottom + top) / 2)
        assert drawn.distance(inward) < kerf.centroid.distance(inward)


@pytest.mark.example
def test_each_cut_crosses_the_panel_as_it_is_then() -> None:
    # north and south rips run the old 72, then the west crosscut runs the 34 that are left, from 2 to 36
    _, _, view = planned(trim='north = "6 in"\nwest = "5 in"\nsouth = "2 in"')
    lines = keep_lines(view)
    rips = [line for line in lines if line[1] == line[3]]
    crosscuts = [line for line in lines if line[0] == line[2]]

    assert {(line[0], line[2]) for line in rips} == {(0, 72)}
    assert (0, 36, 72, 36) in rips
    assert (0, 2, 72, 2) in rips
    assert {(line[1], line[3]) for line in crosscuts} == {(2, 36)}
    assert crosscuts[-1] == (5, 2, 5, 36)


@pytest.mark.example
@pytest.mark.parametrize("corners", ["butt", "pinwheel", "mitre"])
@pytest.mark.parametrize(
    ("length", "width", "trim"),
    [
        ("72 in", "42 in", 'north = "6 in"'),
        ("72 in", "42 in", 'south = "6 in"'),
        ("72 in", "42 in", 'north = "3 in"\nsouth = "4 in"\neast = "3 in"\nwest = "5 in"'),
        ("42 in", "72 in", 'east = "6 in"'),
        ("42 in", "72 in", 'north = "5 in"\nsouth = "4 in"\neast = "3 in"\nwest = "5 in"'),
    ],
)
def test_strips_lie_apart_in_the_offcuts(length: str, width: str, trim: str, corners: str) -> None:
    _, plan, view = planned(length, width, trim, "0 in", corners)
    strips, kerfs = inches(view, "STRIPS"), inches(view, "KERFS")
    [finished], [old] = inches(view, "FINISHED_OUTLINE"), inches(view, "OLD_OUTLINE")

    assert audit_view(view) == ()
    assert strips
    offcut_lanes = {lane.id for stick in plan.sticks if stick.side for lane in stick.lanes}
    assert len(strips) == sum(piece.lane_id in offcut_lanes for piece in plan.pieces)
    kept = [finished, *kerfs]
    for number, strip in enumerate(strips):
        assert strip.exterior.is_ccw
        assert old.buffer(1e-9).covers(strip)
        assert all(strip.intersection(other).area < 1e-9 for other in (*kept, *strips[number + 1 :]))
        # nothing is cut closer to the next strip than the blade is wide
        assert all(strip.distance(other) >= 0.125 - 1e-9 for other in strips[number + 1 :])
    # a mitre takes a triangle of width x width / 2 off its end; the strip is as wide as its lane
    widths = {lane.id: lane.width_ticks / 8128 for stick in plan.sticks if stick.side for lane in stick.lanes}
    expected = [
        piece.length_ticks / 8128 * width - [piece.start_cut, piece.end_cut].count("mitre") * width**2 / 2
        for piece in plan.pieces
        for width in [widths.get(piece.lane_id)]
        if width is not None
    ]
    assert sorted(strip.area for strip in strips) == pytest.approx(sorted(expected), rel=1e-9)


def piece(length: int, start: int, cuts: tuple[Any, Any], *, turned: bool = False) -> Piece:
    return Piece("N1", "N1", "lane", length, 0, start, *cuts, turned)


@pytest.mark.example
def test_mitred_pieces_are_trapezoids_and_nest_turned() -> None:
    mitres = ("mitre", "mitre")
    assert lane_shape(piece(100, 10, ("square", "square")), 20) == ((10, 0), (110, 0), (110, 20), (10, 20))
    assert lane_shape(piece(100, 0, mitres), 20) == ((0, 0), (100, 0), (80, 20), (20, 20))
    # the next one starts 20 - 4 before the end of the first: 4 is the blade along the lane at 45°
    assert lane_shape(piece(60, 84, mitres, turned=True), 20) == ((104, 0), (124, 0), (144, 20), (84, 20))
    # spliced piece with one mitre: turned end for end its mitre comes last
    assert lane_shape(piece(100, 0, ("mitre", "square")), 20) == ((0, 0), (100, 0), (100, 20), (20, 20))
    turned = lane_shape(piece(100, 0, ("mitre", "square"), turned=True), 20)
    assert turned == ((0, 0), (80, 0), (100, 20), (0, 20))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.integers(50, 4000), st.integers(50, 4000), st.integers(10, 24), st.integers(1, 5))
def test_nested_mitres_keep_the_kerf(first: int, second: int, width: int, kerf: int) -> None:
    # along the lane the blade takes its width times the root of 2, rounded up to whole ticks
    along = math.ceil(kerf * math.sqrt(2))
    a = shapely.Polygon(lane_shape(piece(first, 0, ("mitre", "mitre")), width))
    start = first - width + along
    b = shapely.Polygon(lane_shape(piece(second, start, ("mitre", "mitre"), turned=True), width))

    assert a.distance(b) == pytest.approx(along / math.sqrt(2), rel=1e-12)
    assert a.distance(b) >= kerf
    assert a.area == (first - width) * width
    # turning end for end about its middle gives the same shape
    assert shapely.affinity.rotate(b, 180).area == pytest.approx(b.area)


@pytest.mark.example
def test_kerf_that_runs_off_the_panel_is_clipped_or_left_out() -> None:
    design, plan, _ = planned()

    def with_old_width(extra: float) -> list[shapely.Polygon]:
        # only the last cut, in a panel that is barely wider than its keep line
        old = (plan.old_ticks[0], plan.finished_ticks[1] + round(extra * 8128))
        changed = dataclasses.replace(plan, old_ticks=old, cuts=(plan.cuts[-1],), pieces=())
        return inches(cut_view(design, changed, "k7m2"), "KERFS")

    [clipped] = with_old_width(1 / 16)
    assert box(clipped) == (0, 36, 72, 36.0625)
    assert with_old_width(0) == []
    [whole] = with_old_width(1)
    assert box(whole) == (0, 36, 72, 36.125)


@pytest.mark.example
def test_notes_say_what_is_drawn_and_what_is_not() -> None:
    _, plan, view = planned()
    texts = [shape.text for shape in view.on("REFERENCE") if isinstance(shape, Note)]
    assert texts[::-1] == [
        "Kuche, table 1/2",
        "plan k7m2",
        "seen from above, face up",
        "FINISHED_OUTLINE is the finished edge, not offset for the tool: cut outside it, on the waste side",
    ]
    assert all(note.y / 25.4 > 42 for note in view.on("REFERENCE") if isinstance(note, Note))

    # 2 in give one lane of 72: the other sides come from boards
    _, plan, view = planned(trim='north = "2 in"')
    texts = [shape.text for shape in view.on("REFERENCE") if isinstance(shape, Note)]
    offcut_lanes = {lane.id for stick in plan.sticks if stick.side for lane in stick.lanes}
    elsewhere = [piece.id for piece in plan.pieces if piece.lane_id not in offcut_lanes]
    [note] = [text for text in texts if "not drawn here" in text]
    assert elsewhere
    assert "planed board" in note
    assert all(name in note for name in elsewhere)
    assert len(view.on("STRIPS")) == len(plan.pieces) - len(elsewhere)


@pytest.mark.example
def test_outlines_fill_their_nominal_boxes() -> None:
    design, plan, view = planned(trim='north = "6 in"\nwest = "5 in"', radius="2 in")
    assert audit_view(view) == ()
    [finished] = [shape for shape in view.on("FINISHED_OUTLINE") if isinstance(shape, Loop)]
    assert sum(bulge != 0 for _, _, bulge in finished.vertices) == 4
    # a plan for another size is caught before a file is written
    wrong = dataclasses.replace(plan, finished_ticks=(plan.finished_ticks[0], plan.finished_ticks[1] + 127))
    assert any("its nominal box" in fault for fault in audit_view(cut_view(design, wrong, "k7m2")))


@pytest.mark.example
@pytest.mark.parametrize("dialect", ["R2000", "R12"])
def test_file_of_the_narrowed_top_reads_back_in_inches(dialect: Any) -> None:
    _, _, view = planned(radius="2 in")
    document = ezdxf.read(io.StringIO(dxf_text(view, "in", dialect)))
    keep = document.modelspace().query('LINE[layer=="KEEP_LINES"]')

    assert not document.audit().errors
    assert [line.dxf.start.y for line in keep] == [40.0, 38.0, 36.0]
    assert [line.dxf.end.x for line in keep] == [72.0, 72.0, 72.0]
    assert {e.dxf.layer for e in document.modelspace().query("TEXT")} == {"REFERENCE"}
    if dialect == "R2000":
        assert len(document.modelspace().query('LWPOLYLINE[layer=="STRIPS"]')) == 4
    else:
        arcs = document.modelspace().query('ARC[layer=="FINISHED_OUTLINE"]')
        assert [arc.dxf.radius for arc in arcs] == pytest.approx([2.0] * 4, rel=1e-14)


@pytest.mark.example
def test_defects_are_drawn_and_no_strip_covers_one() -> None:
    """A hole of 1 x 1/2 at 30 from the west and 40 1/2 from the south; a second one under the finished top."""
    hole = '[[top.defects]]\nname = "hole"\nalong = ["{} in", "{} in"]\nacross = ["{} in", "{} in"]\n'
    boxes = hole.format(30, 31, 40.5, 41) + hole.format(10, 11, 20, 21)
    job = JOB.format(length="72 in", width="42 in", trim='north = "6 in"', radius="0 in", corners="butt")
    design = build_design(parse_job(job.replace("[trim]", f"{boxes}[trim]")))
    view = cut_view(design, make_cut_plan(design), "k7m2")
    assert [box(shape) for shape in inches(view, "REFERENCE")] == [(30, 40.5, 31, 41), (10, 20, 11, 21)]
    assert all(
        strip.distance(shapely.box(30, 40.5, 31, 41)) >= 0.125 - 1e-9 for strip in inches(view, "STRIPS")
    )
    assert audit_view(view) == ()
