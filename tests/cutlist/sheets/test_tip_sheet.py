"""Inside corners that a bearing does not reach are drawn; others are not."""

from __future__ import annotations

import pytest
import shapely
from paper_checks import paper_faults
from shaped_jobs import SHARP, shaped_plan, texts

from edgewright.cutlist.sheets.tip_sheet import drawn_tips, tip_figures
from edgewright.drawing.arcs import chords
from edgewright.drawing.paper import KEEP
from edgewright.drawing.view import Loop


@pytest.mark.example
def test_a_tight_inside_corner_is_drawn_for_each_arris():
    design = shaped_plan(SHARP).design
    (view,) = tip_figures(design)
    assert paper_faults(view, 180.0, 200.0) == []
    words = " ".join(texts(view))
    assert "top arris" in words
    assert "bottom arris" in words
    loops = [s for s in view.on(KEEP.name) if isinstance(s, Loop)]
    assert len(loops) == 2
    # the size is the one that is written: full size here
    assert "1:1" in words
    tip = drawn_tips(design)[0].tip.outline_at_face
    assert tip is not None
    assert shapely.Polygon(chords(loops[0], 0.001)).area == pytest.approx(abs(tip.area), rel=1e-2)


@pytest.mark.example
def test_corners_that_the_bearing_reaches_have_no_figure():
    assert tip_figures(shaped_plan("l_counter").design) == ()
    # the live edge is not routed, so its bends leave nothing standing
    assert shaped_plan("live_edge").design.tips == ()
    assert tip_figures(shaped_plan("live_edge").design) == ()
