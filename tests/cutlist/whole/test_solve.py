from __future__ import annotations

import dataclasses
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from whole_cases import one_stock, paper_rolls, plain, shop, slow_best, triplets, uniform

from edgewright.cutlist.check_whole import check_whole
from edgewright.cutlist.whole.model import Limits, PieceKind, StickKind, WholeProblem, WholeResult
from edgewright.cutlist.whole.solve import solve_whole
from edgewright.errors import InputError

quick = settings(derandomize=True, deadline=None, max_examples=100)


def solved(problem: WholeProblem) -> WholeResult:
    """Solve, and hold the result against the checker."""
    result = solve_whole(problem)
    assert check_whole(plain(problem), plain(result)) == ()
    return result


def values(result: WholeResult) -> tuple[int | None, ...]:
    return tuple(stage.value for stage in result.stages)


def simple(
    stock: list[tuple[int, int | None, int]], pieces: list[tuple[int, int]], kerf: int
) -> WholeProblem:
    """Sticks (length, count, price) of one lane each, and pieces (length, count)."""
    kinds = tuple(
        StickKind(f"s{at}", count, (price, 1), ((length, 1),))
        for at, (length, count, price) in enumerate(stock)
    )
    return WholeProblem(kinds, tuple(PieceKind(f"p{at}", *piece) for at, piece in enumerate(pieces)), kerf)


# --- worked cases ---


@pytest.mark.example
def test_two_pieces_and_one_kerf_fill_a_stick_exactly() -> None:
    # 35 + 35 + one kerf of 2 = 72; the last cut runs out of the end
    problem = simple([(72, None, 5)], [(35, 4)], 2)
    result = solved(problem)
    assert values(result) == (10, 2)
    assert [(p.pieces, p.times) for p in result.patterns] == [((("p0", 2),), 2)]
    assert values(solved(dataclasses.replace(problem, kerf=3))) == (20, 4)


@pytest.mark.example
def test_own_wood_goes_first_and_then_fewest_sticks_count() -> None:
    # money: the own 50 takes one 40, the two others go into one 90 for 7, rather than two 45 for 4 each
    result = solved(simple([(50, 1, 0), (90, None, 7), (45, None, 4)], [(40, 3)], 1))
    assert values(result) == (7, 2)
    assert result.sticks == (("s0", 1), ("s1", 1))


@pytest.mark.example
def test_a_board_gives_all_its_lanes() -> None:
    # three lanes of 60 and one of 30 a board: six 40 take two boards, whose short lanes take the two 30
    kinds = (StickKind("board", None, (9, 1), ((60, 3), (30, 1))),)
    result = solved(WholeProblem(kinds, (PieceKind("a", 40, 6), PieceKind("b", 30, 2)), 2))
    assert values(result) == (18, 2)
    assert sum(p.times for p in result.patterns if p.lane_length == 60) == 6


@pytest.mark.example
def test_lengths_suffice_but_pieces_do_not_go_in() -> None:
    # three of 5 into 9 and 6: 15 of 15, but only one goes into each stick
    problem = simple([(9, 1, 0), (6, 1, 0)], [(5, 3)], 0)
    result = solved(problem)
    assert (result.status, result.proven, result.patterns) == ("impossible", True, ())


@pytest.mark.example
def test_a_stick_more_than_the_relaxation_needs() -> None:
    # the relaxation is content with 3 sticks of 12, but 7 + 5, 6 + 6 and 4 + 4 + 4 cannot be had from these
    problem = one_stock(12, [7, 7, 6, 4, 4, 4, 4])
    assert slow_best(problem) == (4,)
    assert values(solved(problem)) == (4,)


@pytest.mark.example
def test_pieces_of_one_length_keep_their_names() -> None:
    result = solved(simple([(10, None, 1)], [(5, 3), (5, 2)], 0))
    cut: dict[str, int] = {}
    for pattern in result.patterns:
        for name, count in pattern.pieces:
            cut[name] = cut.get(name, 0) + count * pattern.times
    assert cut == {"p0": 3, "p1": 2}


@pytest.mark.example
def test_thousands_of_pieces_are_counted_by_kind() -> None:
    # 6000 * 13 + 1000 * 9 = 87000, but only 7 of 13 with one of 9 fill 100, so that 870 full sticks cannot be had
    result = solved(simple([(100, None, 1)], [(13, 6000), (9, 1000)], 0))
    assert result.proven
    assert values(result) == (871, 871)


