"""The cut drawing of a shaped top: from above, in true size, kerfs in the waste, nothing but closed lines to cut by."""

from __future__ import annotations

import pytest
import shapely
from shaped_jobs import SHAPES, shaped_plan

from edgewright.cutlist.shaped_cut_view import shaped_cut_view
from edgewright.drawing.arcs import chords
from edgewright.drawing.audit import audit_view
from edgewright.drawing.layers import CUT_OUTS, FINISHED_OUTLINE, KEEP_LINES, KERFS, REFERENCE
from edgewright.drawing.view import Loop, Note, Segment, View

INCH = 25.4


def drawing(name: str) -> View:
    return shaped_cut_view(shaped_plan(name).design, "ABCD-EFGH")


def area(view: View, layer: str) -> list[shapely.Polygon]:
    return [shapely.Polygon(chords(s, 0.001)) for s in view.on(layer) if isinstance(s, Loop)]


@pytest.mark.example
@pytest.mark.parametrize("name", SHAPES)
def test_the_self_check_finds_nothing_and_text_stands_on_the_reference_layer_only(name: str):
    view = drawing(name)
    assert audit_view(view) == ()
    assert all(layer == REFERENCE.name for layer, shape in view.shapes if isinstance(shape, Note))
    words = [s.text for s in view.on(REFERENCE.name) if isinstance(s, Note)]
    assert "plan ABCD-EFGH" in words
    assert "seen from above, face up" in words


@pytest.mark.property
@pytest.mark.parametrize("name", SHAPES)
def test_kerfs_lie_outside_the_finished_outline_beside_their_keep_lines(name: str):
    view, plan = drawing(name), shaped_plan(name)
    (finished,) = area(view, FINISHED_OUTLINE.name)
    kerfs = area(view, KERFS.name)
    keeps = [
        shapely.LineString(((s.x0, s.y0), (s.x1, s.y1)))
        for s in view.on(KEEP_LINES.name)
        if isinstance(s, Segment)
    ]
    assert len(kerfs) == len(keeps) == len(plan.design.trims.cuts)
    for kerf, keep in zip(kerfs, keeps, strict=True):
        assert finished.intersection(kerf).area < 0.05
        assert kerf.boundary.distance(keep.centroid) < 1e-6
        assert kerf.area == pytest.approx(keep.length * plan.job.saw.kerf.mm, rel=1e-6)


@pytest.mark.example
def test_from_above_the_east_is_on_the_right():
    view = drawing("d_end")
    (finished,) = area(view, FINISHED_OUTLINE.name)
    # the bow of 250 mm is at the east end: less wood there than at the west
    x0, y0, x1, y1 = finished.bounds
    west = finished.intersection(shapely.box(x0, y0, x0 + 250, y1)).area
    east = finished.intersection(shapely.box(x1 - 250, y0, x1, y1)).area
    assert east < 0.9 * west
    assert (x1 - x0, y1 - y0) == pytest.approx((1600, 800), abs=0.01)


@pytest.mark.example
def test_cut_outs_lie_where_the_job_puts_them():
    view = drawing("l_counter")
    basin, hatch = area(view, CUT_OUTS.name)
    apart = basin.centroid.x - hatch.centroid.x, basin.centroid.y - hatch.centroid.y
    assert apart == pytest.approx(((62 - 12) * INCH, (53 - 26) * INCH), abs=0.01)
    assert basin.bounds[2] - basin.bounds[0] == pytest.approx(15.5 * INCH, abs=0.01)
    assert hatch.bounds[3] - hatch.bounds[1] == pytest.approx(14 * INCH, abs=0.01)
