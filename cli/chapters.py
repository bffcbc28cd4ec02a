"""Sheets of the packet as plain data: a chapter is figures and tables that begin on a page of their own.

A table may have main figures that are read from two metres: its ``large`` columns are set with capitals of 7 to 9 mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any, Final

from edgewright.cli.packet_figures import placed_figure
from edgewright.cli.printable import printable
from edgewright.cutlist.sheets.wall import CAPS, LEAST_CAP, size_of_cap
from edgewright.drawing.lettering import text_width
from edgewright.drawing.view import View

__all__ = ["PAGES", "chapter", "figure_room", "table"]

#: Width and height that figures and tables may fill on each paper, mm.
PAGES: Final = {"a4": (180.0, 250.0), "us-letter": (185.9, 232.0)}
#: A table of more rows than this may be broken over pages.
_WHOLE: Final = 10
_LARGE_WHOLE: Final = 2
_POINT_MM: Final = 25.4 / 72
#: Size of the type of lists, points.
_LIST: Final = 11.0
#: What the large columns may take together, the boxes to tick and the words beside them left out, mm.
_LARGE_ROOM: Final = 100.0
#: Air beside each large figure, mm.
_AIR: Final = 4.4
#: Head, note and header of a table, and a row of large figures, mm.
_TABLE_HEAD: Final = 26.0
_LARGE_ROW: Final = 15.5


def table(
    title: str,
    note: str,
    header: Sequence[str],
    body: Iterable[Sequence[str]],
    *,
    ticks: bool = False,
    widths: Sequence[int] = (),
    large: Sequence[int] = (),
) -> dict[str, Any]:
    """A table.

    Parameters
    ----------
    ticks
        Whether a box to tick stands before each row.
    widths
        Gives each column its share of the free width, 0 as wide as its text; by default the last one is free.
    large
        Numbers of the columns that hold main figures, from 0.
    """
    rows = [["\n".join(map(printable, cell.split("\n"))) for cell in row] for row in body]
    shares = widths or (*(0 for _ in header[1:]), 1)
    size = _large_points([[row[at] for at in large] for row in rows]) if large else _LIST
    return {
        "title": title,
        "note": note,
        "header": list(header),
        "rows": rows,
        "ticks": ticks,
        "widths": list(shares),
        "sizes": [size if at in large else _LIST for at in range(len(header))],
        "whole": len(rows) <= (_LARGE_WHOLE if large else _WHOLE),
    }


def _large_points(cells: Sequence[Sequence[str]]) -> float:
    """Size of the type of the large columns: as large as all of them have room for, capitals of 7 mm at least."""
    for cap in CAPS[1:]:
        size = size_of_cap(cap)
        wide = sum(
            max(text_width(line, size) for cell in column for line in cell.split("\n")) + _AIR
            for column in zip(*cells, strict=True)
        )
        if wide <= _LARGE_ROOM:
            return size / _POINT_MM
    return size_of_cap(LEAST_CAP) / _POINT_MM


def chapter(
    kind: str,
    figures: Sequence[View],
    tables: Iterable[dict[str, Any]],
    *,
    title: str = "",
    new_page: bool = True,
) -> list[dict[str, Any]]:
    """A sheet, or none where there is nothing on it.

    Parameters
    ----------
    kind
        What the sheet is called in the title block.
    title
        Its heading, where no figure has one.
    """
    kept = [one for one in tables if one["rows"]]
    if not figures and not kept:
        return []
    return [
        {
            "kind": kind,
            "title": title,
            "figures": [placed_figure(view) for view in figures],
            "tables": kept,
            "new-page": new_page,
        }
    ]


def figure_room(paper: str, tables: Iterable[dict[str, Any]], least: float) -> tuple[float, float]:
    """Box of a figure that stands above tables on one page of a paper, at least so high (mm).

    Tables that are too long for that flow on to the next page.
    """
    wide, high = PAGES[paper]
    below = sum(_height(one) for one in tables if one["rows"])
    return wide, high - below if high - below >= least else high


def _height(one: dict[str, Any]) -> float:
    """About how high a table is, rather more than less (mm)."""
    lines = -(-len(one["note"]) // 95)
    row = _LARGE_ROW if max(one["sizes"]) > _LIST else 11.0
    return _TABLE_HEAD - 8.0 + 4.4 * lines + row * len(one["rows"])
