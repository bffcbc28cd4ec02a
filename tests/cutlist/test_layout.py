from __future__ import annotations

import dataclasses

import pytest
from strip_cases import EIGHTH, INCH, INCH_RULES, lane, side, stick

from edgewright.cutlist.fill import Segment
from edgewright.cutlist.layout import inwards, lane_rests, lay_pieces, remnants, ripped_strips
from edgewright.cutlist.model import DefectBox, Lane, SawCut, Stick


@pytest.mark.example
def test_pieces_lie_longest_first_with_a_kerf_between() -> None:
    sides = [side("E1", 20 * INCH), side("N1", 40 * INCH)]
    segments = [Segment("E1", 0, 20 * INCH, "a"), Segment("N1", 0, 40 * INCH, "a")]
    laid = lay_pieces(segments, sides, [lane("a", 72 * INCH)], INCH_RULES, INCH)
    assert [(p.id, p.lane_start_ticks) for p in laid] == [("N1", 0), ("E1", 40 * INCH + EIGHTH)]


@pytest.mark.example
def test_parts_of_a_side_carry_letters_in_its_own_order() -> None:
    segments = [Segment("N1", 40 * INCH, 32 * INCH, "a"), Segment("N1", 0, 40 * INCH, "b")]
    laid = lay_pieces(
        segments, [side("N1", 72 * INCH)], [lane("a", 50 * INCH), lane("b", 50 * INCH)], INCH_RULES, INCH
    )
    assert {p.id: (p.lane_id, p.side_start_ticks) for p in laid} == {"N1a": ("b", 0), "N1b": ("a", 40 * INCH)}


@pytest.mark.example
def test_mitred_pieces_nest_by_turns() -> None:
    """Each next piece overlaps by the strip's width and gives up a slanted kerf; every second one is turned."""
    sides = [dataclasses.replace(side(f"{n}1", 20 * INCH), end_cut="mitre") for n in "NES"]
    segments = [Segment(s.id, 0, s.length_ticks, "a") for s in sides]
    laid = lay_pieces(segments, sides, [lane("a", 72 * INCH)], INCH_RULES, 2 * INCH)
    step = 20 * INCH - 2 * INCH + INCH_RULES.mitre_kerf_ticks
    assert [p.lane_start_ticks for p in laid] == [0, step, 2 * step]
    assert [p.turned for p in laid] == [False, True, False]
    flat = dataclasses.replace(INCH_RULES, nest_mitres=False)
    plain = lay_pieces(segments, sides, [lane("a", 72 * INCH)], flat, 2 * INCH)
    assert [p.lane_start_ticks for p in plain] == [0, 20 * INCH + EIGHTH, 2 * (20 * INCH + EIGHTH)]
    assert not any(p.turned for p in plain)


@pytest.mark.example
def test_a_spliced_mitred_piece_does_not_nest_with_its_square_end() -> None:
    mitred = dataclasses.replace(side("N1", 60 * INCH), end_cut="mitre")
    whole = dataclasses.replace(side("E1", 20 * INCH), end_cut="mitre")
    segments = [
        Segment("N1", 0, 40 * INCH, "a"),
        Segment("N1", 40 * INCH, 20 * INCH, "b"),
        Segment("E1", 0, 20 * INCH, "a"),
    ]
    laid = lay_pieces(
        segments, [mitred, whole], [lane("a", 72 * INCH), lane("b", 72 * INCH)], INCH_RULES, INCH
    )
    by_name = {p.id: p for p in laid}
    assert (by_name["N1a"].start_cut, by_name["N1a"].end_cut) == ("mitre", "square")
    assert (by_name["N1b"].start_cut, by_name["N1b"].end_cut) == ("square", "mitre")
    assert by_name["E1"].lane_start_ticks == 40 * INCH + EIGHTH


def cut(yields: str, width: int) -> SawCut:
    return SawCut(1, "rip", "north", "south", "old", 0, 0, "keep", 0, 0, 0, width, 72 * INCH, yields)


@pytest.mark.example
def test_what_is_left_of_lanes_and_boards() -> None:
    """A lane of 72 with 40 in it leaves 72 - 40 - 1/8; a spare lane of a board is part of its unripped rest."""
    board = dataclasses.replace(stick("b", 72 * INCH, 72 * INCH), width_ticks=3 * INCH)
    pieces = lay_pieces(
        [Segment("N1", 0, 40 * INCH, "b.1")], [side("N1", 40 * INCH)], board.lanes, INCH_RULES, INCH
    )
    assert lane_rests([board], pieces, INCH_RULES) == {"b.1": 32 * INCH - EIGHTH, "b.2": 72 * INCH}
    left = {r.id: (r.length_ticks, r.width_ticks) for r in remnants([board], pieces, (), INCH_RULES)}
    assert left == {"rest of b.1": (32 * INCH - EIGHTH, INCH), "rest of b": (72 * INCH, 2 * INCH - EIGHTH)}


