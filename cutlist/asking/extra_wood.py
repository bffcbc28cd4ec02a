"""Wood of which there might be more: the width and the length of each offcut, and each kind of board."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from pydantic import ValidationError

from edgewright.compass import SIDES, Side, ends_of
from edgewright.cutlist.asking.changes import length_of, with_board, with_old_edge_moved
from edgewright.design.model import Design
from edgewright.job import Board
from edgewright.units import Length

__all__ = ["MOST_BOARDS", "ExtraWood", "extra_wood"]

#: Kinds of board that are asked about.
MOST_BOARDS = 12


@dataclass(frozen=True, slots=True)
class ExtraWood:
    """One kind of wood that could be more.

    Attributes
    ----------
    name
        Like ``width on the north offcut``.
    most
        How much more is looked at, ticks.
    step
        Least that is told apart, ticks.
    more
        From what is added (ticks) to the design with it; None where no such wood is taken.
    by_count
        Whether it is counted in boards instead of lengths; then ``most`` and ``step`` are 1.
    """

    name: str
    most: int
    step: int
    more: Callable[[int], Design | None]
    by_count: bool = False


def extra_wood(design: Design, width: int, most: int) -> Iterator[ExtraWood]:
    """Offcuts first, then boards in the order of the file.

    Parameters
    ----------
    width
        Strip width of the plan at hand, ticks.
    most
        How much more width or length is looked at, ticks.
    """
    grid, amounts = design.sizes.grid, design.sizes.amounts
    most = max(grid, most // grid * grid)
    cut = [side for side in SIDES if amounts[side]]
    for side in cut:
        longer = _made_longer(design, side)
        also = f" (the {' and '.join(longer)} offcut grows longer by as much)" if longer else ""
        yield ExtraWood(f"width on the {side} offcut{also}", most, grid, _edge(design, side))
    yield from _lengths(design, width, most)
    for number, board in enumerate(design.job.stock[:MOST_BOARDS]):
        for key in ("width", "length"):
            yield ExtraWood(f"{key} on {_kind(board)}", most, grid, _board(design, number, key))
        if board.limit is not None:
            yield ExtraWood(f"of {board.name}", 1, 1, _one_more(design, number), by_count=True)


def _kind(board: Board) -> str:
    return board.name if board.limit == 1 else f"each {board.name}"


def _rip_sides(design: Design) -> tuple[Side, Side]:
    return ("north", "south") if design.sizes.old[0] >= design.sizes.old[1] else ("east", "west")


def _made_longer(design: Design, side: Side) -> list[Side]:
    """Offcuts along the other axis that a wider offcut on this side makes longer: those ripped before it."""
    rips = _rip_sides(design)
    return [] if side in rips else [rip for rip in rips if design.sizes.amounts[rip]]


def _lengths(design: Design, width: int, most: int) -> Iterator[ExtraWood]:
    """Length of the offcuts that are ripped first, where no end is cut: an old top that is longer, cut back.

    Where an end is cut, more length is more width on the offcut of that end, and stands there.
    """
    sizes, rips = design.sizes, _rip_sides(design)
    cut = [side for side in rips if sizes.amounts[side]]
    low, high = ends_of(rips[0])
    if not cut or sizes.amounts[low] or sizes.amounts[high]:
        return
    # what comes off the end must not give a strip of its own
    least = min(most, (width + design.job.saw.kerf.ticks_up() - 1) // sizes.grid * sizes.grid)
    names = " and ".join(cut)

    yield ExtraWood(
        f"length on the {names} offcut{'s' * (len(cut) > 1)}",
        max(least, sizes.grid),
        sizes.grid,
        lambda extra: with_old_edge_moved(design, high, extra, cut=True),
    )


def _edge(design: Design, side: Side) -> Callable[[int], Design | None]:
    return lambda extra: with_old_edge_moved(design, side, extra)


def _board(design: Design, number: int, key: str) -> Callable[[int], Design | None]:
    size = getattr(design.job.stock[number], key).ticks_down()
    return lambda extra: _changed(design, number, **{key: length_of(size + extra)})


def _one_more(design: Design, number: int) -> Callable[[int], Design | None]:
    limit = design.job.stock[number].limit or 0
    return lambda extra: _changed(design, number, count=limit + extra)


def _changed(design: Design, number: int, **keys: Length | int) -> Design | None:
    try:
        return with_board(design, number, **keys)
    except ValidationError:
        return None
