"""Margins by hand, and planned again from a job file just inside and just outside of each answer.

n strips of an offcut take n (w + k): three of 1 7/8 in take 6 in with kerfs of 1/8.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from asking_jobs import PLANK, figure, job, row

from edgewright.cutlist.asking.lost_strips import show_fine
from edgewright.cutlist.asking.margins import margins_answer
from edgewright.cutlist.asking.model import Answer
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.plan import plan
from edgewright.design.build import build_design
from edgewright.findings import open_stops
from edgewright.trade import inch

WIDE = 'strip_width = "1 7/8"'


@pytest.fixture(scope="module")
def six_inches() -> Answer:
    """The answer of the worked job, which two tests read."""
    return margins_answer(job())


def told(answer: Answer, start: str) -> str:
    """The sentences of a reading, upwards and downwards."""
    return " ".join(sentence for sentence in answer.more if sentence.startswith(start))


def is_ready(trim: str, *, kerf: str = "1/8", width: str = "42", length: str = "72", **more: str) -> bool:
    """Whether there is a plan on a grid fine enough for such a kerf."""
    rest = f'[saw]\nkerf = "{kerf} in"\n' + more.pop("rest", "")
    asked = job(trim, width=width, length=length, rest=rest, job='bench_grid = "1/64 in"', **more)
    return make_cut_plan(build_design(asked)).status == "ready"


@pytest.mark.example
def test_six_inches_have_no_room(six_inches: Answer) -> None:
    """3 x (1 7/8 + 17/128) = 6 3/128 in; a top 1/128 narrower leaves 5 127/128 of them. 3 x (1 27/32 + 5/32) = 6."""
    answer = six_inches
    assert answer.proven
    assert answer.sentence == (
        "The plan has no room for a wider kerf or a top that is narrower than was read: 1/128 in is too much."
    )
    assert (
        "no room above; at 17/128 in strips 1 7/8 in wide no longer come out (3 strips and 3 kerfs take 6 3/128 in "
        "of the 6 in of offcut from the north side: need 208 1/2 in, have 144 in)"
    ) in told(answer, "Kerf 1/8 in")
    assert "holds down to 1/16 in, as far as was tried" in told(answer, "Kerf 1/8 in")
    assert "no room below; at 41 127/128 in" in told(answer, "Old width 42 in")
    assert "holds up to 42 1/16 in" in told(answer, "Old width 42 in")
    assert "holds up to 72 1/16 in" in told(answer, "Old length 72 in")
    assert "Strips 1 27/32 in wide stand every one of these off by 1/32 in" in " ".join(answer.more)
    assert row(answer, "kerf 5/32 in").words.endswith("; 1 27/32 in would come out")
    assert row(answer, "kerf 3/32 in").words == "holds"


@pytest.mark.example
def test_a_sixteenth_to_spare() -> None:
    """6 1/16 in: three kerfs may grow by 1/48 in each, so by 2/128 but not by 3/128; the top may be 1/16 narrower."""
    spare = 'north = "6 1/16 in"'
    answer = margins_answer(job(spare, edge=WIDE))
    kerf = told(answer, "Kerf 1/8 in")
    assert "the plan holds up to 9/64 in; at 19/128 in strips 1 7/8 in wide no longer come out" in kerf
    assert "take 6 9/128 in of the 6 1/16 in" in kerf
    assert "holds down to 41 15/16 in, as far as was tried" in told(answer, "Old width 42 in")
    assert answer.sentence == "The plan is lost first by a wider kerf: it stands up to 1/64 in."
    assert is_ready(spare, edge=WIDE, kerf="9/64")
    assert not is_ready(spare, edge=WIDE, kerf="5/32")


@pytest.mark.example
def test_a_narrower_top_takes_it_from_the_first_cut() -> None:
    """6 1/32 in leave 1/32 to spare; the finished width stays, so what comes off is less by as much."""
    answer = margins_answer(job('north = "6 1/32 in"', edge=WIDE))
    assert "the plan holds down to 41 31/32 in; at 41 123/128 in" in told(answer, "Old width 42 in")
    assert is_ready('north = "6 in"', width="41 31/32", edge=WIDE)
    assert not is_ready('north = "5 63/64 in"', width="41 61/64", edge=WIDE)


@pytest.mark.example
def test_a_shorter_top_ends_proud_strips() -> None:
    """Strips 1/16 proud at both ends need 72 1/8 in whole: 72 5/32 have 1/32 to spare."""
    edge, whole = f'proud = "1/16 in"\n{WIDE}', "[splice]\nallowed = false\n"
    answer = margins_answer(
        job('north = "6 1/8 in"\neast = "5/32 in"', length="72 5/32", edge=edge, rest=whole)
    )
    length = told(answer, "Old length 72 5/32 in")
    assert "the plan holds down to 72 1/8 in; at 72 15/128 in" in length
    assert "holds up to 72 7/32 in" in length
    ends = 'north = "6 1/8 in"\neast = '
    assert is_ready(f'{ends}"1/8 in"', length="72 1/8", edge=edge, rest=whole)
    assert not is_ready(f'{ends}"7/64 in"', length="72 7/64", edge=edge, rest=whole)


@pytest.mark.example
def test_boards_match_within_a_64th() -> None:
    answer = margins_answer(job("north = 4", edge=WIDE, rest=PLANK.replace("price = 14", "")))
    thick = told(answer, "Thickness 23/32 in")
    assert "the plan holds up to 47/64 in; at 95/128 in strips 1 7/8 in wide no longer come out" in thick
    assert "the plan holds down to 45/64 in; at 89/128 in" in thick
    assert "boards no longer match the thickness of the strips: need 212 1/2 in, have 144 in" in thick


@pytest.mark.example
def test_a_thinner_top_leaves_no_flat_for_the_bearing() -> None:
    """5/8 + 5/8 + a bearing of 3/16 are 1 7/16 in, as thick as the edge of twice 23/32 in: none may be thinner."""
    round_overs = 'top_round_over = "5/8"\nbottom_round_over = "5/8"\n'
    answer = margins_answer(job(edge=round_overs))
    thick = told(answer, "Thickness 23/32 in")
    assert "no room below; at 91/128 in something is lost (opens stop 202" in thick
    assert "holds up to 25/32 in" in thick
    for thickness, stops in (("23/32", []), ("45/64", [202])):
        found = plan(job(edge=round_overs, thickness=thickness)).findings
        assert [stop.number for stop in open_stops(found)] == stops


@pytest.mark.example
def test_strips_of_a_given_thickness_match_the_offcut_within_a_32nd() -> None:
    answer = margins_answer(job(edge=f'strip_thickness = "23/32"\n{WIDE}'))
    thick = told(answer, "Thickness 23/32 in")
    assert "the plan holds up to 3/4 in; at 97/128 in" in thick
    assert "the plan holds down to 11/16 in; at 87/128 in" in thick
    assert "offcuts not used" in thick


@pytest.mark.example
def test_without_a_plan_a_reading_may_be_the_reason() -> None:
    """5 31/32 in are 1/32 short of three strips and kerfs: with kerfs of 7/64 they take 5 61/64."""
    answer = margins_answer(job('north = "5 31/32 in"', edge=WIDE))
    assert answer.sentence.startswith(
        "There is no plan that could be lost: strips 1 7/8 in wide: need 208 9/16 in, have 144 in."
    )
    assert (
        "But there would be one with kerf 3/32 in or kerf 7/64 in or old width 42 1/32 in" in answer.sentence
    )
    none = margins_answer(job("north = 3", edge='bottom_round_over = "1/8"'))
    assert none.sentence.endswith("No reading that is a little off would make one.")
    assert none.more[0].startswith("Buy or find one more strip")


@pytest.mark.property
def test_trimmed_from_the_other_side_it_is_the_same(six_inches: Answer) -> None:
    north, south = six_inches, margins_answer(job("south = 6"))
    assert [s.replace("north", "south") for s in north.more] == list(south.more)
    assert [r.figures for r in north.rows] == [r.figures for r in south.rows]


@pytest.mark.example
def test_a_metric_job_is_searched_by_tenths() -> None:
    """Three strips of 48 mm and kerfs of 3 mm take 153 mm; 153.4 leave 0.1 for each kerf, and 0.4 for the width."""
    metric = job(
        'north = "153.4 mm"', edge='strip_width = "48 mm"', width="42", rest='[saw]\nkerf = "3 mm"'
    ).model_copy()
    info = metric.info.model_copy(update={"units": "mm", "bench_grid": None})
    top = metric.top.model_copy(update={"width": type(metric.top.width)("1067.4 mm", Fraction("1067.4"))})
    answer = margins_answer(metric.model_copy(update={"info": info, "top": top}))
    assert "the plan holds up to 3.1 mm; at 3.2 mm" in told(answer, "Kerf 3 mm")
    assert "the plan holds down to 1067 mm; at 1066.9 mm" in told(answer, "Old width 1067.4 mm")
    assert {abs(float(str(figure(r, "error_mm")))) for r in answer.rows} == {0.5, 1.0}


@pytest.mark.example
def test_fine_lengths_are_shown_to_the_step_of_the_search() -> None:
    assert show_fine(inch("17/128"), "in") == "17/128 in"
    assert show_fine(inch("1/3"), "in") == "~43/128 in"
    assert show_fine(Fraction("3.1"), "mm") == "3.1 mm"
    assert show_fine(Fraction("3.14"), "mm") == "~3.1 mm"
