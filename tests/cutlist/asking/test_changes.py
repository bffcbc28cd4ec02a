"""One thing is changed and the rest stays: sizes, seams, readings and boards."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from asking_jobs import INCH, PLANK, SHORT_THROUGH, job, ticks
from pydantic import ValidationError

from edgewright.cutlist.asking import outcome as outcome_module
from edgewright.cutlist.asking.changes import (
    with_board,
    with_kerf,
    with_more_off,
    with_old_edge_moved,
    with_readings_off,
    with_width,
)
from edgewright.cutlist.asking.extra_trim import trim_answer
from edgewright.cutlist.asking.outcome import gain_words, loss_words, outcome
from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.stages import plain_plan
from edgewright.design.build import build_design
from edgewright.errors import CheckError
from edgewright.trade import inch

SEAMS = 'seams = [{across = "width", at = 20}, {across = "length", at = 30}]'


@pytest.mark.example
@pytest.mark.parametrize(("side", "axis"), [("north", 1), ("south", 1), ("east", 0), ("west", 0)])
def test_the_same_job_written_down_gives_the_same_sizes(side: str, axis: int) -> None:
    """An inch more of the old top, all of it cut off: what a job file with those figures says."""
    trim = {"north": 3, "south": 2, "east": 1, "west": 1}
    at = {1: 20, 0: 30}
    design = build_design(job("\n".join(f"{s} = {n}" for s, n in trim.items()), top=SEAMS))
    moved = with_old_edge_moved(design, side, INCH)
    trim[side] += 1
    if side in ("south", "west"):
        at[axis] += 1  # seams are measured from the edge that moved
    size = {1: ("72", "43"), 0: ("73", "42")}[axis]
    seams = f'seams = [{{across = "width", at = {at[1]}}}, {{across = "length", at = {at[0]}}}]'
    written = build_design(
        job("\n".join(f"{s} = {n}" for s, n in trim.items()), top=seams, length=size[0], width=size[1])
    )
    assert moved.sizes == written.sizes
    assert [s.at.exact_mm for s in moved.job.top.seams] == [s.at.exact_mm for s in written.job.top.seams]
    plan = make_cut_plan(with_width(moved, ticks("7/8")))
    assert check_plan(plain_plan(plan)) == ()


@pytest.mark.example
def test_an_axis_that_is_not_cut_grows_unless_it_is_cut_back() -> None:
    design = build_design(job())
    grown = with_old_edge_moved(design, "east", INCH).sizes
    assert (grown.old[0], grown.finished[0], grown.amounts.east) == (73 * INCH, 73 * INCH, 0)
    cut = with_old_edge_moved(design, "east", INCH, cut=True).sizes
    assert (cut.old[0], cut.finished[0], cut.amounts.east) == (73 * INCH, 72 * INCH, INCH)


@pytest.mark.example
def test_a_width_beyond_the_wish_of_the_job_may_be_asked() -> None:
    design = build_design(job(edge='max_strip_width = "1 1/2 in"'))
    held = with_width(design, ticks("1 7/8"), grid=1)
    assert held.job.edge.strip_width.ticks() == ticks("1 7/8")
    assert held.sizes.grid == 1
    assert with_width(design, ticks("1")).sizes.grid == design.sizes.grid


@pytest.mark.example
def test_what_no_bench_has_is_refused() -> None:
    design = build_design(job(rest=PLANK))
    assert with_kerf(design, inch("1/32")).job.saw.kerf.exact_mm == inch("5/32")
    for change in (
        lambda: with_kerf(design, inch("1/4")),
        lambda: with_kerf(design, -inch("1/8")),
        lambda: with_readings_off(design.job, -inch("1/2")),
        lambda: with_board(design, 0, length=type(design.job.top.length)("0 in", Fraction(0))),
        lambda: with_more_off(design.job, design.sizes.amounts, {"north": 36 * INCH}),
    ):
        with pytest.raises(ValidationError):
            change()


@pytest.mark.example
def test_every_reading_is_off_by_as_much() -> None:
    asked = job(rest="").model_copy()
    two = asked.model_copy(
        update={"top": asked.top.model_copy(update={"thickness": (*asked.top.thickness,) * 2})}
    )
    off = with_readings_off(two, inch("1/32"))
    assert [reading.exact_mm for reading in off.top.thickness] == [inch("3/4")] * 2


@pytest.mark.example
def test_gain_and_loss_in_words() -> None:
    """From 5 1/4 in a board must be bought, from 6 in not, from 3 in and without boards there is no plan."""
    width = 'strip_width = "1 7/8"'
    buys = outcome(build_design(job('north = "5 1/4 in"', edge=width, rest=PLANK)))
    own = outcome(build_design(job(edge=width)))
    spliced = outcome(build_design(job(edge=f'{width}\nthrough = "short"')))
    none = outcome(build_design(job("north = 3", edge=width)))
    assert gain_words(buys, own) == "saves the whole purchase, 14.00"
    assert gain_words(spliced, own) == "saves a splice, so that none is needed"
    assert gain_words(none, own) == "makes a plan possible"
    assert gain_words(own, buys) == gain_words(own, own) == ""
    assert loss_words(own, buys) == "14.00 more for boards"
    assert loss_words(own, spliced) == "1 more splice"
    assert loss_words(own, none) == "no plan"
    assert loss_words(none, own) == loss_words(spliced, own) == ""


@pytest.mark.example
def test_any_layout_that_ranks_no_higher_is_enough() -> None:
    design = build_design(job(edge='strip_width = "1 7/8"'))
    whole, quick = outcome(design), outcome(design, enough=(False, 0, 0))
    assert whole.plan is not None
    assert quick.plan is None
    assert quick.rank == whole.rank == (False, 0, 0)
    spliced = build_design(job(edge='strip_width = "1 7/8"\nthrough = "short"'))
    assert outcome(spliced, enough=(False, 0, 0)).plan is not None  # one splice is more than none


@pytest.mark.example
def test_what_is_not_proven_is_said_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def unproven(design):
        plan = make_cut_plan(design)
        return replace(
            plan, stages=tuple(replace(stage, proven=stage.name != "splices") for stage in plan.stages)
        )

    monkeypatch.setattr(outcome_module, "make_cut_plan", unproven)
    assert not outcome(build_design(job(edge=SHORT_THROUGH))).proven
    assert not trim_answer(job(edge=SHORT_THROUGH)).proven


@pytest.mark.example
def test_a_refused_plan_is_no_plan_and_no_proof(monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(design):
        raise CheckError("the checker refused the plan")

    monkeypatch.setattr(outcome_module, "make_cut_plan", refused)
    found = outcome(build_design(job(edge=SHORT_THROUGH)))
    assert (found.possible, found.why, found.proven) == (False, "the checker refused the plan", False)
