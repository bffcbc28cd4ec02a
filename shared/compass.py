"""Sides and corners of a top, named by compass as chalked on the wood.

The plan frame lies on the old top seen from above, face up: origin at the old south-west corner,
x to the east along the length, y to the north along the width.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final, Generic, Literal, TypeVar

__all__ = [
    "CORNERS",
    "CORNER_SIDES",
    "OPPOSITE",
    "SIDES",
    "Corner",
    "PerSide",
    "Side",
    "ends_of",
    "is_lengthwise",
]

T = TypeVar("T")

Side = Literal["north", "east", "south", "west"]
Corner = Literal["south_west", "south_east", "north_east", "north_west"]

SIDES: Final[tuple[Side, ...]] = ("north", "east", "south", "west")
#: Counter-clockwise seen from above, starting at the origin.
CORNERS: Final[tuple[Corner, ...]] = ("south_west", "south_east", "north_east", "north_west")
OPPOSITE: Final[dict[Side, Side]] = {"north": "south", "south": "north", "east": "west", "west": "east"}
#: The two sides that meet at each corner: (north or south, east or west).
CORNER_SIDES: Final[dict[Corner, tuple[Side, Side]]] = {
    "south_west": ("south", "west"),
    "south_east": ("south", "east"),
    "north_east": ("north", "east"),
    "north_west": ("north", "west"),
}


def is_lengthwise(side: Side) -> bool:
    """Whether the side's edge runs along the length (east to west)."""
    return side in ("north", "south")


def ends_of(side: Side) -> tuple[Side, Side]:
    """The two ends of a side, and of a strip cut off it: where positions along it start, and where they end."""
    return ("west", "east") if is_lengthwise(side) else ("south", "north")


@dataclass(frozen=True, slots=True)
class PerSide(Generic[T]):
    """One value for each side."""

    north: T
    east: T
    south: T
    west: T

    def __getitem__(self, side: Side) -> T:
        value: T = getattr(self, side)
        return value

    def items(self) -> Iterator[tuple[Side, T]]:
        """Pairs of side and value in the order of ``SIDES``."""
        for side in SIDES:
            yield side, self[side]

    @classmethod
    def build(cls, make: Callable[[Side], T]) -> PerSide[T]:
        """Build from a function of the side."""
        return cls(**{side: make(side) for side in SIDES})
