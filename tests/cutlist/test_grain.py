"""Solid wood: the planner offers a side only strips whose grain fits, and the bounds follow.

Common practice, no source: strips along the grain from side offcuts, under the ends from end offcuts only.
"""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.checker import check_plan, recompute_bounds
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.plan import Plan, plan
from edgewright.cutlist.stages import plain_plan
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "grain"
units = "in"
[top]
length = 72
width = 42
thickness = "3/4"
material = "{material}"
{grain}
[trim]
{trim}
[edge]
strip_width = "1 7/8"
[[stock]]
name = "board"
length = 96
width = 6
thickness = "3/4"
price = {price}
"""


def made(trim: str, *, material: str = "solid wood", grain: str = "", price: float = 20) -> Plan:
    return plan(parse_job(JOB.format(trim=trim, material=material, grain=grain, price=price)))


def sources(cut_plan: CutPlan) -> dict[str, set[str]]:
    stick_of = {lane.id: stick for stick in cut_plan.sticks for lane in stick.lanes}
    found: dict[str, set[str]] = {}
    for piece in cut_plan.pieces:
        stick = stick_of[piece.lane_id]
        found.setdefault(piece.side_id[0], set()).add(stick.side or stick.name)
    return found


@pytest.mark.example
def test_ends_come_from_the_end_offcut_though_a_side_offcut_would_do() -> None:
    """6 off the north and 6 off the east: plywood takes all from the north, solid wood the ends from the east.

    North gives three strips of 72; east, sawn after it, three of 36 that hold one end of 32 1/4 each.
    """
    trim = "north = 6\neast = 6"
    plywood, solid = made(trim, material="plywood"), made(trim)
    assert sources(plywood.cut_plan) == {key: {"north"} for key in "NSEW"}
    assert sources(solid.cut_plan) == {"N": {"north"}, "S": {"north"}, "E": {"east"}, "W": {"east"}}
    assert solid.ready
    stages = {stage.name: (stage.value, stage.bound, stage.proven) for stage in solid.cut_plan.stages}
    # one stick and two strips for each pair; the third strip of 72 stays whole
    assert stages["sticks touched"] == (2, 2, True)
    assert stages["strips ripped"] == (4, 4, True)
    assert stages["largest remnant"] == (72 * 8128, 72 * 8128, True)


@pytest.mark.example
def test_the_other_way_round_where_the_grain_runs_across_the_length() -> None:
    """Then ends want strips with the grain along: boards and end offcuts; the long sides those off a long side."""
    solid = made("north = 4\neast = 6", grain='grain = "width"')
    assert sources(solid.cut_plan) == {"N": {"north"}, "S": {"north"}, "E": {"east"}, "W": {"east"}}
    assert solid.ready


@pytest.mark.example
def test_without_a_plan_that_keeps_the_grain_finding_103_says_what_to_trim() -> None:
    result = made("north = 6")
    assert not result.ready
    assert [finding.place for finding in result.findings if finding.number == 103] == ["E1, W1"]
    assert {stick.grain for stick in result.cut_plan.sticks} == {""}


@pytest.mark.example
def test_a_board_is_bought_rather_than_glued_across() -> None:
    """2 off the north gives one strip, 6 off the east the ends: a board is bought, and then gives both long sides."""
    result = made("north = 2\neast = 6")
    assert sources(result.cut_plan) == {"N": {"board"}, "S": {"board"}, "E": {"east"}, "W": {"east"}}
    assert (result.cut_plan.stages[0].value, result.cut_plan.stages[0].proven) == (2000, True)


@pytest.mark.example
def test_a_piece_across_the_grain_is_refused() -> None:
    plain = plain_plan(made("north = 6\neast = 6").cut_plan)
    assert check_plan(plain) == ()
    side = next(one for one in plain["sides"] if one["id"] == "E1")
    side["grain"] = "along"
    assert "piece across the grain" in {fault.name for fault in check_plan(plain)}


@pytest.mark.example
def test_behind_a_stage_that_is_not_proven_nothing_is() -> None:
    """One strip too many in one group: the splice of the counts is no longer settled, so no bound follows."""
    cut_plan = made("north = 6\neast = 6").cut_plan
    (end, *_) = [piece for piece in cut_plan.pieces if piece.side_id == "E1"]
    half = end.length_ticks // 2
    first = dataclasses.replace(end, id="E1a", length_ticks=half)
    second = dataclasses.replace(
        end, id="E1b", length_ticks=end.length_ticks - half, side_start_ticks=half, lane_id="offcut east 3"
    )
    pieces = (*(piece for piece in cut_plan.pieces if piece is not end), first, second)
    bounds = recompute_bounds(plain_plan(dataclasses.replace(cut_plan, pieces=pieces)))
    assert bounds["splices"][0] == 0
    assert bounds["sticks touched"][0] is None
    assert bounds["largest remnant"][0] is None


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=10)
@given(st.integers(2, 30), st.integers(2, 30), st.sampled_from(["length", "width"]))
def test_grain_never_makes_a_plan_better_and_it_is_kept_or_told(north: int, east: int, grain: str) -> None:
    """Trims in quarters of an inch; the checker passes every plan on the way."""
    trim = f"north = {north / 4}\neast = {east / 4}"
    free = made(trim, material="plywood")
    solid = made(trim, grain=f'grain = "{grain}"')
    told = any(finding.number == 103 for finding in solid.findings)
    assert told == ({stick.grain for stick in solid.cut_plan.sticks} == {""})
    if not told:
        assert [s.value for s in solid.cut_plan.stages[:3]] >= [s.value for s in free.cut_plan.stages[:3]]
    assert make_cut_plan(solid.design) == solid.cut_plan