@pytest.mark.example
def test_fine_units_need_no_table() -> None:
    # inches and millimetres in one job: lengths in ticks without a common factor
    pieces = [(8128 * 31 + 127, 4), (320 * 613, 5), (8128 * 17 + 381, 6), (320 * 455 + 32, 3)]
    result = solved(simple([(8128 * 96, 3, 0), (320 * 2400, None, 1450)], pieces, 1016))
    assert result.proven


# --- published classes ---


@pytest.mark.reference
def test_paper_rolls() -> None:
    """The classic example, from memory: 73 rolls."""
    assert values(solved(paper_rolls())) == (73,)


@pytest.mark.reference
@pytest.mark.parametrize(("items", "seed"), [(60, 0), (60, 1), (120, 3), (120, 6), (249, 0), (501, 2)])
def test_triplets_fill_every_bin(items: int, seed: int) -> None:
    """Falkenauer 1996, recipe in `whole_cases`: the optimum is a third of the items by construction."""
    result = solved(triplets(items, seed))
    assert result.proven
    assert values(result) == (items // 3,)


@pytest.mark.reference
@pytest.mark.parametrize(
    ("items", "seed"), [(120, 0), (120, 1), (250, 0), (250, 1), (500, 0), (500, 1), (1000, 0), (1000, 1)]
)
def test_uniform_class_is_proven(items: int, seed: int) -> None:
    """Falkenauer 1996, recipe in `whole_cases`: the bound is our own, recomputed by the checker."""
    assert solved(uniform(items, seed)).proven


@pytest.mark.reference
@pytest.mark.parametrize("seed", range(12))
def test_shop_cases_are_proven(seed: int) -> None:
    assert solved(shop(seed)).proven


# --- properties ---

LENGTHS = st.integers(1, 20)
SMALL = st.builds(
    lambda kinds, pieces, kerf: WholeProblem(
        tuple(
            StickKind(f"s{at}", count, (price, 1), lanes) for at, (count, price, lanes) in enumerate(kinds)
        ),
        tuple(PieceKind(f"p{at}", length, count) for at, (length, count) in enumerate(pieces)),
        kerf,
    ),
    st.lists(
        st.tuples(
            st.sampled_from([None, 1, 2]),
            st.sampled_from([0, 3, 5, 7]),
            st.lists(st.tuples(st.integers(6, 20), st.integers(1, 2)), min_size=1, max_size=2).map(tuple),
        ),
        min_size=1,
        max_size=3,
    ),
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 2)), min_size=1, max_size=4),
    st.integers(0, 3),
)


@pytest.mark.property
@quick
@given(SMALL)
def test_equal_to_trying_everything(problem: WholeProblem) -> None:
    best = slow_best(problem)
    result = solved(problem)
    assert result.proven
    assert (None if result.status == "impossible" else values(result)) == best


@pytest.mark.property
@quick
@given(SMALL, st.randoms(use_true_random=False))
def test_order_of_the_input_changes_nothing(problem: WholeProblem, draw: Any) -> None:
    kinds, pieces = list(problem.kinds), list(problem.pieces)
    draw.shuffle(kinds)
    draw.shuffle(pieces)
    turned = solved(WholeProblem(tuple(kinds), tuple(pieces), problem.kerf))
    result = solve_whole(problem)
    assert (turned.status, turned.sticks, turned.patterns) == (result.status, result.sticks, result.patterns)
    assert values(turned) == values(result)


@pytest.mark.property
@quick
@given(SMALL, st.integers(6, 20), st.sampled_from([0, 4]))
def test_more_stock_is_never_worse(problem: WholeProblem, length: int, price: int) -> None:
    more = (*problem.kinds, StickKind("more", 1, (price, 1), ((length, 1),)))
    result, richer = solve_whole(problem), solved(dataclasses.replace(problem, kinds=more))
    if result.status == "cut":
        assert values(richer) <= values(result)


@pytest.mark.property
@quick
@given(SMALL, st.integers(2, 9))
def test_unit_changes_nothing(problem: WholeProblem, times: int) -> None:
    finer = WholeProblem(
        tuple(
            dataclasses.replace(kind, lanes=tuple((length * times, each) for length, each in kind.lanes))
            for kind in problem.kinds
        ),
        tuple(dataclasses.replace(piece, length=piece.length * times) for piece in problem.pieces),
        problem.kerf * times,
    )
    assert solve_whole(finer).sticks == solve_whole(problem).sticks


