"""Strips that came off in cuts already made: what they give, worked out on paper in inches."""

from __future__ import annotations

from fractions import Fraction

import pytest

from edgewright.compass import PerSide
from edgewright.cutlist.loose import clean_width, loose_lanes, panel_as_cut, still_attached, with_loose
from edgewright.cutlist.model import Lane, Stick
from edgewright.cutlist.offcuts import OffcutStock
from edgewright.design.model import Begun, LoosePiece, TrimSizes

INCH = 8128
SLIVER = INCH // 64


def inch(text: str | float) -> int:
    ticks = sum(Fraction(part) for part in str(text).split()) * INCH
    assert ticks.denominator == 1
    return int(ticks)


def stock(*, finish: str = "0", radius: str = "0") -> OffcutStock:
    """72 x 42 in of which 2 of 6 in are off the north side; the finish lies on the north and the west edge."""
    return OffcutStock(
        old=(inch(72), inch(42)),
        finished=(inch(72), inch(36)),
        amounts=PerSide(inch(4), 0, 0, 0),
        finished_depth=PerSide(inch(finish), 0, 0, inch(finish)),
        corner_radius=inch(radius),
        kerf=inch("1/8"),
        pitch=inch(2),
        grid=inch("1/32"),
        off=PerSide(inch(2), 0, 0, 0),
    )


def piece(width: str | float, *, length: str | float = 72, depth: str = "0", cut: int = 1) -> LoosePiece:
    return LoosePiece(cut, "north", inch(length), inch(width), inch(depth))


def sizes(lanes: tuple[Lane, ...]) -> list[tuple[str, float, float, float, float]]:
    return [
        (
            lane.id,
            *(
                n / INCH
                for n in (lane.length_ticks, lane.width_ticks, lane.trim_start_ticks, lane.trim_end_ticks)
            ),
        )
        for lane in lanes
    ]


@pytest.mark.example
@pytest.mark.parametrize(
    ("width", "lanes"),
    [
        ("1 7/8", [("strip of cut 1", 72, 1.875, 0, 0)]),
        # a sliver no tape shows stays on it, more is ripped off
        (1.875 + 1 / 64, [("strip of cut 1", 72, 1.875 + 1 / 64, 0, 0)]),
        (1.875 + 1 / 32, [("strip of cut 1", 72, 1.875, 0, 0)]),
        (1.875 - 1 / 64, []),
        # two strips and one kerf: 3 7/8 in
        ("3 7/8", [("strip 1 of cut 1", 72, 1.875, 0, 0), ("strip 2 of cut 1", 72, 1.875, 0, 0)]),
        (3.875 - 1 / 64, [("strip of cut 1", 72, 1.875, 0, 0)]),
    ],
)
def test_a_loose_piece_gives_as_many_strips_as_fit_with_kerfs_between(
    width: str | float, lanes: list[tuple[str, float, float, float, float]]
) -> None:
    assert sizes(loose_lanes(piece(width), stock(), inch("1 7/8"), SLIVER)) == lanes


@pytest.mark.example
def test_old_finish_is_left_out_as_far_as_it_is_still_on_the_piece() -> None:
    assert clean_width(piece(2), inch("1/2")) == inch("1 1/2")
    assert clean_width(piece(2, depth="3/8"), inch("1/2")) == inch("1 7/8")
    assert clean_width(piece(2, depth="2"), inch("1/2")) == inch(2)
    finished = stock(finish="1/2")
    # 1/2 in of finish at the west end too; a piece with finish on it is ripped even if a strip is all it gives
    (lane,) = loose_lanes(piece("2 3/8"), finished, inch("1 7/8"), SLIVER)
    assert (lane.width_ticks, lane.trim_start_ticks, lane.trim_end_ticks) == (inch("1 7/8"), inch("1/2"), 0)
    assert loose_lanes(piece(2.375 - 1 / 64), finished, inch("1 7/8"), SLIVER) == ()
    panel = panel_as_cut(begun(piece("2 3/8")), finished, inch("1 7/8"), SLIVER)
    assert [(s.edge_waste_ticks, s.lanes) for s in panel.loose] == [(inch("1/2"), ("strip of cut 1",))]


