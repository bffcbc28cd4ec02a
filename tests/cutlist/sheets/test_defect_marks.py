"""Defects of the old top on the trim sheet."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewright.cutlist.model import DefectBox
from edgewright.cutlist.plan import plan
from edgewright.cutlist.sheets.defect_marks import defect_marks
from edgewright.cutlist.sheets.panel import PanelFrame
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.drawing.paper import Pen
from edgewright.drawing.view import Hatch, Note

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
#: A panel of 60 x 30 in at 1:10 on paper.
FRAME = PanelFrame({"west": 0, "south": 0, "east": 60 * 8128, "north": 30 * 8128}, 10.0, 20.0, 10.0)


def drawn(*defects: DefectBox, taken=(), lines=()):
    """Hatches, notes, and the paper that is taken."""
    pen = Pen()
    used = defect_marks(pen, FRAME, defects, taken, lines)
    shapes = [shape for _, shape in pen.view("", "").shapes]
    return (
        [shape for shape in shapes if isinstance(shape, Hatch)],
        [shape for shape in shapes if isinstance(shape, Note)],
        used,
    )


def defect(
    name: str, along: tuple[float, float], across: tuple[float, float], *, metal: bool = False
) -> DefectBox:
    return DefectBox(
        name,
        metal,
        (round(along[0] * 8128), round(along[1] * 8128)),
        (round(across[0] * 8128), round(across[1] * 8128)),
    )


@pytest.mark.example
def test_a_defect_lies_mirrored_where_it_is_on_the_top():
    ((hatch,), (note,), used) = drawn(defect("knot", (10, 14), (5, 7)))
    xs, ys = zip(*[vertex[:2] for vertex in hatch.loop.vertices], strict=True)
    # east is on the left: 60 - 14 = 46 in from there, at 2.54 mm an inch
    assert (min(xs), max(xs)) == pytest.approx((10 + 46 * 2.54, 10 + 50 * 2.54))
    assert (min(ys), max(ys)) == pytest.approx((20 + 5 * 2.54, 20 + 7 * 2.54))
    assert note.text == "knot"
    assert len(used) == 2


def test_metal_says_so():
    assert drawn(defect("screw", (10, 14), (5, 7), metal=True))[1][0].text == "screw: METAL"


def test_a_defect_beyond_the_panel_is_not_drawn_and_one_across_its_edge_in_part():
    assert drawn(defect("gone", (61, 62), (5, 7))) == ([], [], [])
    ((hatch,), _, _) = drawn(defect("half", (58, 62), (5, 7)))
    assert min(vertex[0] for vertex in hatch.loop.vertices) == pytest.approx(10.0)


def test_a_small_defect_is_large_enough_to_be_seen():
    ((hatch,), _, _) = drawn(defect("pin hole", (10, 10.01), (5, 5.01)))
    xs = [vertex[0] for vertex in hatch.loop.vertices]
    assert max(xs) - min(xs) == pytest.approx(1.2)


def test_names_keep_clear_of_what_is_taken_of_lines_and_of_one_another():
    line = [(10.0, 40.0), (162.4, 40.0)]
    _, notes, used = drawn(
        defect("one", (20, 22), (5, 7)),
        defect("two", (18, 19), (5, 7)),
        lines=[line],
        taken=[(10, 20, 100, 30)],
    )
    assert {note.text for note in notes} == {"one", "two"}
    boxes = [*used, (10, 20, 100, 30)]
    names = used[2:]
    assert len(names) == 2
    for name in names:
        assert not name[1] < 40.0 < name[3]
        for other in boxes:
            if other is not name:
                assert (
                    name[0] >= other[2] or other[0] >= name[2] or name[1] >= other[3] or other[1] >= name[3]
                )


@pytest.mark.example
def test_the_trim_sheet_of_the_example_shows_both_defects():
    views = trim_figures(plan(EXAMPLES / "knots_and_screws.toml"))
    texts = [[shape.text for _, shape in view.shapes if isinstance(shape, Note)] for view in views]
    assert "screw hole" in texts[0]
    assert "dado of a cleat" in texts[0]
    # the screw hole came off with the rips
    assert "screw hole" not in texts[1]
    assert "dado of a cleat" in texts[1]
