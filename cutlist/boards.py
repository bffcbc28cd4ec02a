"""Boards on hand and for sale as sticks with lanes ripped on the fence.

A board of clean width W gives floor((W + k) / (w + k)) lanes: one kerf between neighbours, none after the last if it
fits exactly. Only boards of the strips' material and thickness count.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.model import Lane, Source, Stick

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


def board_sticks(boards: tuple[Board, ...], strip_width: int, kerf: int, need: int) -> tuple[Stick, ...]:
    """Every single board as a stick; an unlimited kind stands as often as could ever be of use.

    Parameters
    ----------
    need
        Total length of all sides, ticks.
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
                Lane(f"{label} lane {row}", board.length, strip_width, 0, 0) for row in range(1, lanes + 1)
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
                )
            )
    return tuple(sticks)


def _enough(need: int, per_board: int) -> int:
    """More boards than this are never touched by a best plan: twice the length needed, and one to spare."""
    return 1 + -(-2 * need // per_board)
