"""The router card: dashed where nothing is routed, arrows round the outside counter-clockwise on the page."""

from __future__ import annotations

import math

import pytest
import shapely
from any_tops import Top, any_tops
from hypothesis import given, settings
from paper_checks import paper_faults
from shaped_jobs import SHAPES, scale_of, shaped_plan, texts
from sheet_jobs import sheet_plan

from edgewright.cutlist.sheets.router_card import RoutedRim, feed_figure, router_figures
from edgewright.design.anytop.model import CutOutEdge
from edgewright.design.outline import Outline
from edgewright.design.segments import point_at
from edgewright.drawing.paper import HIDDEN, PANEL, THIN
from edgewright.drawing.view import Face, Loop, Segment, View


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


def feed_arrows(view: View) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Tail and tip of each arrow: the tip is the corner of its head that the shaft does not touch."""
    heads = [[v[:2] for v in s.loop.vertices] for s in view.on(THIN.name) if isinstance(s, Face)]
    found = []
    for shaft in segments(view, THIN.name):
        end = (shaft.x1, shaft.y1)
        head = next(
            h for h in heads if math.dist(end, [(a + b) / 2 for a, b in zip(*h[1:], strict=True)]) < 1e-3
        )
        found.append(((shaft.x0, shaft.y0), head[0]))
    return found


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(top=any_tops())
def test_the_wood_lies_on_the_left_of_every_arrow_outside_and_in_cut_outs(top: Top):
    """Counter-clockwise round the outside and clockwise inside a cut-out is one rule (common practice, no source)."""
    outline, names = top.shape.outline, top.shape.names
    still = frozenset(names[at] for at in top.still if at < len(names))
    first, holes = len(outline.segments), []
    for number, hole in enumerate(top.region.holes):
        routed = not top.still & set(range(first, first + len(hole.segments)))
        holes.append(CutOutEdge(f"hole {number}", hole, routed, 0.0, 0.0))
        first += len(hole.segments)
    box = (180.0, 200.0)
    view = feed_figure(RoutedRim(outline, names, still, tuple(holes)), box)
    assert paper_faults(view, *box) == []
    scale = scale_of(view)
    x1, y0 = outline.bounds[2], outline.bounds[1]
    drawn = [s for layer in (PANEL.name, HIDDEN.name) for s in segments(view, layer)]
    left = min(min(s.x0, s.x1) for s in drawn)
    low = min(min(s.y0, s.y1) for s in drawn)

    def on_page(loop: Outline) -> list[tuple[float, float]]:
        found = []
        for edge in loop.segments:
            found += [point_at(edge, step / 24) for step in range(24)]
        return [(left + (x1 - x) / scale, low + (y - y0) / scale) for x, y in found]

    wood = shapely.Polygon(on_page(outline), [on_page(hole) for hole in top.region.holes])
    for (ax, ay), (bx, by) in feed_arrows(view):
        x, y, size = (ax + bx) / 2, (ay + by) / 2, math.dist((ax, ay), (bx, by))
        # a little further than the arrow lies from its edge: 4 mm, and the edge may bow by 1 mm
        step = 5.1 / size
        left_of, right_of = (
            shapely.Point(x - side * step * (by - ay), y + side * step * (bx - ax)) for side in (1, -1)
        )
        if wood.contains(shapely.Point(x, y)):
            assert not wood.contains(right_of)
        else:
            assert wood.contains(left_of)


@pytest.mark.example
def test_a_rectangle_has_the_same_card_with_its_sides_named():
    (view,) = router_figures(sheet_plan("one side").design)
    assert {"north", "east", "south", "west"} <= set(texts(view))
    assert len(feed_arrows(view)) == 4
    assert paper_faults(view, 180.0, 125.0) == []
