"""The columns of a comparison: what stands over each, what in its cells, and how it is said in words."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Final

from edgewright.cutlist.compare_words import base_way, counted, edge_area
from edgewright.cutlist.rows import AnyRow, Row
from edgewright.display import show_mm, show_ticks
from edgewright.units import Units

__all__ = ["COLUMNS", "EDGE_AREA", "EDGE_THICKNESS", "READY", "STOPS", "WARNINGS", "Column"]


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the table.

    ``head`` is written over it in one or two lines, ``cell`` gives its text ("" for no figure), and ``alike`` says it
    in words where it is the same in all rows ("" where that need not be said).
    """

    head: str
    # rows of the one kind that the table is made of
    cell: Callable[[Any, Units], str]
    alike: Callable[[Any, Units], str]


def _numbers(numbers: Sequence[int]) -> str:
    return " ".join(map(str, numbers)) or "none"


def _count(number: int | None) -> str:
    return "" if number is None else str(number)


def _length(ticks: int | None, units: Units, *, unit: bool = True) -> str:
    return "" if ticks is None else show_ticks(ticks, units, unit=unit)


def _area(row: AnyRow, units: Units) -> str:
    return "" if row.edge_area_mm2 is None else edge_area(row.edge_area_mm2, units)


def _cost(row: Row) -> str:
    return f"{row.cost_cents / 100:.2f}" if row.boards else ""


def _nothing_to_buy(row: Row) -> str:
    return "nothing to buy" if row.has_plan else ""


def _base_words(way: str) -> str:
    return "base centred" if way == "0" else f"base off centre {way}"


def _boards(row: Row) -> str:
    return str(row.boards_to_buy) if row.has_plan else "below" if row.why else ""


READY: Final = Column(
    "ready",
    lambda row, _: "yes" if row.ready else "no",
    lambda row, _: "ready" if row.ready else "not ready",
)
EDGE_AREA: Final = Column(
    "edge\n{area}",
    lambda row, units: _area(row, units).partition(" ")[0],
    lambda row, units: f"edge {_area(row, units)}",
)
EDGE_THICKNESS: Final = Column(
    "edge\n{unit} thick",
    lambda row, units: show_mm(row.edge_thickness_mm or 0, units, unit=False),
    lambda row, units: f"edge {show_mm(row.edge_thickness_mm or 0, units)} thick",
)
STOPS: Final = Column(
    "stops",
    lambda row, _: _numbers(row.stops),
    lambda row, _: f"stops {_numbers(row.stops)}" if row.stops else "",
)
WARNINGS: Final = Column(
    "warnings", lambda row, _: _numbers(row.warnings), lambda row, _: f"warnings {_numbers(row.warnings)}"
)
COLUMNS: Final = (
    READY,
    Column(
        "strip\n{unit}",
        lambda row, units: _length(row.strip_width_ticks, units, unit=False),
        lambda row, units: f"strips {_length(row.strip_width_ticks, units)} wide",
    ),
    Column(
        "strips\nripped",
        lambda row, _: _count(row.strips),
        lambda row, _: f"{counted(row.strips or 0, 'strip')} ripped",
    ),
    Column(
        "from\nsticks",
        lambda row, _: _count(row.sticks),
        lambda row, _: f"from {counted(row.sticks or 0, 'stick')}",
    ),
    Column(
        "splices",
        lambda row, _: _count(row.splices),
        lambda row, _: counted(row.splices, "splice") if row.splices else "no splice",
    ),
    Column(
        "boards\nto buy",
        lambda row, _: _boards(row),
        lambda row, _: (
            f"{counted(row.boards_to_buy, 'board')} to buy" if row.boards else _nothing_to_buy(row)
        ),
    ),
    Column("cost", lambda row, _: _cost(row), lambda row, _: f"cost {_cost(row)}"),
    EDGE_AREA,
    EDGE_THICKNESS,
    Column(
        "base off\ncentre",
        lambda row, units: base_way(row.base_offset_mm or (0, 0), units, unit=False),
        lambda row, units: _base_words(base_way(row.base_offset_mm or (0, 0), units)),
    ),
    STOPS,
    WARNINGS,
)
"""All that is compared, in the order of the columns."""
