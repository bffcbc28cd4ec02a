"""The ring map: every piece where it is glued, seen from below, and named."""

from __future__ import annotations

import pytest
import shapely
from paper_checks import paper_faults
from shaped_jobs import SHAPES, scale_of, shaped_plan, texts
from stock_jobs import STRAIGHT, board

from edgewright.cutlist.ring_corners import rounded_corners
from edgewright.cutlist.ring_pins import ring_pins
from edgewright.cutlist.sheets.ring_sheet import ring_figures
from edgewright.drawing.lettering import note_box
from edgewright.drawing.paper import HATCHING, KEEP, PANEL, PINS
from edgewright.drawing.view import Circle, Hatch, Loop, Note, Segment

#: Sides of 60 in from boards of 45 in.
SPLICED = STRAIGHT + board("short", "45 in", "9 in", "5")
EVERY = pytest.mark.parametrize("name", SHAPES)


@pytest.mark.example
@EVERY
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 240.0), (185.9, 205.0), (150.0, 140.0)):
        for view in ring_figures(shaped_plan(name).design, (width, height)):
            assert paper_faults(view, width, height) == []


@pytest.mark.example
@EVERY
def test_every_piece_is_named_and_the_title_says_underside(name: str):
    design = shaped_plan(name).design
    views = ring_figures(design)
    assert len(views) == len({piece.layer for piece in design.pieces})
    words = (
        " ".join(text for view in views for text in texts(view)).replace(",", " ").replace(":", " ").split()
    )
    for piece in design.pieces:
        assert piece.id in words
    for view in views:
        assert view.title.startswith("UNDERSIDE")
        assert any("face DOWN" in text for text in texts(view))


@pytest.mark.property
@pytest.mark.parametrize("name", ["octagon", "u_counter", "tapered"])
def test_pieces_lie_under_the_rim_as_in_the_plan_mirrored(name: str):
    design = shaped_plan(name).design
    (view,) = ring_figures(design)
    scale = scale_of(view)
    outline = next(s for s in view.on(KEEP.name) if isinstance(s, Loop))
    east = design.finished.outline.bounds[2]
    left, low = min(x for x, _, _ in outline.vertices), min(y for _, y, _ in outline.vertices)
    drawn = {
        frozenset(((round(s.x0, 2), round(s.y0, 2)), (round(s.x1, 2), round(s.y1, 2))))
        for s in view.on(PANEL.name)
        if isinstance(s, Segment)
    }
    south = design.finished.outline.bounds[1]
    for piece in design.pieces:
        for a, b in zip(piece.plan, (*piece.plan[1:], piece.plan[0]), strict=True):
            ends = frozenset(
                (round(left + (east - x) / scale, 2), round(low + (y - south) / scale, 2)) for x, y in (a, b)
            )
            assert any(
                all(min(abs(u - x) + abs(v - y) for x, y in line) < 0.03 for u, v in ends) for line in drawn
            )


@pytest.mark.example
def test_names_stand_on_or_beside_their_piece():
    design = shaped_plan("octagon").design
    (view,) = ring_figures(design)
    scale, outline = scale_of(view), next(s for s in view.on(KEEP.name) if isinstance(s, Loop))
    xs, ys = [x for x, _, _ in outline.vertices], [y for _, y, _ in outline.vertices]
    east, south = design.finished.outline.bounds[2], design.finished.outline.bounds[1]
    notes = {s.text: note_box(s) for _, s in view.shapes if isinstance(s, Note)}
    for piece in design.pieces:
        x0, y0, x1, y1 = notes[piece.id]
        place = (east - ((x0 + x1) / 2 - min(xs)) * scale, south + ((y0 + y1) / 2 - min(ys)) * scale)
        near = min(
            design.pieces, key=lambda other: shapely.Polygon(other.plan).distance(shapely.Point(place))
        )
        assert near.id == piece.id


@pytest.mark.property
@pytest.mark.parametrize("name", ["octagon", "l_counter", "u_counter", "racetrack", "tapered"])
def test_pins_are_dotted_and_corners_without_pins_hatched(name: str):
    design = shaped_plan(name).design
    (view,) = ring_figures(design)
    pins = [pin for pin in ring_pins(design) if not pin.left_out]
    assert sum(isinstance(s, Circle) for s in view.on(PINS.name)) == len(pins)
    assert sum(isinstance(s, Hatch) for s in view.on(HATCHING.name)) == len(rounded_corners(design))
    assert any("NO PIN" in text for text in texts(view)) == bool(rounded_corners(design))


@pytest.mark.example
def test_a_splice_is_marked_where_a_strip_goes_on():
    plan = shaped_plan(SPLICED)
    spliced = [piece for piece in plan.design.pieces if piece.id[-1].isalpha()]
    assert {piece.id[-1] for piece in spliced} == {"a", "b"}
    (view,) = ring_figures(plan.design)
    assert texts(view).count("splice") == sum(piece.id.endswith("b") for piece in spliced)
