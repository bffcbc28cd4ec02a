from __future__ import annotations

import pytest
from whole_cases import one_stock, shop

from edgewright.cutlist.whole.model import PieceKind, StickKind, WholeProblem
from edgewright.cutlist.whole.solve import solve_whole
from edgewright.cutlist.whole.words import bound_in_words
from edgewright.display import show_ticks

INCH = 8128


def words(problem: WholeProblem) -> str | None:
    return bound_in_words(problem, solve_whole(problem), lambda ticks: show_ticks(ticks, "in"))


def sticks(length: float, count: int | None, pieces: list[tuple[float, int]], kerf: float) -> WholeProblem:
    kind = StickKind("stick", count, (1,), ((round(length * INCH), 1),))
    wanted = tuple(PieceKind(f"p{at}", round(size * INCH), n) for at, (size, n) in enumerate(pieces))
    return WholeProblem((kind,), wanted, round(kerf * INCH))


@pytest.mark.example
def test_lengths_alone_say_why_there_must_be_one_more() -> None:
    # 2 * 60 + 2 * 49 3/8 = 218 3/4, and three sticks of 72 hold 216
    text = words(sticks(72, None, [(60, 2), (49.375, 2)], 0.125))
    assert text == "the pieces take 218 3/4 in, 3 sticks hold 216 in"


@pytest.mark.example
def test_kerfs_are_named_where_they_decide() -> None:
    # six of 24 are two sticks of 72 to the last tick; six pieces from two sticks need four kerfs of 1/8
    text = words(sticks(72, None, [(24, 6)], 0.125))
    assert text == "the pieces and kerfs take 144 1/2 in, 2 sticks hold 144 in"


@pytest.mark.example
def test_what_cannot_be_done_at_all() -> None:
    assert words(sticks(72, 1, [(40, 2)], 0)) == "the pieces take 80 in, 1 stick holds 72 in"


@pytest.mark.example
def test_no_words_where_it_takes_more_than_lengths() -> None:
    # two of 40 do not go into one stick of 72, though 144 holds 120
    assert words(sticks(72, None, [(40, 3)], 0)) is None
    assert words(sticks(72, 2, [(40, 3)], 0)) is None
    assert words(sticks(72, None, [(24, 3)], 0)) == "the pieces take 72 in, 0 sticks hold 0 in"
    assert words(shop(0)) is None
    assert words(one_stock(12, [7, 7, 6, 4, 4, 4, 4])) is None
