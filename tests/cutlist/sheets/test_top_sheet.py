"""The trim sheet of any outline: legible, face down, and true: positions are read back from what is drawn."""

from __future__ import annotations

import re

import ezdxf
import pytest
import shapely
from paper_checks import paper_faults
from shaped_jobs import BOAT, FOLDER, SHAPES, scale_of, shaped_plan, texts

from edgewright.cutlist.sheets.top_sheet import pivots, top_figures
from edgewright.drawing.arcs import chords
from edgewright.drawing.lettering import note_box
from edgewright.drawing.paper import HATCHING, KEEP, PANEL, THIN
from edgewright.drawing.view import Circle, Hatch, Loop, Note, Segment, View
from edgewright.errors import GeometryError

EVERY = pytest.mark.parametrize("name", SHAPES)
INCH = 25.4


def sheet(name: str, box=(180.0, 180.0)) -> View:
    (view,) = top_figures(shaped_plan(name).design, box)
    return view


def polygon(loop: Loop) -> shapely.Polygon:
    return shapely.Polygon(chords(loop, 0.001))


def finished(view: View) -> Loop:
    return next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))


def keep_lines(view: View) -> list[shapely.LineString]:
    return [
        shapely.LineString(((s.x0, s.y0), (s.x1, s.y1))) for s in view.on(KEEP.name) if isinstance(s, Segment)
    ]


def note(view: View, text: str) -> Note:
    return next(s for _, s in view.shapes if isinstance(s, Note) and s.text == text)


@pytest.mark.example
@EVERY
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 150.0), (180.0, 205.0), (150.0, 130.0)):
        for view in top_figures(shaped_plan(name).design, (width, height)):
            assert paper_faults(view, width, height) == []


@pytest.mark.example
def test_a_box_that_is_too_small_is_refused():
    with pytest.raises(GeometryError, match="take larger paper"):
        top_figures(shaped_plan("boat").design, (100.0, 100.0))


@pytest.mark.property
@EVERY
def test_the_finished_top_has_its_true_size_and_is_mirrored(name: str):
    design = shaped_plan(name).design
    view = sheet(name)
    loop, scale = finished(view), scale_of(view)
    drawn = polygon(loop)
    assert drawn.area * scale**2 == pytest.approx(design.finished.outline.area, rel=1e-4)
    # counter-clockwise in the wood, clockwise on the page, and every arc the other way round
    assert not shapely.LinearRing(chords(loop, 0.01)).is_ccw
    for (_, _, bulge), (_, _, drawn_bulge) in zip(
        design.finished.outline.bulge_vertices(), loop.vertices, strict=True
    ):
        assert drawn_bulge == pytest.approx(-bulge)


@pytest.mark.example
def test_east_is_left():
    view = sheet("d_end")
    # only the east end is bowed: the bow reaches out on the left
    corners = [vertex for vertex in finished(view).vertices if abs(vertex[2]) > 0.1]
    assert note_box(note(view, "east end"))[2] < min(x for x, _, _ in corners)
    assert note_box(note(view, "west"))[0] > max(x for x, _, _ in finished(view).vertices)
    # the hatch lies 50 in west of the basin, 12 and 62 in from the west
    view = sheet("l_counter")
    assert note(view, "hatch").x > note(view, "basin").x + 1


@pytest.mark.example
def test_keep_lines_lie_where_the_job_puts_them():
    # 2 in off each end of 96 in
    view = sheet("boat")
    one, other = keep_lines(view)
    assert one.distance(other) * scale_of(view) == pytest.approx(92 * INCH, abs=0.01)
    # the north side cut parallel to the south side, 28 1/4 in from it, 58 in long
    view = sheet("tapered")
    (keep,) = keep_lines(view)
    assert keep.length * scale_of(view) == pytest.approx(58 * INCH, abs=0.01)
    south = min(y for _, y, _ in finished(view).vertices)
    assert [(y - south) * scale_of(view) / INCH for _, y in keep.coords] == pytest.approx([28.25, 28.25])