# --- limits and bad input ---


@pytest.mark.example
@pytest.mark.parametrize("limits", [Limits(nodes=0), Limits(rounds=0), Limits(columns=0)])
def test_at_the_limit_the_best_so_far_comes_with_its_bound(limits: Limits) -> None:
    problem = triplets(60, 0)
    result = solve_whole(problem, limits)
    assert check_whole(plain(problem), plain(result)) == ()
    assert (result.status, result.proven) == ("cut", False)
    assert result.stages[0].bound == 20
    assert result.stages[0].value is not None
    assert result.stages[0].value > 20


@pytest.mark.example
def test_a_caller_can_stop_it_between_rounds() -> None:
    asked = []

    def stop() -> bool:
        asked.append(1)
        return len(asked) > 3

    problem = shop(0)
    result = solve_whole(problem, should_stop=stop)
    assert check_whole(plain(problem), plain(result)) == ()
    assert (result.status, result.proven) == ("cut", False)
    assert solve_whole(problem).proven


@pytest.mark.example
def test_open_when_nothing_was_found_within_the_limits() -> None:
    # the longest first gives 6 + 4, 4 + 4 + 3 and a 3 left over; 6 + 3 + 3 and 4 + 4 + 4 fill both sticks
    problem = simple([(12, 2, 0)], [(6, 1), (4, 3), (3, 2)], 0)
    assert solved(problem).status == "cut"
    result = solve_whole(problem, Limits(nodes=0))
    assert check_whole(plain(problem), plain(result)) == ()
    assert (result.status, result.proven) == ("open", False)


GOOD = simple([(72, 4, 5)], [(35, 4)], 2)


@pytest.mark.example
@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"kinds": ()}, "no stock: give at least one stick kind"),
        ({"kinds": (StickKind("s", 0, (1,), ((72, 1),)),)}, "no stock: every stick kind has a count of 0"),
        ({"kinds": (StickKind("s", 1, (1,), ()),)}, "stick kind 's' has no lanes"),
        ({"kinds": (StickKind("s", 1, (1,), ((0, 1),)),)}, "lane length of stick kind 's': got 0"),
        ({"kinds": (StickKind("s", 1, (1,), ((72, 0),)),)}, "lanes a stick of stick kind 's': got 0"),
        ({"kinds": (StickKind("s", -1, (1,), ((72, 1),)),)}, "count of stick kind 's': got -1"),
        ({"kinds": (StickKind("s", 1, (-3,), ((72, 1),)),)}, "weight of stick kind 's': got -3"),
        ({"kinds": (StickKind("s", 1, (), ((72, 1),)),)}, "weights of stick kind 's': got 0"),
        ({"kinds": (*GOOD.kinds, *GOOD.kinds)}, "stick kind 's0' is given twice"),
        ({"pieces": (*GOOD.pieces, *GOOD.pieces)}, "piece 'p0' is given twice"),
        ({"pieces": ()}, "no pieces are wanted"),
        ({"pieces": (PieceKind("p", 10, 0),)}, "no pieces are wanted"),
        ({"pieces": (PieceKind("p", 0, 1),)}, "length of piece 'p': got 0, must be at least 1"),
        ({"pieces": (PieceKind("p", 5, -1),)}, "count of piece 'p': got -1"),
        (
            {"pieces": (PieceKind("p", 73, 1),)},
            "length of piece 'p': got 73, the longest lane there is takes 72",
        ),
        (
            {"pieces": (PieceKind("p", 10**9, 1),)},
            "length of piece 'p': got 1000000000, must be at most 100000000",
        ),
        ({"pieces": (PieceKind("p", 5, 10**6),)}, "pieces: got 1000000, must be at most 100000 together"),
        (
            {"kinds": (StickKind("s", 1, (10**12,), ((72, 1),)),)},
            "weight of stick kind 's': got 1000000000000",
        ),
        ({"kerf": -1}, "kerf: got -1, must be at least 0"),
    ],
)
def test_bad_input_is_named(change: dict[str, Any], words: str) -> None:
    with pytest.raises(InputError) as caught:
        solve_whole(dataclasses.replace(GOOD, **change))
    assert str(caught.value).startswith(words)
