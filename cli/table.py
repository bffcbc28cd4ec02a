"""A list as plain data: columns with their unit, and rows; CSV and a workbook are written from the same description.

A length fills several columns: as one reads it off a tape at the bench (``40 1/8 in``, ``~`` in front of what is
rounded), and as a number in mm; in a job of inches as a number of inches too.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Final, Literal

from edgewright.display import show_mm, show_ticks
from edgewright.ticks import TICKS_PER_INCH
from edgewright.units import Units

__all__ = [
    "Cell",
    "Column",
    "Row",
    "Table",
    "exact_inches",
    "exact_mm",
    "length",
    "lengths",
    "measured",
    "numbers",
    "rounded",
    "table",
    "texts",
]

Cell = str | int | Decimal
Row = Mapping[str, Cell]
Kind = Literal["text", "bench", "number"]

_MM_OF_A_TICK: Final = Decimal("0.003125")
#: A 64th of an inch has six decimals.
_MILLIONTH: Final = Decimal("0.000001")


@dataclass(frozen=True, slots=True)
class Column:
    """A column.

    Attributes
    ----------
    key
        Name in a CSV file, small letters and underscores; the unit is its last word.
    label
        Name in a workbook; the unit stands in brackets.
    kind
        ``text`` may have been typed by a person; ``bench`` is a length as read off a tape; ``number`` a plain number.
    """

    key: str
    label: str
    kind: Kind


@dataclass(frozen=True, slots=True)
class Table:
    """A list.

    Attributes
    ----------
    name
        File word, and the name of its sheet in a workbook.
    rows
        Cells by the key of their column; a row may leave columns out.
    banner
        A first line above the header, like NOT FOR CUTTING; "" for none.
    """

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    banner: str = ""


def texts(*keys: str) -> tuple[Column, ...]:
    """Columns of words."""
    return tuple(Column(key, key.replace("_", " "), "text") for key in keys)


def numbers(*keys: str, unit: str = "") -> tuple[Column, ...]:
    """Columns of numbers, all of one unit."""
    return tuple(
        Column(f"{key}_{unit}", f"{key.replace('_', ' ')} ({unit})", "number")
        if unit
        else Column(key, key.replace("_", " "), "number")
        for key in keys
    )


def lengths(units: Units, *keys: str) -> tuple[Column, ...]:
    """Columns of lengths: each as read at the bench and as numbers."""
    found: list[Column] = []
    for key in keys:
        words = key.replace("_", " ")
        found.append(Column(key, f"{words} ({'fraction' if units == 'in' else 'bench'})", "bench"))
        if units == "in":
            found += numbers(key, unit="in")
        found += numbers(key, unit="mm")
    return tuple(found)


def table(name: str, groups: Iterable[tuple[Column, ...]], rows: Iterable[Row], banner: str = "") -> Table:
    """Make a table of groups of columns."""
    return Table(name, tuple(column for group in groups for column in group), tuple(rows), banner)


def length(key: str, ticks: int, units: Units, shown: str | None = None) -> dict[str, Cell]:
    """Cells of a length; ``shown`` is how it reads beside others that it must add up with."""
    cells: dict[str, Cell] = {
        key: show_ticks(ticks, units) if shown is None else shown,
        f"{key}_mm": exact_mm(ticks),
    }
    return cells | ({f"{key}_in": exact_inches(ticks)} if units == "in" else {})


def measured(key: str, mm: float, units: Units) -> dict[str, Cell]:
    """Cells of a computed length (mm, finite): a hundredth of a millimetre, four decimals of an inch."""
    cells: dict[str, Cell] = {key: show_mm(mm, units), f"{key}_mm": rounded(mm)}
    return cells | ({f"{key}_in": rounded(mm / 25.4, 4)} if units == "in" else {})


def rounded(value: float, places: int = 2) -> Decimal:
    """A computed figure to so many decimals, halves up; never a minus in front of nothing."""
    return Decimal(repr(value)).quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP).normalize() + 0


def exact_mm(ticks: int) -> Decimal:
    """Millimetres of whole ticks, exact."""
    return (ticks * _MM_OF_A_TICK).normalize()


def exact_inches(ticks: int) -> Decimal:
    """Inches of whole ticks to a millionth: exact for every 64th."""
    return (Decimal(ticks) / TICKS_PER_INCH).quantize(_MILLIONTH, ROUND_HALF_UP).normalize()
