"""What more wood saves, by hand; and the least of it against a walk through every step."""

from __future__ import annotations

import pytest
from asking_jobs import PLANK, SHORT_THROUGH, figure, job, row, ticks

from edgewright.cutlist.asking.at_hand import at_hand
from edgewright.cutlist.asking.changes import with_width
from edgewright.cutlist.asking.extra_wood import extra_wood
from edgewright.cutlist.asking.outcome import outcome
from edgewright.cutlist.asking.scarce import scarce_answer
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.design.build import build_design

NORTH = "one more inch of width on the north offcut"
LONGER = "one more inch of length on the north offcut"
IDLE = "changes nothing: not scarce"


@pytest.mark.example
def test_width_gives_wider_strips_and_length_nothing() -> None:
    """7 / 3 - 1/8 = 2.208, on the grid 2 3/16; the next width after 1 7/8 is 1/32 more, three times: 3/32."""
    answer = scarce_answer(job())
    assert answer.proven
    assert answer.sentence == (
        "One more inch of width on the north offcut gives strips 2 3/16 in wide (and 3/32 in already gives 1 29/32 in)."
    )
    assert row(answer, LONGER).words == IDLE
    assert answer.more == (f"Not scarce: {LONGER}.",)
    wider = make_cut_plan(build_design(job('north = "7 in"', width="43")))
    assert wider.strip_width_ticks == ticks("2 3/16")


@pytest.mark.example
def test_length_saves_a_splice() -> None:
    """Twice 36 and a kerf are 72 1/8 in: 1/8 in more of length, and no width, spares the splice."""
    answer = scarce_answer(job(edge=SHORT_THROUGH))
    assert row(answer, LONGER).words == "saves a splice, so that none is needed (1/8 in is enough)"
    assert figure(row(answer, LONGER), "least_that_saves_ticks") == ticks("1/8")
    assert row(answer, NORTH).words == IDLE
    for extra, splices in (("3/32", 1), ("1/8", 0)):
        made = make_cut_plan(
            build_design(job(f'north = 6\neast = "{extra} in"', length=f"72 {extra}", edge=SHORT_THROUGH))
        )
        assert {s.name: s.value for s in made.stages}["splices"] == splices


@pytest.mark.example
def test_width_saves_a_board() -> None:
    """5 1/4 in give two strips of 1 7/8; with 3/4 in more three, so that the plank for 14.00 need not be bought."""
    edge = 'strip_width = "1 7/8"'
    answer = scarce_answer(job('north = "5 1/4 in"', edge=edge, rest=PLANK))
    assert answer.sentence == (
        "One more inch of width on the north offcut saves the whole purchase, 14.00 (3/4 in is enough)."
    )
    assert figure(row(answer, NORTH), "cost_cents_after") == 0
    assert row(answer, "one more inch of width on each plank").words == IDLE
    for extra, width, cost in (("5 31/32", "42 23/32", 1400), ("6", "42 3/4", 0)):
        made = make_cut_plan(build_design(job(f'north = "{extra} in"', width=width, edge=edge, rest=PLANK)))
        assert made.stages[0].value == cost


@pytest.mark.example
def test_without_a_plan_what_makes_one_is_told() -> None:
    """Four strips of 13/16 with kerfs take 3 3/4 in."""
    answer = scarce_answer(job("north = 3", edge='bottom_round_over = "1/8"'))
    assert answer.sentence.startswith(
        "One more inch of width on the north offcut makes a plan possible (3/4 in is enough)"
    )
    assert (
        answer.more[0] == "There is no plan as written: strips 13/16 in wide: need 218 3/4 in, have 216 in."
    )
    assert answer.more[1].startswith("Buy or find one more strip")
    # an inch off the end would give a strip of 13/16 in of its own, so less is looked at
    assert answer.rows[-1].name == "29/32 in more of length on the north offcut"


@pytest.mark.example
def test_boards_are_counted_and_widened() -> None:
    """The ends are 38 - 2 x 1 7/8 = 34 1/4 in; a rail 3 7/8 in wide gives two strips, 34 in long or 71."""
    rail = '[[stock]]\nname = "rail"\nlength = 71\nwidth = "3 7/8"\nthickness = "23/32 in"\ncount = 1\n'
    whole = "[splice]\nallowed = false\n"
    edge = 'strip_width = "1 7/8"'
    answer = scarce_answer(job("north = 4", edge=edge, rest=whole + rail))
    assert (
        answer.sentence
        == "Nothing is scarce so far: one more inch of any one offcut or board changes nothing."
    )
    too_few = job("north = 4", edge=edge, rest=whole)
    assert scarce_answer(too_few).sentence == (
        "No plan as written, and one more inch of any one offcut or board makes none."
    )
    short = rail.replace("length = 71", "length = 34")
    answer = scarce_answer(job("north = 4", edge=edge, rest=whole + short))
    assert row(answer, "one more inch of length on rail").words == "makes a plan possible (1/4 in is enough)"
    assert row(answer, "one more of rail").words == IDLE


@pytest.mark.example
def test_one_more_board() -> None:
    """Ends of 34 1/4 in from boards of one strip each: one on hand, two needed."""
    slat = '[[stock]]\nname = "slat"\nlength = 36\nwidth = 2\nthickness = "23/32 in"\n'
    answer = scarce_answer(job("north = 4", edge='strip_width = "1 7/8"', rest=slat))
    assert row(answer, "one more of slat").words == "makes a plan possible"


@pytest.mark.example
def test_an_end_that_is_cut_stands_for_length() -> None:
    answer = scarce_answer(job("north = 6\neast = 1", edge=SHORT_THROUGH))
    names = [r.name for r in answer.rows]
    assert "one more inch of width on the east offcut (the north offcut grows longer by as much)" in names
    assert not [name for name in names if name.startswith("one more inch of length")]


@pytest.mark.example
def test_without_wood_there_is_none_to_have_more_of() -> None:
    answer = scarce_answer(job("", edge='strip_width = "1 in"'))
    assert answer.sentence.startswith("There is no wood to have more of")
    assert answer.rows == ()


@pytest.mark.example
def test_many_kinds_of_board_are_limited() -> None:
    boards = "".join(
        f'[[stock]]\nname = "b{n}"\nlength = 20\nwidth = 1\nthickness = "23/32 in"\n' for n in range(14)
    )
    answer = scarce_answer(job(edge='strip_width = "1 7/8"', rest=boards))
    assert "Only the first 12 of 14 kinds of board were looked at." in answer.more


@pytest.mark.property
@pytest.mark.parametrize(
    "asked",
    [
        job(edge=SHORT_THROUGH),
        job("north = 3", edge='bottom_round_over = "1/8"\nstrip_width = "13/16"'),
    ],
    ids=["splice", "plan"],
)
def test_more_wood_is_never_worse_and_the_least_is_the_least(asked) -> None:
    at = at_hand(asked)
    answer = scarce_answer(asked)
    for wood in extra_wood(at.design, at.width, 8128):
        if "offcut" not in wood.name:
            continue
        designs = [wood.more(extra) for extra in range(0, wood.most + 1, wood.step)]
        held = [with_width(design, at.width) for design in designs]
        ranks = [outcome(design, prove=False, expect=at.held.possible).rank for design in held]
        assert ranks == sorted(ranks, reverse=True)
        first = next((n * wood.step for n, rank in enumerate(ranks) if rank < at.held.rank), None)
        (found,) = [r for r in answer.rows if r.name.endswith(wood.name)]
        assert dict(found.figures).get("least_that_saves_ticks") == first