@pytest.mark.example
def test_a_round_old_corner_shortens_the_outer_strip_of_a_loose_piece_most() -> None:
    """Radius 2 in; the outer strip ends 1/8 in from the old edge, the inner one 2 1/8 in and so behind the corner.

    At depth u the corner begins 2 - sqrt(4 - (2 - u)²) from the end: for u = 1/8 in 1.304 in, on the grid 1 5/16 in.
    """
    inner, outer = loose_lanes(piece(4), stock(radius="2"), inch("1 7/8"), SLIVER)
    assert (inner.trim_start_ticks, inner.trim_end_ticks) == (0, 0)
    assert (outer.trim_start_ticks, outer.trim_end_ticks) == (inch("1 5/16"), inch("1 5/16"))
    assert outer.length_ticks == inch(72) - 2 * inch("1 5/16")
    # from deeper in the top both are whole
    assert all(
        not lane.trim_start_ticks
        for lane in loose_lanes(piece(4, depth="2"), stock(radius="2"), inch("1 7/8"), 0)
    )


def begun(*pieces: LoosePiece) -> Begun:
    old = (inch(72), inch(42))
    return Begun(
        cuts_made=2,
        off=PerSide(inch(2), 0, 0, 0),
        fresh=("north",),
        loose=pieces,
        sizes=TrimSizes(inch("1/32"), old, (inch(72), inch(36)), (0, 0), PerSide(inch(6), 0, 0, 0)),
    )


OWN = Stick(
    "offcut north", "offcut from the north side", "offcut", "north", inch(72), inch("3 7/8"), 0,
    tuple(Lane(f"offcut north {n}", inch(72), inch("1 7/8"), 0, 0) for n in (1, 2)),
)  # fmt: skip


@pytest.mark.example
def test_loose_strips_stand_behind_the_offcut_the_latest_first_and_a_longer_one_before_it() -> None:
    pieces = piece("1 7/8"), piece("1 7/8", cut=2), piece("1 7/8", cut=3, length=60)
    (stick,) = with_loose((OWN,), begun(*pieces), stock(), inch("1 7/8"), SLIVER)
    assert [lane.id for lane in stick.lanes] == [
        *("offcut north 1", "offcut north 2"),
        *("strip of cut 2", "strip of cut 1", "strip of cut 3"),
    ]
    longer = piece("1 7/8", length="72 1/32")
    (stick,) = with_loose((OWN,), begun(longer), stock(), inch("1 7/8"), SLIVER)
    assert stick.lanes[0].id == "strip of cut 1"
    assert stick.length_ticks == inch("72 1/32")


@pytest.mark.example
def test_a_side_that_is_cut_to_its_end_keeps_what_came_off() -> None:
    (stick,) = with_loose((), begun(piece("1 7/8")), stock(), inch("1 7/8"), SLIVER)
    assert (stick.id, stick.source, stick.side) == ("offcut north", "offcut", "north")
    assert [lane.id for lane in stick.lanes] == ["strip of cut 1"]
    assert with_loose((OWN,), begun(), stock(), inch("1 7/8"), SLIVER) == (OWN,)


@pytest.mark.example
def test_only_what_is_not_loose_is_still_attached() -> None:
    made = begun(piece("1 7/8"))
    sticks = with_loose((OWN,), made, stock(), inch("1 7/8"), SLIVER)
    panel = panel_as_cut(made, stock(), inch("1 7/8"), SLIVER)

    assert still_attached(sticks, panel)[0].lanes == OWN.lanes
    assert still_attached((OWN,), None) == (OWN,)
    assert (panel.west_ticks, panel.south_ticks, panel.east_ticks, panel.north_ticks) == (
        0,
        0,
        inch(72),
        inch(40),
    )
    assert (panel.cuts_made, panel.fresh) == (2, ("north",))
