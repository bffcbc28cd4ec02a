"""Best side and corners: the worked table, and the ranking against a second one."""

from __future__ import annotations

from itertools import pairwise

import pytest
from asking_jobs import PLANK, SHORT_THROUGH, figure, job, ticks

from edgewright.cutlist.asking.best import best_answer
from edgewright.cutlist.compare import compare


@pytest.mark.example
def test_one_side_beats_both() -> None:
    """6 / 3 - 1/8 = 1 7/8 in from one side, 3 / 2 - 1/8 = 1 3/8 in from both; short pair through needs a splice."""
    answer = best_answer(job())
    assert answer.proven
    assert answer.tried == 12
    assert answer.sentence.startswith("Nothing is better than the job as written: nothing to buy, 0 splices")
    assert "Decided by strip width: 1 3/8 in against 1 7/8 in." in answer.more[1]
    assert "off centre: 3 in north or 3 in south" in answer.more[0]
    first, second = answer.rows[:2]
    assert set(str(figure(first, "names")).split("; ")) == {
        "as written",
        "all off south",
        "pinwheel",
        "mitre",
        "all off south, pinwheel",
        "all off south, mitre",
    }
    assert figure(first, "strip_width_ticks") == ticks("1 7/8")
    assert figure(second, "strip_width_ticks") == ticks("1 3/8")
    assert figure(answer.rows[-1], "splices") == 1


@pytest.mark.example
def test_the_job_as_written_is_told_where_it_stands() -> None:
    both = best_answer(job("north = 3\nsouth = 3"))
    assert both.sentence.startswith("Best: all off north; all off south; ")
    assert both.more[1].startswith("Second: as written; ")
    spliced = best_answer(job(edge=SHORT_THROUGH))
    assert spliced.sentence.startswith("Best: butt long through; ")
    assert "Decided by splices: 1 splice against 0 splices." in spliced.more[1]


@pytest.mark.example
def test_mitres_that_may_not_nest_lose_width() -> None:
    answer = best_answer(job(edge="nest_mitres = false"))
    (with_mitre,) = [r for r in answer.rows if "mitre" in str(figure(r, "names")).split("; ")]
    assert figure(with_mitre, "strip_width_ticks") == ticks("1 3/8")


@pytest.mark.example
def test_without_a_plan_the_nearest_is_told() -> None:
    """3 strips of 72 in against 218 3/4; half on each side only 2; mitres need 2 x 72 + 2 x 39 less what nests."""
    answer = best_answer(job("north = 3", edge='bottom_round_over = "1/8"'))
    assert answer.sentence.startswith("No side and no corners make a plan possible. Nearest: as written; ")
    assert "short by 2 3/4 in of strip 13/16 in wide" in answer.sentence
    assert answer.more == ()
    assert answer.proven
    short = [figure(r, "short_ticks") for r in answer.rows]
    assert short[0] == ticks("2 3/4")
    assert short == sorted(short)


@pytest.mark.property
@pytest.mark.parametrize(
    "asked",
    [
        job("north = 3\nsouth = 3"),
        job('north = "5 1/4 in"', edge=SHORT_THROUGH, rest=PLANK),
    ],
    ids=["both sides", "board"],
)
def test_ranked_as_said(asked) -> None:
    """Each class against the next, by keys written down a second time; and nothing is lost of what was planned."""
    answer = best_answer(asked)

    def key(r):
        return (
            figure(r, "strip_width_ticks") is None,
            not figure(r, "ready"),
            figure(r, "short_ticks") or 0,
            figure(r, "cost_cents"),
            figure(r, "splices") or 0,
            -(figure(r, "strip_width_ticks") or 0),
            figure(r, "sticks") or 0,
            figure(r, "strips") or 0,
        )

    assert all(key(a) < key(b) for a, b in pairwise(answer.rows))
    (group,) = compare(asked, ["sides", "corners"], combine=True).groups
    names = [name for r in answer.rows for name in str(figure(r, "names")).split("; ")]
    assert sorted(names) == sorted(r.name for r in group.rows)
    by_name = {r.name: r for r in group.rows}
    for r in answer.rows:
        for name in str(figure(r, "names")).split("; "):
            assert by_name[name].strip_width_ticks == figure(r, "strip_width_ticks")
            assert by_name[name].cost_cents == figure(r, "cost_cents")
