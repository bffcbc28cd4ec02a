"""Where defects lie along the strips that run over them."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewright.cutlist.plan import plan
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.cutlist.sheets.strip_defects import strip_defects, strip_start
from edgewright.drawing.view import Note
from edgewright.jobfile import parse_any_job

JOB = (Path(__file__).resolve().parents[3] / "examples" / "knots_and_screws.toml").read_text(encoding="utf-8")
#: Next to nothing comes off the north side, so the board with the knot is needed.
BOARD = JOB.replace("length = 84", "length = 110").replace("north = 4", 'north = "1/2"')
INCH = 8128


@pytest.fixture(scope="module", params=[JOB, BOARD], ids=["offcuts", "board"])
def made(request):
    return plan(parse_any_job(request.param))


def strips(made):
    """Stick, lane and defects of every strip that runs over one."""
    cut = made.cut_plan
    found = ((stick, lane, strip_defects(cut, stick, lane)) for stick in cut.sticks for lane in stick.lanes)
    return [one for one in found if one[2]]


@pytest.mark.example
def test_a_screw_hole_and_a_knot_lie_where_they_were_measured():
    # the strip of the north offcut starts at the west end, like the measurements; so does the board's at its marked end
    for text, names, place in (
        (JOB, ("screw hole", "west end"), (30, 30.25)),
        (BOARD, ("knot", "marked end"), (50, 51.5)),
    ):
        found = [
            (box, low, high, stick)
            for stick, _, boxes in strips(plan(parse_any_job(text)))
            for box, low, high in boxes
        ]
        one = next(entry for entry in found if entry[0].name == names[0])
        assert (one[1] / INCH, one[2] / INCH) == place
        assert strip_start(one[3]) == names[1]


def test_no_clean_run_holds_a_defect(made):
    found = strips(made)
    assert found
    for _, lane, boxes in found:
        start, end = lane.trim_start_ticks, lane.trim_start_ticks + lane.length_ticks
        for _, low, high in boxes:
            assert high <= start or end <= low


def test_each_is_told_under_its_bar(made):
    words = " ".join(
        shape.text for view in stick_figures(made) for _, shape in view.shapes if isinstance(shape, Note)
    )
    used = {piece.lane_id for piece in made.cut_plan.pieces}
    for stick, lane, boxes in strips(made):
        if lane.id in used:
            assert f"Framed, from the {strip_start(stick)}: {boxes[0][0].name}" in words
