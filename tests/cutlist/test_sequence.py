"""Fence settings and stops: each is set once, and what is printed of a strip adds up to the strip."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strip_cases import EIGHTH, INCH, INCH_RULES, side, stick

from edgewright.cutlist.bench_cuts import crosscuts, fence_rips
from edgewright.cutlist.model import Piece, RingSide, Stick
from edgewright.cutlist.plan import plan
from edgewright.cutlist.sequence import fence_settings, stop_settings
from edgewright.cutlist.shown_lanes import shown_parts
from edgewright.cutlist.solve import solve_strips
from edgewright.display import show_ticks
from edgewright.jobfile import parse_job
from edgewright.units import Units, read_length

JOB = """
[job]
title = "sequence"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[trim]
{trim}
[edge]
{edge}
{rest}
"""
RACK = """
[[stock]]
name = "a"
length = 80
width = 6
finished_depth = "1/2"
thickness = "23/32"
[[stock]]
name = "b"
length = 40
width = 9
finished_depth = "1/4"
thickness = "23/32"
[[stock]]
name = "c"
length = 80
width = "4 1/8"
thickness = "23/32"
"""


def planned(trim: str = "north = 6", edge: str = "", rest: str = "") -> Any:
    return plan(parse_job(JOB.format(trim=trim, edge=edge, rest=rest)))


@pytest.mark.example
def test_old_edges_come_off_first_then_one_fence_for_all_boards() -> None:
    """Board a: 6 - 1/2 = 5 1/2 against the fence; then strips of 2. c is 4 1/8 = 2 + 1/8 + 2: one rip parts it."""
    made = planned("north = 1", 'strip_width = "2"', RACK)
    found = [
        (setting.fence_ticks / INCH, [rip.lane_id for rip in setting.rips])
        for setting in fence_settings(made.rips)
    ]
    used = {piece.lane_id.split()[0] for piece in made.cut_plan.pieces}
    assert used == {"a", "c"}
    assert found == [(5.5, [None]), (2, ["a lane 1", "c lane 1"])]


@pytest.mark.example
def test_pieces_of_one_length_share_a_stop() -> None:
    """Two ends of 32 1/4 from one strip; the long sides fill their strips and need no cut."""
    (only,) = planned().stops
    assert (only.stop_ticks / INCH, only.mitres, only.piece_ids) == (32.25, 0, ("E1", "W1"))


@pytest.mark.example
def test_mitred_pieces_have_stops_of_their_own() -> None:
    """72 and 36 along the long edges, both ends mitred: two stops, though four pieces are cut."""
    stops = planned(edge='corners = "mitre"').stops
    assert [(stop.stop_ticks / INCH, stop.mitres) for stop in stops] == [(72, 2), (36, 2)]
    assert sorted(name for stop in stops for name in stop.piece_ids) == ["E1", "N1", "S1", "W1"]


@pytest.mark.example
def test_a_parted_strip_is_sawn_from_its_far_end() -> None:
    """Runs of 29 7/8 and 40 7/8: the strip of 72 is parted at 31 1/8, 40 7/8 lie behind; then 30 from the raw end.

    By the kerf of 1/8 in front of 31 1/8 the first part is 31 long.
    """
    hole = '[[top.defects]]\nname = "hole"\nalong = [30, 31]\nacross = [41, "41 1/4"]\n'
    cuts = planned(edge='strip_width = "1 7/8"', rest=hole).crosscuts
    found = [(cut.lane_id[-2:], cut.piece_id, cut.stop_ticks / INCH, cut.length_ticks / INCH) for cut in cuts]
    assert found == [("3b", None, 31.125, 40.875), ("3b", "E1", 32.25, 32.25), ("3a", "W1b", 23.75, 23.75)]
    assert {cut.raw_end for cut in cuts} == {"west"}


@st.composite
def shops(draw: st.DrawFn) -> tuple[tuple[RingSide, ...], tuple[Stick, ...]]:
    """One or two layers and boards on hand; lengths in 64ths or odd ticks, so that some are rounded when shown."""
    step = draw(st.sampled_from([1, 127, 254]))
    sides = []
    for layer in range(1, draw(st.integers(1, 2)) + 1):
        for names in ("NS", "EW"):
            length = draw(st.integers(20 * INCH // step, 80 * INCH // step)) * step
            sides += [side(f"{name}{layer}", length) for name in names]
    boards = [
        stick(
            f"b{n}",
            *[draw(st.integers(40 * INCH // step, 100 * INCH // step)) * step] * draw(st.integers(1, 3)),
        )
        for n in range(draw(st.integers(2, 4)))
    ]
    return tuple(sides), tuple(boards)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(shops(), st.sampled_from(["in", "mm"]))
def test_pieces_kerfs_and_rest_as_printed_add_up_to_the_strip_as_printed(
    shop: tuple[tuple[RingSide, ...], tuple[Stick, ...]], units: Units
) -> None:
    sides, sticks = shop
    layout = solve_strips(sides, sticks, INCH_RULES, INCH, any_plan=True)
    pieces: tuple[Piece, ...] = layout.pieces if layout else ()
    for lane in (lane for one in sticks for lane in one.lanes):
        here = sorted((p for p in pieces if p.lane_id == lane.id), key=lambda p: p.lane_start_ticks)
        if not here:
            continue
        ends = [(p.id, p.lane_start_ticks, p.lane_start_ticks + p.length_ticks) for p in here]
        parts = shown_parts(ends, lane.length_ticks, EIGHTH, units).parts
        assert [part.name for part in parts if part.name not in ("kerf", "rest", "dust")] == [
            piece.id for piece in here
        ]

        def shown(text: str) -> Any:
            return read_length(text.removeprefix("~"), units).exact_mm

        assert sum(shown(part.text(units)) for part in parts) == shown(show_ticks(lane.length_ticks, units))
        for part, piece in ((part, piece) for part in parts for piece in here if piece.id == part.name):
            # a piece reads the same wherever it is named
            assert part.text(units) == show_ticks(piece.length_ticks, units)
    stops = stop_settings(crosscuts(sticks, pieces, EIGHTH), pieces)
    assert [stop.stop_ticks for stop in stops] == sorted({stop.stop_ticks for stop in stops}, reverse=True)
    # a setting for the one width of strip, however many boards there are
    assert len(fence_settings(fence_rips(sticks, pieces, EIGHTH))) == (1 if pieces else 0)
