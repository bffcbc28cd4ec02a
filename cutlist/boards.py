"""Boards on hand and for sale as sticks with lanes ripped on the fence.

A board of clean width W gives floor((W + k) / (w + k)) lanes: one kerf between neighbours, none after the last if it
fits exactly. Only boards of the strips' material and thickness count.

Strips are ripped from one edge: each in its turn lies between fence and blade, and the fresh edge goes to the fence for
the next. Where an old edge is taken off first, that is the edge. Defects are measured from it, so they fall into the
strips in this order.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.clean_runs import NO_CLEARANCE, Clearance, clean_runs, strip_lanes
from edgewright.cutlist.model import DefectBox, Source, Stick

__all__ = ["Board", "board_sticks"]


@dataclass(frozen=True, slots=True)
class Board:
    """A kind of board, sizes in ticks; ``count`` None is as many as needed, ``price_cents`` None is on hand."""

    name: str
    length: int
    width: int
    finished_depth: int
    count: int | None
    price_cents: int | None
    defects: tuple[DefectBox, ...] = ()


def board_sticks(
    boards: tuple[Board, ...],
    strip_width: int,
    kerf: int,
    need: int,
    clearance: Clearance = NO_CLEARANCE,
    grid: int = 1,
) -> tuple[Stick, ...]:
    """Every single board as a stick; an unlimited kind stands as often as could ever be of use.

    Parameters
    ----------
    need
        Total length of all sides, ticks.
    clearance, grid
        What stays clear of defects, and the bench grid.
    """
    sticks = []
    for board in boards:
        lanes = max(0, (board.width - 2 * board.finished_depth + kerf) // (strip_width + kerf))
        if not lanes:
            continue
        copies = _enough(need, lanes * board.length)
        if board.count is not None:
            copies = min(board.count, copies)
        for number in range(1, copies + 1):
            label = board.name if board.count == 1 else f"{board.name} {number}"
            rows = tuple(
                lane
                for row in range(1, lanes + 1)
                for lane in strip_lanes(
                    f"{label} lane {row}",
                    board.length,
                    strip_width,
                    clean_runs(
                        0,
                        board.length,
                        _across(board, row, strip_width, kerf),
                        board.defects,
                        clearance,
                        kerf,
                        grid,
                    ),
                )
            )
            source: Source = "on hand" if board.price_cents is None else "for sale"
            price = board.price_cents or 0
            sticks.append(
                Stick(
                    label,
                    board.name,
                    source,
                    None,
                    board.length,
                    board.width,
                    price,
                    rows,
                    board.finished_depth,
                    board.defects,
                )
            )
    return tuple(sticks)


def _across(board: Board, row: int, strip_width: int, kerf: int) -> tuple[int, int]:
    """Where a strip, counted from 1, lies across its board."""
    start = board.finished_depth + (row - 1) * (strip_width + kerf)
    return start, start + strip_width


def _enough(need: int, per_board: int) -> int:
    """More boards than this are never touched by a best plan: twice the length needed, and one to spare."""
    return 1 + -(-2 * need // per_board)
