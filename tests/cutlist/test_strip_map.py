from __future__ import annotations

import pytest

from edgewright.cutlist.model import MapStrip, Piece, RingSide
from edgewright.cutlist.strip_map import strip_map


def ring_side(name: str, compass: str, length: int, start: int) -> RingSide:
    return RingSide(name, compass, 1, length, start, start, (), "square", 1)  # type: ignore[arg-type]


def piece(name: str, of: str, length: int, at: int = 0) -> Piece:
    return Piece(name, of, "a", length, at, 0, "square", "square", turned=False)


@pytest.mark.example
def test_west_and_east_trade_places_and_north_stays() -> None:
    """72 x 36, strips of 2: from below the west strip lies at 70 to 72, the north strip still at the top."""
    sides = (
        ring_side("N1", "north", 72, 0),
        ring_side("S1", "south", 72, 0),
        ring_side("E1", "east", 32, 2),
        ring_side("W1", "west", 32, 2),
    )
    pieces = (piece("N1", "N1", 72), piece("S1", "S1", 72), piece("E1", "E1", 32), piece("W1", "W1", 32))
    assert strip_map((72, 36), 0, 2, sides, pieces) == (
        MapStrip("N1", 0, 34, 72, 36),
        MapStrip("S1", 0, 0, 72, 2),
        MapStrip("E1", 0, 2, 2, 34),
        MapStrip("W1", 70, 2, 72, 34),
    )


@pytest.mark.example
def test_a_splice_is_mirrored_too() -> None:
    """The west part of a spliced north side (0 to 40 from above) lies at 32 to 72 from below."""
    sides = (ring_side("N1", "north", 72, 0),)
    pieces = (piece("N1a", "N1", 40), piece("N1b", "N1", 32, 40))
    west, east = strip_map((72, 36), 0, 2, sides, pieces)
    assert (west.x0_ticks, west.x1_ticks) == (32, 72)
    assert (east.x0_ticks, east.x1_ticks) == (0, 32)


@pytest.mark.example
def test_proud_strips_stand_out_all_round() -> None:
    sides = (ring_side("N1", "north", 74, -1), ring_side("W1", "west", 34, 1))
    north, west = strip_map((72, 36), 1, 2, sides, (piece("N1", "N1", 74), piece("W1", "W1", 34)))
    assert north == MapStrip("N1", -1, 35, 73, 37)
    assert west == MapStrip("W1", 71, 1, 73, 35)
