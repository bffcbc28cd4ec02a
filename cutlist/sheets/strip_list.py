"""List of the strips of one layer, read from two metres: name, length, to fit or fixed, with a box to tick."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.compass import ends_of, is_lengthwise
from edgewright.cutlist.model import Piece, RingSide
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.common import widest
from edgewright.cutlist.sheets.wall import (
    BENCH,
    CAPS,
    GAP,
    HEADER,
    HEADER_ROOM,
    LEAST_CAP,
    LINE,
    TICK,
    bench_lines,
    column_heads,
    row_rule,
    size_of_cap,
    tick_box,
)
from edgewright.display import show_ticks
from edgewright.drawing.lettering import DESCENT, text_width, wrapped
from edgewright.drawing.paper import Pen

__all__ = ["StripList", "is_to_fit", "list_pages", "piece_size", "splice_words"]

_AIR: Final = 1.4
#: Least width of the words about how a piece fits, mm.
_WORDS: Final = 34.0


def piece_size(plan: Plan, piece: Piece) -> str:
    """Length of a piece with its unit."""
    return show_ticks(piece.length_ticks, plan.job.units)


def is_to_fit(side: RingSide, piece: Piece) -> bool:
    """Whether the piece fills what is left between two strips; of a spliced side the last one does."""
    between = side.start_offset_ticks > 0 and side.end_offset_ticks > 0 and side.end_cut == "square"
    return between and piece.side_start_ticks + piece.length_ticks == side.length_ticks


def splice_words(plan: Plan, side: RingSide, piece: Piece) -> str:
    """Where a piece is spliced to the one before it, from the finished corner."""
    at = show_ticks(side.start_offset_ticks + piece.side_start_ticks, plan.job.units)
    return f"splice {at} from {'W' if is_lengthwise(side.side) else 'S'}"


class StripList:
    """Some rows of the list.

    Parameters
    ----------
    width
        Paper width that it takes up, mm.
    cap
        Height of the capitals of names and lengths, mm.
    """

    def __init__(self, plan: Plan, pieces: Sequence[Piece], width: float, cap: float) -> None:
        self._plan, self._pieces, self._width, self._cap = plan, pieces, width, cap
        self._sides = {side.id: side for side in plan.cut_plan.sides}
        size = size_of_cap(cap)
        units = plan.job.units
        self._lengths = [show_ticks(piece.length_ticks, units, unit=False) for piece in pieces]
        self._headers = ("strip", f"LENGTH, {units}", "how it fits")
        name = max(widest([p.id for p in pieces], size), text_width(self._headers[0], HEADER)) + GAP
        length = max(widest(self._lengths, size), text_width(self._headers[1], HEADER)) + GAP
        first = TICK + 4.0
        words = max(
            _WORDS, widest([part for piece in pieces for part in self._words(piece).split("\n")], BENCH) + 0.5
        )
        more = max(0.0, (width - first - name - length - words) / 2)
        self._lefts = [first, first + name + more, first + name + length + 2 * more]

    @property
    def fits(self) -> bool:
        """Whether the words have room beside the main figures."""
        return self._width - self._lefts[-1] >= _WORDS

    @property
    def height(self) -> float:
        """Paper height of head and rows (mm)."""
        return HEADER_ROOM + sum(self.heights) + 0.2 if self._pieces else 0.0

    @property
    def heights(self) -> list[float]:
        """Paper height of each row (mm)."""
        figures = self._cap + 2 * DESCENT * size_of_cap(self._cap)
        return [max(figures, len(self._lines(piece)) * BENCH * LINE + 2 * _AIR) for piece in self._pieces]

    def _lines(self, piece: Piece) -> list[str]:
        return wrapped(self._words(piece), BENCH, max(self._width - self._lefts[-1], _WORDS))

    def _words(self, piece: Piece) -> str:
        side = self._sides[piece.side_id]
        words = ["TO FIT between others" if is_to_fit(side, piece) else "fixed length"]
        first, last = ends_of(side.side)
        ends = [end for end, cut in ((first, piece.start_cut), (last, piece.end_cut)) if cut == "mitre"]
        if ends:
            words.append(f"mitre {' and '.join(ends)}")
        if piece.side_start_ticks:
            words.append(splice_words(self._plan, side, piece))
        return "\n".join(words)

    def draw(self, pen: Pen, bottom: float, spare: float) -> float:
        """Write the list above ``bottom``; returns the y above it (mm).

        Parameters
        ----------
        spare
            Height that the rows may share to stand further apart, mm.
        """
        if not self._pieces:
            return bottom
        more = min(spare / len(self._pieces), self._cap / 2)
        top = y = bottom + self.height + more * len(self._pieces)
        y = column_heads(pen, y, self._lefts, self._headers, self._width)
        size = size_of_cap(self._cap)
        for piece, length, high in zip(self._pieces, self._lengths, self.heights, strict=True):
            middle = y - (high + more) / 2
            tick_box(pen, 0.3, middle)
            pen.text(self._lefts[0], middle - self._cap / 2, size, piece.id)
            pen.text(self._lefts[1], middle - self._cap / 2, size, length)
            bench_lines(pen, self._lefts[2], middle, self._lines(piece))
            y = row_rule(pen, y - high - more, self._width)
        return top


def list_pages(plan: Plan, pieces: Sequence[Piece], width: float, rooms: Sequence[float]) -> list[StripList]:
    """Part the list over pages.

    Parameters
    ----------
    rooms
        Height on the first page and on each page after it, mm. The first page may have no row.
    """
    caps = [cap for cap in CAPS if StripList(plan, pieces, width, cap).fits] or [LEAST_CAP]
    for cap in caps:
        whole = StripList(plan, pieces, width, cap)
        if whole.height <= rooms[0]:
            return [whole]
    cap = caps[-1]
    whole = StripList(plan, pieces, width, cap)
    pages: list[StripList] = []
    left = list(zip(pieces, whole.heights, strict=True))
    while left:
        room = rooms[min(len(pages), 1)] - HEADER_ROOM
        count = 0
        while count < len(left) and left[count][1] <= room:
            room -= left[count][1]
            count += 1
        if not count and pages:
            count = 1
        pages.append(StripList(plan, [piece for piece, _ in left[:count]], width, cap))
        left = left[count:]
    return pages
