"""The columns of a comparison of a top with an outline, in the order in which they are shown."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from edgewright.cli.compare_columns import EDGE_AREA, EDGE_THICKNESS, READY, STOPS, WARNINGS, Column
from edgewright.cutlist.compare_words import counted
from edgewright.cutlist.shaped_row import Blank, ShapedRow
from edgewright.cutlist.shaped_words import finished_size, weight_text
from edgewright.display import show_area, show_mm
from edgewright.units import Units

__all__ = ["blank_words", "shaped_columns"]


def blank_words(row: ShapedRow, units: Units) -> str:
    """Write what is cut from the stock, if anything, and the blanks that must be bought or found besides.

    Like ``4 cut from 4 sticks; to buy or find: 8 segments 12 11/32 x 2 23/32 x 3/4 in``.
    """
    missing = "; ".join(_blank(blank, units) for blank in row.to_buy)
    if not row.cut_count:
        return missing
    price = f" ({row.boards_cents / 100:.2f} to pay)" if row.boards_cents else ""
    whole = "all" if not missing else str(row.cut_count)
    cut = f"{whole} cut from {counted(row.sticks, 'stick')}{price}"
    return f"{cut}; to buy or find: {missing}" if missing else cut


def _blank(blank: Blank, units: Units) -> str:
    sizes = [show_mm(mm, units, unit=False) for mm in (blank.length_mm, blank.width_mm)]
    return f"{counted(blank.count, blank.kind)} {' x '.join(sizes)} x {show_mm(blank.thickness_mm, units)}"


def _figures(
    head: str,
    figure: Callable[[ShapedRow], float | None],
    show: Callable[[float, Units], str],
    words: str,
) -> Column:
    """Column of one figure; its unit, after the last space of what is shown, stands in the head."""

    def alike(row: ShapedRow, units: Units) -> str:
        value = figure(row)
        return "" if value is None else words.format(show(value, units) if value else "no")

    def cell(row: ShapedRow, units: Units) -> str:
        value = figure(row)
        return "" if value is None else show(value, units).rpartition(" ")[0] if value else "none"

    return Column(head, cell, alike)


SHAPED_COLUMNS: Final = (
    READY,
    Column(
        "finished\n{unit}",
        lambda row, units: finished_size(row, units, unit=False),
        lambda row, units: f"finished {finished_size(row, units)}",
    ),
    _figures("comes off\n{big}", lambda r: r.comes_off_mm2, show_area, "{} comes off"),
    _figures("most off\n{unit}", lambda r: r.most_off_mm, show_mm, "{} off a corner at most"),
    _figures("offcut\nstrip {unit}", lambda r: r.offcut_strip_mm, show_mm, "{} strip in the offcuts"),
    _figures("widest\n{unit}", lambda r: r.offcut_widest_mm, show_mm, "{} strip all round from the offcuts"),
    Column(
        "blanks",
        lambda row, _: str(row.blank_count) if row.has_plan else "",
        lambda row, _: counted(row.blank_count, "blank") if row.blank_count else "no blank",
    ),
    Column(
        "from\nstock",
        lambda row, _: str(row.cut_count) if row.has_plan and row.cut_count else "",
        # `blank_words` say it of all rows alike
        lambda *_: "",
    ),
    _figures("run\n{unit}", lambda r: r.running_mm or None, show_mm, "blanks {} long in all"),
    _figures("board\n{big}", lambda r: r.board_area_mm2 or None, show_area, "board area {}"),
    _figures("used\n%", lambda r: r.yield_part, lambda part, _: f"{100 * part:.0f} %", "{} of it used"),
    EDGE_AREA,
    EDGE_THICKNESS,
    _figures("weight\n{mass}", lambda r: r.weight_g, weight_text, "weight {}"),
    STOPS,
    WARNINGS,
)
"""All that is compared of a top with an outline."""

#: Heads of columns that follow from the finished size alone, and are left to the sentences below the table.
_FOLLOW: Final = ("run", "used", "weight")


def shaped_columns(question: str) -> tuple[Column, ...]:
    """Columns for one question: of ways to make a top true, those that tell them apart."""
    if question != "fits":
        return SHAPED_COLUMNS
    return tuple(column for column in SHAPED_COLUMNS if not column.head.startswith(_FOLLOW))
