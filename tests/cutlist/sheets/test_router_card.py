"""The router card: dashed where nothing is routed, arrows round the outside counter-clockwise on the page."""

from __future__ import annotations

import pytest
from paper_checks import paper_faults
from shaped_jobs import SHAPES, scale_of, shaped_plan, texts

from edgewright.cutlist.sheets.router_card import router_figures
from edgewright.drawing.paper import HIDDEN, PANEL, THIN
from edgewright.drawing.view import Loop, Segment, View


def segments(view: View, layer: str) -> list[Segment]:
    return [s for s in view.on(layer) if isinstance(s, Segment)]


def length(view: View, layer: str) -> float:
    return sum(((s.x1 - s.x0) ** 2 + (s.y1 - s.y0) ** 2) ** 0.5 for s in segments(view, layer)) * scale_of(
        view
    )


@pytest.mark.example
@pytest.mark.parametrize("name", SHAPES)
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 125.0), (150.0, 100.0)):
        for view in router_figures(shaped_plan(name).design, (width, height)):
            assert paper_faults(view, width, height) == []


@pytest.mark.property
@pytest.mark.parametrize("name", SHAPES)
def test_routed_edges_are_drawn_through_and_the_others_dashed(name: str):
    design = shaped_plan(name).design
    (view,) = router_figures(design)
    for layer, routed in ((PANEL.name, True), (HIDDEN.name, False)):
        wanted = sum(run.length for run in design.runs if run.routed == routed)
        # arcs are drawn as chords
        assert length(view, layer) == pytest.approx(wanted, rel=2e-3)
    words = texts(view)
    # stations of one measured edge are one edge
    names = (run.name.split(", station ")[0] for run in design.runs if not run.routed)
    still = {name for name in names if "corner" not in name}
    assert words.count("not routed") == len(still) + sum(not hole.routed for hole in design.cut_outs)


@pytest.mark.example
def test_cut_outs_are_dashed_unless_routed():
    (view,) = router_figures(shaped_plan("l_counter").design)
    assert len([s for s in view.on(HIDDEN.name) if isinstance(s, Loop)]) == 1  # the basin
    assert len([s for s in view.on(PANEL.name) if isinstance(s, Loop)]) == 1  # the hatch


@pytest.mark.example
@pytest.mark.parametrize("name", ["d_end", "octagon", "ellipse", "racetrack"])
def test_arrows_run_counter_clockwise_on_the_page(name: str):
    (view,) = router_figures(shaped_plan(name).design)
    rim = segments(view, PANEL.name) + segments(view, HIDDEN.name)
    x = (min(s.x0 for s in rim) + max(s.x0 for s in rim)) / 2
    y = (min(s.y0 for s in rim) + max(s.y0 for s in rim)) / 2
    arrows = segments(view, THIN.name)
    assert arrows
    for s in arrows:
        mx, my = (s.x0 + s.x1) / 2 - x, (s.y0 + s.y1) / 2 - y
        assert mx * (s.y1 - s.y0) - my * (s.x1 - s.x0) > 0