@pytest.mark.example
def test_a_board_that_is_not_bought_leaves_nothing() -> None:
    sale = stick("s", 72 * INCH, price=100)
    assert lane_rests([sale], (), INCH_RULES) == {}
    assert remnants([sale], (), (), INCH_RULES) == ()


@pytest.mark.example
def test_the_rest_of_an_offcut_is_what_its_own_cut_frees() -> None:
    lanes = (lane("offcut north 1", 72 * INCH), lane("offcut north 2", 72 * INCH))
    offcut = Stick("offcut north", "offcut", "offcut", "north", 72 * INCH, 4 * INCH, 0, lanes)
    pieces = lay_pieces(
        [Segment("N1", 0, 72 * INCH, "offcut north 1")], [side("N1", 72 * INCH)], lanes, INCH_RULES, INCH
    )
    cuts = (cut("rest of offcut north", 2 * INCH), cut("offcut north 1", INCH))
    (rest,) = remnants([offcut], pieces, cuts, INCH_RULES)
    assert (rest.id, rest.length_ticks, rest.width_ticks) == ("rest of offcut north", 72 * INCH, 2 * INCH)


def defective(*strips: tuple[int, ...]) -> Stick:
    """An offcut whose strips, from the finished edge outwards, have clean runs of so many inches."""
    lanes = tuple(
        Lane(f"n{row}{letter}", length * INCH, INCH, 0, 0, f"n{row}")
        for row, runs in enumerate(strips, 1)
        for letter, length in zip("abc", runs, strict=False)
    )
    return Stick("offcut north", "offcut", "offcut", "north", 72 * INCH, 9 * INCH, 0, lanes)


def moved(stick_: Stick, *where: tuple[str, int]) -> list[tuple[str, int]]:
    """Pieces of so many inches, one in each lane, before and after they are drawn inwards."""
    sides = [side(f"N{n}", length * INCH) for n, (_, length) in enumerate(where, 1)]
    segments = [
        Segment(one.id, 0, one.length_ticks, name) for one, (name, _) in zip(sides, where, strict=True)
    ]
    pieces = lay_pieces(segments, sides, stick_.lanes, INCH_RULES, INCH)
    return [(p.lane_id, p.length_ticks // INCH) for p in inwards(pieces, [stick_])]


@pytest.mark.example
def test_pieces_are_drawn_in_only_where_they_fit() -> None:
    """Strip 1 has runs of 30 and 35: a piece of 40 stays outside, one of 33 goes to the longer run."""
    stock = defective((30, 35), (72,), (60,))
    assert moved(stock, ("n2a", 40)) == [("n2a", 40)]
    assert moved(stock, ("n2a", 33)) == [("n1b", 33)]
    assert moved(stock, ("n2a", 40), ("n3a", 50)) == [("n2a", 40), ("n3a", 50)]
    # strip 2 gives way to strip 1, and strip 3 to strip 2
    assert moved(stock, ("n2a", 33), ("n3a", 50)) == [("n1b", 33), ("n2a", 50)]


@pytest.mark.example
def test_two_runs_of_a_strip_move_together_or_not_at_all() -> None:
    stock = defective((50,), (30, 35), (40, 31))
    assert moved(stock, ("n3a", 34), ("n3b", 30)) == [("n2a", 30), ("n2b", 34)]
    assert moved(stock, ("n3a", 36), ("n3b", 30)) == [("n3a", 36), ("n3b", 30)]


@pytest.mark.example
def test_a_board_with_defects_is_ripped_up_to_the_last_strip_in_use() -> None:
    board = dataclasses.replace(stick("b", 72 * INCH, 72 * INCH, 72 * INCH), width_ticks=5 * INCH)
    used = frozenset({"b.2"})
    assert [strip[0].id for strip in ripped_strips(board, used)] == ["b.2"]
    knot = DefectBox("knot", False, (0, INCH), (0, INCH))
    assert [strip[0].id for strip in ripped_strips(dataclasses.replace(board, defects=(knot,)), used)] == [
        "b.1",
        "b.2",
    ]