@pytest.mark.example
@EVERY
def test_the_kerf_lies_in_the_waste_and_the_number_on_the_wood_that_stays(name: str):
    plan, view = shaped_plan(name), sheet(name)
    kept, scale = polygon(finished(view)), scale_of(view)
    far = [
        shapely.LineString(((s.x0, s.y0), (s.x1, s.y1)))
        for s in view.on(HATCHING.name)
        if isinstance(s, Segment)
    ]
    keeps = keep_lines(view)
    assert len(far) == len(keeps) == len(plan.design.trims.cuts)
    for keep, edge in zip(keeps, far, strict=True):
        assert keep.distance(edge) * scale == pytest.approx(plan.job.saw.kerf.mm)
        assert kept.distance(edge.centroid) * scale >= plan.job.saw.kerf.mm - 0.01
    numbered = [s for _, s in view.shapes if isinstance(s, Circle) and s.radius > 2]
    assert len(numbered) == len(keeps)
    for circle in numbered:
        assert kept.contains(shapely.Point(circle.x, circle.y))


@pytest.mark.example
def test_an_equal_amount_off_an_edge_is_told_square_in_from_it():
    view = sheet("corner_desk_polygon")
    assert texts(view).count("2 in square") == 2
    assert "in from the old edge" in " ".join(texts(view))
    # 1 in off both straight sides of the racetrack: no corner is seen where they run into the ends
    assert texts(sheet("racetrack")).count("1 in square") == 4


@pytest.mark.example
def test_a_cut_parallel_to_an_edge_that_stays_is_told_from_that_edge_at_both_ends():
    view = sheet("tapered")
    assert texts(view).count("28 1/4 in") == 2
    # 30 and 28 1/2 in wide ends less 28 1/4 in, along the rim from the corners that come off
    assert {"1/4 in", "1 3/4 in"} <= set(texts(view))
    # the dimension lines run from the south edge to the keep line
    (keep,) = keep_lines(view)
    south = min(y for _, y, _ in finished(view).vertices)
    upright = [
        s
        for s in view.on(THIN.name)
        if isinstance(s, Segment) and abs(s.x0 - s.x1) < 1e-6 and abs(s.y1 - s.y0) > 50
    ]
    assert len(upright) == 2
    for line in upright:
        assert sorted((line.y0, line.y1)) == pytest.approx([south, keep.coords[0][1]])


@pytest.mark.example
def test_curves_beyond_a_trammel_are_routed_along_a_batten():
    words = " ".join(texts(sheet(BOAT)))
    # an arc over 94 in by 5 or 6 in has a radius of more than 16 ft
    assert "along a bent batten" in words
    assert "trammel" not in words
    assert "on a trammel" in " ".join(texts(sheet("racetrack")))


@pytest.mark.example
def test_a_cut_out_is_dimensioned_from_two_edges():
    view = sheet("drawn_desk")
    drawing = ezdxf.readfile(FOLDER / "drawn_desk.dxf")
    (circle,) = drawing.modelspace().query("CIRCLE")
    outline = finished(view)
    hole = next(s for s in view.on(PANEL.name) if isinstance(s, Loop) and s != outline)
    middle, rim, scale = polygon(hole).centroid, polygon(outline).bounds, scale_of(view)
    # in the file y runs from the south side's ends; the hole is 7 in from the north and in the middle
    assert (rim[3] - middle.y) * scale == pytest.approx(7 * INCH, abs=0.05)
    assert (middle.x - rim[0]) * scale == pytest.approx((84 - circle.dxf.center.x) * INCH, abs=0.05)
    assert {"7 in", "42 in"} <= set(texts(view))


@pytest.mark.example
def test_waste_is_hatched_and_nothing_else():
    view = sheet("round_from_square")
    (hatch,) = (s for s in view.on(HATCHING.name) if isinstance(s, Hatch))
    area = polygon(hatch.loop).area * scale_of(view) ** 2
    assert area == pytest.approx((48 * INCH) ** 2, rel=1e-6)
    assert not any(isinstance(s, Hatch) for s in sheet("oval_four_arcs").on(HATCHING.name))


@pytest.mark.example
def test_pivots_stand_at_the_centres_of_the_arcs_and_many_arcs_get_a_template():
    view = sheet("racetrack")
    # 84 x 40 in with round ends, 1 in off: R 19 in about points 44 in apart
    assert texts(view).count("R 19 in") == 2
    assert len(pivots(shaped_plan("racetrack").design)) == 2
    assert pivots(shaped_plan("ellipse").design) == ()
    assert not any("pivot" in text for text in texts(sheet("ellipse")))
    assert re.search("template", " ".join(texts(sheet("ellipse"))))
