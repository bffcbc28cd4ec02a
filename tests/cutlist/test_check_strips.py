"""Findings that the strip plan decides, on hand-made plans and on whole jobs."""

import dataclasses

import pytest
from handmade_plans import narrowed

from edgewright.cutlist.check_strips import plan_findings
from edgewright.cutlist.plan import plan
from edgewright.design.build import build_design
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "top"
units = "{units}"
[top]
length = {length}
width = {width}
thickness = {thickness}
material = "{material}"
{top}
{tables}
"""
DEFAULTS = {
    "units": "in", "length": 72, "width": 42, "thickness": '"23/32"', "material": "plywood", "top": "",
}  # fmt: skip


def job(tables="", **changes):
    return parse_job(JOB.format(tables=tables, **DEFAULTS | changes))


def found(number, tables="", **changes):
    return [f for f in plan(job(tables, **changes)).findings if f.number == number]


# ---- 103: grain ----


def grain(tables="[trim]\nnorth = 6", cut_plan=None, **changes):
    """Return finding 103 of the hand-made plan: E1 and W1, N1 and S1, all four from the north offcut."""
    design = build_design(job(tables, material="solid wood", **changes))
    return [f for f in plan_findings(design, cut_plan or narrowed()) if f.number == 103]


@pytest.mark.reference
def test_strips_under_the_ends_from_a_side_offcut_lie_across_the_grain():
    # common practice: strips along the grain from side offcuts, under the ends from end offcuts only
    (finding,) = grain()
    assert (finding.severity, finding.overridable, finding.place) == ("stop", True, "E1, W1")
    assert "E1-1, W1-1 from offcut north" in finding.figures
    assert "grain of the top along the length" in finding.figures
    assert "trim the east or west side" in finding.change


@pytest.mark.example
def test_only_solid_wood_has_a_grain_that_matters():
    design = build_design(job("[trim]\nnorth = 6"))
    assert not [f for f in plan_findings(design, narrowed()) if f.number == 103]


@pytest.mark.example
def test_a_strip_turned_by_a_quarter_is_wrong_whichever_way_the_grain_runs():
    # north to south: strips off the north side have it across, as N1 and S1 need it and E1 and W1 do not
    (finding,) = grain(top='grain = "width"')
    assert finding.place == "E1, W1"
    assert "grain of the top along the width" in finding.figures


@pytest.mark.example
def test_strips_under_the_ends_from_an_end_offcut_pass():
    cut_plan = narrowed()
    ends = {piece.lane_id for piece in cut_plan.pieces if piece.side_id in ("E1", "W1")}
    (stick,) = [s for s in cut_plan.sticks if s.source == "offcut"]
    end = dataclasses.replace(
        stick,
        id="offcut east",
        side="east",
        lanes=tuple(lane for lane in stick.lanes if lane.id in ends),
    )
    rest = dataclasses.replace(stick, lanes=tuple(lane for lane in stick.lanes if lane.id not in ends))
    assert grain(cut_plan=dataclasses.replace(cut_plan, sticks=(rest, end))) == []
    # and a strip of a long side from that end is as wrong as the other way round
    turned = (dataclasses.replace(rest, side="west"), end)
    (finding,) = grain(cut_plan=dataclasses.replace(cut_plan, sticks=turned))
    assert finding.place == "N1, S1"
    assert "trim the north or south side" in finding.change


@pytest.mark.example
def test_a_board_has_its_grain_along_its_length():
    boards = """
[edge]
strip_width = "1 1/2"
[[stock]]
name = "board"
length = 80
width = 12
thickness = "3/4"
"""
    (finding,) = found(103, boards, material="solid wood", thickness='"3/4"')
    assert finding.place == "E1, W1"
    assert "from board" in finding.figures
    # on a top whose grain runs the other way the same boards suit the ends and not the long sides
    (finding,) = found(103, boards, material="solid wood", thickness='"3/4"', top='grain = "width"')
    assert finding.place == "N1, S1"


@pytest.mark.example
def test_the_longer_extent_has_the_grain_unless_the_job_says_otherwise():
    assert job(length=36, width=84).top.grain_along == "width"
    assert job(length=84, width=36).top.grain_along == job(length=48, width=48).top.grain_along == "length"
    assert job(length=36, width=84, top='grain = "length"').top.grain_along == "length"


@pytest.mark.example
def test_an_override_of_103_reaches_the_plan():
    trim = "[trim]\nnorth = 6\n"
    (stop,) = found(103, trim, material="solid wood")
    seen = f'[[override]]\nfinding = 103\nfigures = "{stop.figures}"\nreason = "turned at the bench"\n'
    (after,) = found(103, trim + seen, material="solid wood")
    assert after.overridden == "turned at the bench"
