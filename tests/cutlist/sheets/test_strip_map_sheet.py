"""The strip map: an underside view, legible in every job, strips where the plan's own map has them."""

from __future__ import annotations

import dataclasses
import re

import pytest
import shapely
from paper_checks import paper_faults, ruled_faults
from sheet_jobs import JOBS, sheet_plan

from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.underside import Underside
from edgewright.design.checks import job_pin_choice
from edgewright.display import show_ticks
from edgewright.drawing.lettering import note_box
from edgewright.drawing.paper import KEEP, PINS
from edgewright.drawing.view import Circle, Hatch, Loop, Note, View

EVERY = pytest.mark.parametrize("name", JOBS)


def texts(view: View) -> list[str]:
    return [shape.text for _, shape in view.shapes if isinstance(shape, Note)]


def rows_of(view: View) -> list[tuple[str, str]]:
    """Name and length of each row of the list: lettering of one size on one line, with a box to tick."""
    head = next(s for _, s in view.shapes if isinstance(s, Note) and s.text == "strip")
    low = [s for _, s in view.shapes if isinstance(s, Note) and s.y < head.y and s.height_mm > 9]
    rows: dict[float, list[Note]] = {}
    for note in low:
        rows.setdefault(round(note.y, 3), []).append(note)
    return [(a.text, b.text) for a, b in (sorted(row, key=lambda n: n.x) for row in rows.values())]


def scale_of(view: View) -> float:
    found = re.search(r"Scale 1:([\d.]+)\. ", " ".join(texts(view)))
    assert found
    return float(found[1])


@pytest.mark.example
@EVERY
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 250.0), (180.0, 233.0), (150.0, 200.0)):
        for view in strip_map_figures(sheet_plan(name), (width, height)):
            assert paper_faults(view, width, height) == []
            assert ruled_faults(view) == []


@pytest.mark.example
@EVERY
def test_every_figure_says_underside_and_names_all_pieces_with_their_length(name: str):
    plan = sheet_plan(name)
    views = strip_map_figures(plan)
    assert len(views) == plan.job.edge.layers
    for view in views:
        assert view.title.startswith("UNDERSIDE")
        assert any(text.startswith("UNDERSIDE") for text in texts(view))
        assert any("face DOWN" in text for text in texts(view))
    listed = [pair for view in views for pair in rows_of(view)]
    expected = [
        (piece.id, show_ticks(piece.length_ticks, plan.job.units, unit=False))
        for piece in plan.cut_plan.pieces
    ]
    assert sorted(listed) == sorted(expected)


@pytest.mark.example
@EVERY
def test_strips_fill_the_boxes_of_the_plans_own_map(name: str):
    # the page works out each piece from its side, the plan's map was checked on its own
    plan = sheet_plan(name)
    under = Underside(plan, 0.0, 0.0, 1.0)
    sides = {side.id: side for side in plan.cut_plan.sides}
    boxes = {strip.piece_id: strip for strip in plan.cut_plan.strip_map}
    for piece in plan.cut_plan.pieces:
        corners = under.corners(sides[piece.side_id], piece)
        strip = boxes[piece.id]
        expected = [t / 320 for t in (strip.x0_ticks, strip.y0_ticks, strip.x1_ticks, strip.y1_ticks)]
        assert list(shapely.Polygon(corners).bounds) == pytest.approx(expected)
        mitres = (piece.start_cut == "mitre") + (piece.end_cut == "mitre")
        wide = plan.cut_plan.strip_width_ticks / 320
        area = piece.length_ticks / 320 * wide - mitres * wide**2 / 2
        assert shapely.Polygon(corners).area == pytest.approx(area)


@pytest.mark.example
def test_strips_of_a_mitred_ring_leave_no_gap_and_do_not_overlap():
    plan = sheet_plan("nested mitres")
    under = Underside(plan, 0.0, 0.0, 1.0)
    sides = {side.id: side for side in plan.cut_plan.sides}
    parts = [shapely.Polygon(under.corners(sides[p.side_id], p)) for p in plan.cut_plan.pieces]
    length, width = (ticks / 320 for ticks in plan.cut_plan.finished_ticks)
    wide = plan.cut_plan.strip_width_ticks / 320
    ring = length * width - (length - 2 * wide) * (width - 2 * wide)
    assert sum(part.area for part in parts) == pytest.approx(ring)
    assert shapely.union_all(parts).area == pytest.approx(ring)


@pytest.mark.example
def test_west_is_on_the_right():
    for name in ("one side", "20 ft"):
        (view,) = strip_map_figures(sheet_plan(name))
        at = {s.text: note_box(s) for _, s in view.shapes if isinstance(s, Note) and len(s.text) == 1}
        assert at["E"][2] < at["W"][0]
        assert at["S"][3] < at["N"][1]


