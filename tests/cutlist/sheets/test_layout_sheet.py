"""The layout sheet: legible, to scale, every blank named."""

from __future__ import annotations

import pytest
from paper_checks import paper_faults
from shaped_jobs import scale_of, shaped_plan, texts
from stock_jobs import ROUND_48, STRAIGHT, board

from edgewright.cutlist.sheets.layout_sheet import layout_figures
from edgewright.drawing.paper import PANEL
from edgewright.drawing.view import Segment

JOBS = {
    "corners": ROUND_48,
    "sheet": ROUND_48 + board("half sheet", "48 in", "24 in", "30"),
    "many short": STRAIGHT.replace("[edge]", "[edge]\nlayers = 4") + board("stick", "70 in", "2 in", "5"),
    "cut-outs": "l_counter",
}
EVERY = pytest.mark.parametrize("name", JOBS)


@pytest.mark.example
@EVERY
@pytest.mark.parametrize("box", [(180.0, 140.0), (150.0, 100.0)])
def test_every_text_is_legible_and_stays_in_the_box(name, box):
    views = layout_figures(shaped_plan(JOBS[name]), box)
    assert views
    for view in views:
        assert paper_faults(view, *box) == []


@pytest.mark.example
@EVERY
def test_every_blank_is_named_and_drawn_to_scale(name):
    plan = shaped_plan(JOBS[name])
    views = layout_figures(plan)
    words = " ".join(text for view in views for text in texts(view))
    lengths = set()
    for view in views:
        scale = scale_of(view)
        lines = [shape for shape in view.on(PANEL.name) if isinstance(shape, Segment)]
        lengths |= {round(abs(line.x1 - line.x0) * scale, 1) for line in lines}
    for one in plan.build_up.cut:
        assert one.piece_id in words
        assert round(one.length / 320, 1) in lengths


@pytest.mark.example
def test_nothing_is_drawn_where_nothing_is_cut():
    assert layout_figures(shaped_plan(STRAIGHT)) == ()
    stopped = (
        STRAIGHT + 'top_round_over = "3/4"\nbottom_round_over = "3/4"\n' + board("rack", "61 in", "9 in")
    )
    assert layout_figures(shaped_plan(stopped)) == ()
