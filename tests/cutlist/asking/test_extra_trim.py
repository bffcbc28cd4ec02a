"""Extra trim by hand, and planned again just inside and just outside of the answer."""

from __future__ import annotations

import pytest
from asking_jobs import PLANK, SHORT_THROUGH, figure, job, row, ticks

from edgewright.cutlist.asking import extra_trim
from edgewright.cutlist.asking.extra_trim import trim_answer
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan
from edgewright.design.build import build_design


def planned(trim: str, **more: str) -> CutPlan:
    return make_cut_plan(build_design(job(trim, **more)))


def stage(plan: CutPlan, name: str) -> int:
    return next(stage.value for stage in plan.stages if stage.name == name)


@pytest.mark.example
def test_nothing_to_save() -> None:
    answer = trim_answer(job())
    assert answer.sentence == "Nothing to save by trimming more: the plan needs no splice and buys nothing."
    assert (answer.proven, answer.tried, answer.rows) == (True, 1, ())


@pytest.mark.example
def test_a_splice_is_saved_by_a_sixteenth() -> None:
    """Twice 36 and a kerf are 72 1/8 in. Twice 35 15/16 and a kerf are 72 in, an exact fit."""
    answer = trim_answer(job(edge=SHORT_THROUGH))
    assert answer.proven
    assert answer.sentence == (
        "Trim 1/16 in more off the north side: that saves a splice, so that none is needed "
        "(finished size then 72 in x 35 15/16 in)."
    )
    assert "splices 1: proven" in answer.more[0]
    assert "splices 0: proven" in answer.more[1]
    outside = planned('north = "6 1/32 in"', edge=SHORT_THROUGH)
    inside = planned('north = "6 1/16 in"', edge=SHORT_THROUGH)
    assert (stage(outside, "splices"), stage(inside, "splices")) == (1, 0)


@pytest.mark.example
def test_a_plan_becomes_possible() -> None:
    """13/16 in is the least; four strips with their kerfs take 3 3/4 in, three are too few (216 of 218 3/4 in)."""
    edge = 'bottom_round_over = "1/8"'
    answer = trim_answer(job("north = 3", edge=edge))
    assert answer.proven
    assert answer.sentence.startswith("Trim 3/4 in more off the north side: that makes a plan possible")
    assert answer.more[0] == "As written: need 218 3/4 in, have 216 in: proven."
    assert answer.more[-1].startswith("Buy or find one more strip")
    edge += '\nstrip_width = "13/16"'
    assert planned('north = "3 23/32 in"', edge=edge).status == "impossible"
    assert planned('north = "3 3/4 in"', edge=edge).status == "ready"


@pytest.mark.example
def test_a_purchase_is_saved() -> None:
    """Three strips of 1 7/8 in with kerfs take 6 in; 5 1/4 in give two, and a plank for 14.00 gives the third."""
    answer = trim_answer(job('north = "5 1/4 in"', edge='strip_width = "1 7/8"', rest=PLANK))
    assert answer.proven
    assert answer.sentence == (
        "Trim 3/4 in more off the north side: that saves the whole purchase, 14.00 "
        "(finished size then 72 in x 36 in)."
    )
    assert figure(answer.rows[0], "cost_cents_before") == 1400
    assert figure(answer.rows[0], "cost_cents_after") == 0


@pytest.mark.example
def test_what_the_saving_costs_is_said() -> None:
    answer = trim_answer(job('north = "5 1/4 in"', edge=SHORT_THROUGH, rest=PLANK))
    assert "saves the whole purchase, 14.00, with 1 splice more" in answer.sentence


@pytest.mark.example
def test_opposite_sides_share_it() -> None:
    """1 1/2 in off each side give a strip of 13/16 each. 3/8 in more off each give two each: 4 x 15/16 = 3 3/4 in.

    Off one side alone three more strips would be needed there: 1 5/16 in more.
    """
    answer = trim_answer(
        job('north = "1 1/2 in"\nsouth = "1 1/2 in"', edge='bottom_round_over = "1/8"\nstrip_width = "13/16"')
    )
    assert answer.sentence.startswith(
        "Trim 3/8 in more off the north and south sides each: that makes a plan"
    )
    assert figure(answer.rows[0], "extra_each_ticks") == ticks("3/8")


