"""Whether sides and lanes that hang together can be cut with no piece below the least length, exactly.

With one splice less than lanes the pieces form a tree. Some lane then holds sides (or what is left of them) to their
end and one piece of a side that goes on elsewhere. Such a lane is taken away; the piece may have any length from the
least up to what the lane has left, so the side keeps an interval for what is cut of it. When one lane is left it must
hold the rest. A tree of pieces that is not found here does not exist; a piece more would be a loop.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations

__all__ = ["tree_exists"]

#: (length, least and most that is cut of it elsewhere, splices it may still get)
_Open = tuple[int, int, int, int]


def tree_exists(
    sides: Sequence[tuple[int, int]],
    lanes: Sequence[int],
    kerf: int,
    least: int,
    spend: Callable[[], None],
) -> bool:
    """Whether a tree of pieces covers the sides from exactly these lanes.

    Parameters
    ----------
    sides
        (length in ticks, splices allowed) of each side.
    lanes
        Lane lengths in ticks; each gives at least one piece.
    kerf, least
        Kerf and least length of a piece, ticks; a side that is not spliced may be shorter.
    spend
        Called once a step; may raise to stop.
    """
    failed: set[tuple[tuple[_Open, ...], tuple[int, ...]]] = set()

    def rest(side: _Open) -> int | None:
        """Least that a lane must hold to end a side; None if what is left would be too short a piece."""
        length, low, high, _ = side
        if not high:
            return length
        return max(least, length - high) if length - low >= least else None

    def covers(opens: tuple[_Open, ...], left: tuple[int, ...]) -> bool:
        spend()
        rests = [rest(side) for side in opens]
        if any(value is None for value in rests):
            return False
        needs = [value for value in rests if value is not None]
        if len(left) == 1:
            return sum(needs) + kerf * (len(needs) - 1) <= left[0]
        state = (opens, left)
        if state in failed:
            return False
        for at, lane in enumerate(left):
            if at and left[at - 1] == lane:
                continue
            others = (*left[:at], *left[at + 1 :])
            for count in range(len(opens)):
                for ended in combinations(range(len(opens)), count):
                    spend()
                    room = lane - sum(needs[i] + kerf for i in ended)
                    if room < least:
                        continue
                    kept = [side for i, side in enumerate(opens) if i not in ended]
                    for i, (length, low, high, splices) in enumerate(kept):
                        if splices < 1 or (i and kept[i - 1] == kept[i]):
                            continue
                        cut = (length, low + least, high + room, splices - 1)
                        if covers(tuple(sorted((*kept[:i], cut, *kept[i + 1 :]))), others):
                            return True
        failed.add(state)
        return False

    return covers(tuple(sorted((length, 0, 0, splices) for length, splices in sides)), tuple(sorted(lanes)))