@pytest.mark.example
@EVERY
def test_pins_keep_to_their_row_and_out_of_the_zones(name: str):
    plan = sheet_plan(name)
    pin = job_pin_choice(plan.job)
    for view in strip_map_figures(plan):
        dots = [shape for shape in view.on(PINS.name) if isinstance(shape, Circle)]
        if pin.length is None:
            assert not dots
            assert "No pin fits: glue and clamp only." in texts(view)
            continue
        outline = next(shape for shape in view.on(KEEP.name) if isinstance(shape, Loop))
        x0, y0, x1, y1 = shapely.Polygon([v[:2] for v in outline.vertices]).bounds
        row = pin.row_from_edge / 320 / scale_of(view)
        zones = [
            shapely.Polygon([v[:2] for v in shape.loop.vertices])
            for _, shape in view.shapes
            if isinstance(shape, Hatch)
        ]
        assert len(zones) == (4 if any(plan.design.corner_radii_mm) else 0)
        for dot in dots:
            assert min(dot.x - x0, x1 - dot.x, dot.y - y0, y1 - dot.y) >= row - 1e-6
            assert not any(zone.buffer(-1e-6).contains(shapely.Point(dot.x, dot.y)) for zone in zones)


@pytest.mark.example
@EVERY
def test_the_map_shows_as_many_pins_as_the_bill_counts(name: str):
    plan = sheet_plan(name)
    assert plan.takeoff is not None
    total = plan.takeoff.total("pins")
    dots = [
        shape for view in strip_map_figures(plan) for shape in view.on(PINS.name) if isinstance(shape, Circle)
    ]
    assert len(dots) == (0 if total is None else total.expected)


@pytest.mark.example
def test_metric_pins_are_told_in_whole_millimetres():
    (view,) = strip_map_figures(sheet_plan("metric"))
    note = " ".join(texts(view))
    # 4 in is 101.6 mm, 1 in 25.4: the trade's inches in a metric job
    assert "every 102 mm" in note
    assert "within 26 mm of it" in note
    assert "17.5 mm or more from the finished edge" in note


@pytest.mark.example
def test_only_pieces_between_two_others_are_cut_to_fit():
    (view,) = strip_map_figures(sheet_plan("one side"))
    fitted = [text for text in texts(view) if ", to fit" in text]
    assert texts(view).count("TO FIT between others") == 2
    assert texts(view).count("fixed length") == 2
    assert sorted(text.split()[0] for text in fitted) == ["E1", "W1"]


@pytest.mark.example
def test_splices_are_written_with_their_distance_from_the_finished_corner():
    plan = sheet_plan("spliced")
    sides = {side.id: side for side in plan.cut_plan.sides}
    words = " ".join(text for view in strip_map_figures(plan) for text in texts(view))
    spliced = [piece for piece in plan.cut_plan.pieces if piece.side_start_ticks]
    assert spliced
    for piece in spliced:
        side = sides[piece.side_id]
        at = show_ticks(side.start_offset_ticks + piece.side_start_ticks, plan.job.units)
        start = "W" if side.side in ("north", "south") else "S"
        # inside the ring, and beside the piece in the list
        assert words.count(f"splice {at} from {start}") >= 2


@pytest.mark.example
def test_a_plan_that_is_not_ready_has_no_sheet():
    plan = sheet_plan("one side")
    impossible = dataclasses.replace(plan, cut_plan=dataclasses.replace(plan.cut_plan, status="impossible"))
    assert strip_map_figures(impossible) == ()


@pytest.mark.example
def test_a_long_list_flows_over_sheets_with_its_head_and_loses_no_piece():
    plan = sheet_plan("one side")
    piece = plan.cut_plan.pieces[0]
    side = next(s for s in plan.cut_plan.sides if s.id == piece.side_id)
    count = 40
    long = side.length_ticks // count
    pieces = [
        dataclasses.replace(piece, id=f"{side.id}-{n:02}", length_ticks=long, side_start_ticks=n * long)
        for n in range(count)
    ]
    rest = [p for p in plan.cut_plan.pieces if p.side_id != side.id]
    crowded = dataclasses.replace(plan, cut_plan=dataclasses.replace(plan.cut_plan, pieces=(*pieces, *rest)))
    views = strip_map_figures(crowded, (180, 250))
    assert len(views) > 1
    for view in views:
        assert paper_faults(view, 180, 250) == []
        assert "UNDERSIDE" in texts(view)
    # the drawing says where the names stand that it has no room for
    assert any("no room on the drawing" in " ".join(texts(view)) for view in views)
    names = [name for view in views if "strip" in texts(view) for name, _ in rows_of(view)]
    assert sorted(names) == sorted([p.id for p in pieces] + [p.id for p in rest])