@pytest.mark.example
def test_no_trim_saves_anything() -> None:
    """1/2 in gives no strip of 2 in with its kerf, and neither do 2 in more for three strips."""
    answer = trim_answer(job('north = "1/2 in"', edge='strip_width = "2 in"'))
    assert answer.sentence == "No extra trim up to 2 in makes a plan possible."
    assert answer.proven
    assert answer.tried == 1 + 64


@pytest.mark.example
def test_a_stop_that_opens_is_said() -> None:
    """An overhang of 8 in leaves 2 in after 6, so that strips end 1/8 in short of the base; 1/16 less does not."""
    base = "[base]\noverhang = {north = 8, east = 8, south = 8, west = 8}"
    answer = trim_answer(job(edge=SHORT_THROUGH, rest=base))
    assert answer.rows[0].words.endswith("; but it opens stop 302")
    assert figure(answer.rows[0], "stops") == "302"


@pytest.mark.example
def test_nothing_is_cut_yet_so_every_side_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """No offcut, no strips; 1/2 in off a side gives none of 1 in. Four sides by 16 steps, two pairs by 8."""
    monkeypatch.setattr(extra_trim, "MOST_EXTRA", {"in": ticks("1/2")})
    answer = trim_answer(job("", edge='bottom_round_over = "1/8"\nstrip_width = "1 in"'))
    assert answer.sentence == "No extra trim up to 1/2 in makes a plan possible."
    assert answer.tried == 1 + 4 * 16 + 2 * 8


@pytest.mark.property
@pytest.mark.parametrize("mirrored", [("north", "south"), ("south", "north")])
def test_the_other_side_round_it_is_the_same(mirrored: tuple[str, str]) -> None:
    side, _ = mirrored
    answer = trim_answer(job(f"{side} = 6", edge=SHORT_THROUGH))
    (found,) = answer.rows
    assert found.name == f"1/16 in more off the {side} side"
    assert row(answer, found.name).words == "saves a splice, so that none is needed"


@pytest.mark.property
def test_in_millimetres_it_is_the_same() -> None:
    """The same top in millimetres, on the same grid: ticks are alike."""
    inches = trim_answer(job(edge=SHORT_THROUGH))
    twin = job(edge=SHORT_THROUGH, job='bench_grid = "1/32 in"')
    metric = twin.model_copy(update={"info": twin.info.model_copy(update={"units": "mm"})})
    told = trim_answer(metric)
    assert [dict(r.figures) for r in told.rows] == [dict(r.figures) for r in inches.rows]
    assert "~1.6 mm more off the north side" in told.sentence


@pytest.mark.example
def test_many_whole_plans_are_tried_in_larger_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two layers, two sides and both, up to 1/4 in: 8 + 8 + 4 plans of 8 sides on the grid are 160 sides.

    With a limit of 80 every second step is taken. Boards are bought, and 1/4 in more changes nothing of that.
    """
    monkeypatch.setattr(extra_trim, "_MOST_SIDES", 80)
    monkeypatch.setattr(extra_trim, "MOST_EXTRA", {"in": ticks("1/4")})
    board = PLANK.replace("width = 4", "width = 40")
    answer = trim_answer(job("north = 3\nsouth = 3", edge='strip_width = "2 in"\nlayers = 2', rest=board))
    assert answer.sentence == "No extra trim up to 1/4 in saves a purchase."
    assert answer.more[-1] == "Work limit: tried in steps of 1/16 in, finer just below what was found."
    assert answer.tried == 1 + 4 + 4 + 4


@pytest.mark.property
def test_a_larger_step_finds_the_same_least(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = job('north = "5 1/4 in"', edge='strip_width = "1 7/8"', rest=PLANK)
    every = trim_answer(asked)
    monkeypatch.setattr(extra_trim, "_MOST_SIDES", 60)
    fewer = trim_answer(asked)
    assert fewer.rows == every.rows
    assert fewer.tried < every.tried
