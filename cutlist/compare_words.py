"""What a group of variants differs in, in one sentence for each thing that is weighed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from typing import Final, TypeVar

from edgewright.cutlist.rows import AnyRow, Row
from edgewright.display import show_mm, show_ticks, shown_edge_areas
from edgewright.units import Units

__all__ = [
    "base_way",
    "counted",
    "edge_area",
    "extremes",
    "shares",
    "warning_words",
    "what_decides",
    "whole",
]

R = TypeVar("R", bound=AnyRow)

#: More names than this are counted instead.
_MOST_NAMES: Final = 3


def what_decides(rows: Sequence[AnyRow], units: Units) -> tuple[str, ...]:
    """Say what the rows differ in, what weighs most first; where there is no difference, say that.

    Rows without a plan, and rows that cannot be, are named and then left out.
    """
    if len(rows) == 1:
        return ("There is nothing to choose here.",)
    plain = [row for row in rows if isinstance(row, Row)]
    planned = [row for row in rows if row.has_plan]
    alike = "strips, boards, edge and warnings" if plain else "size, blanks, edge and warnings"
    if plain:
        found = [row for row in plain if row.has_plan]
        differences = _differences(found, units) if found else _shortages(plain, units)
    else:
        from edgewright.cutlist.shaped_row import ShapedRow
        from edgewright.cutlist.shaped_words import shaped_differences

        differences = shaped_differences([row for row in planned if isinstance(row, ShapedRow)], units)
    if len(planned) > 1 and not differences:
        differences = [f"Those with a plan are alike in {alike}."]
    return (*_not_ready(rows), *differences)


def counted(number: int, one: str) -> str:
    """Write a count with its noun, like ``1 strip`` or ``3 strips``."""
    return f"{number} {one}{'s' * (number != 1)}"


def edge_area(mm2: float, units: Units) -> str:
    """Write the area of an edge (mm²), like ``395.55 in²`` or ``2551.9 cm²``."""
    return shown_edge_areas((mm2,), units)[1]


def base_way(offset_mm: tuple[float, float], units: Units, *, unit: bool = True) -> str:
    """Write where the base's centre lies from the top's, like ``3 in north``; ``0`` where it is centred."""
    ways = (("east", "west"), ("north", "south"))
    parts = [
        f"{show_mm(abs(offset), units, unit=unit)} {high if offset > 0 else low}"
        for offset, (high, low) in zip(offset_mm, ways, strict=True)
        if show_mm(abs(offset), units, unit=False) != "0"
    ]
    return ", ".join(parts) or "0"


def _not_ready(rows: Sequence[AnyRow]) -> Iterator[str]:
    ready = [row for row in rows if row.ready]
    if not ready:
        yield "None of them is ready."
    elif len(ready) < len(rows):
        yield f"Ready: {_names(ready, rows)}; not ready: {_names([r for r in rows if not r.ready], rows)}."


def _shortages(rows: Sequence[Row], units: Units) -> list[str]:
    """Tell how much strip is missing where no row has a plan."""
    short = [row for row in rows if row.short_ticks is not None]
    words = shares(short, "Missing", lambda r: r.short_ticks or 0, lambda t: show_ticks(int(t), units))
    return [words] if words else []


def _differences(rows: Sequence[Row], units: Units) -> list[str]:
    return [
        words
        for words in (
            _strip_width(rows, units),
            shares(rows, "Boards to buy", lambda r: r.boards_to_buy, whole),
            shares(rows, "Cost", lambda r: r.cost_cents, lambda cents: f"{cents / 100:.2f}"),
            shares(rows, "Splices", lambda r: r.splices or 0, whole),
            shares(rows, "Strips to rip", lambda r: r.strips or 0, whole),
            shares(rows, "Base off centre", lambda r: _off_centre(r, units), lambda mm: show_mm(mm, units)),
            _edge_area(rows, units),
            warning_words(rows),
        )
        if words
    ]


def _strip_width(rows: Sequence[Row], units: Units) -> str:
    def width(row: Row) -> int:
        return row.strip_width_ticks or 0

    words = shares(rows, "Strip width", lambda r: -width(r), lambda w: show_ticks(-int(w), units))
    if not words:
        return ""
    less = show_ticks(max(map(width, rows)) - min(map(width, rows)), units)
    up_to = "up to " * (len({*map(width, rows)}) > 2)
    return f"{words[:-1]}: {up_to}{less} less strip."


def _edge_area(rows: Sequence[Row], units: Units) -> str:
    return extremes(
        rows, "Edge to fill and coat", lambda row: row.edge_area_mm2, lambda mm2: edge_area(mm2, units)
    )


def extremes(
    rows: Sequence[R], what: str, value: Callable[[R], float | None], show: Callable[[float], str]
) -> str:
    """Tell least and most, and how much more that is; nothing where the shown figures are alike."""
    found = [(figure, row) for row in rows if (figure := value(row)) is not None]
    if not found:
        return ""
    low, high = min(figure for figure, _ in found), max(figure for figure, _ in found)
    if show(low) == show(high):
        return ""
    least, most = (
        _names([row for figure, row in found if show(figure) == show(end)], rows) for end in (low, high)
    )
    # under one in a hundred the figures speak for themselves
    percent = round(100 * (high / low - 1)) if low > 0 else 0
    more = f", {percent} % more" if percent else ""
    return f"{what}: least {show(low)} ({least}), most {show(high)} ({most}){more}."


def _off_centre(row: Row, units: Units) -> float:
    """How far the base stands off centre, mm, to the step that is shown, so that equal ones are equal."""
    step = 25.4 / 64 if units == "in" else 0.1
    return 0.0 if row.base_offset_mm is None else round(math.hypot(*row.base_offset_mm) / step) * step


def whole(number: float) -> str:
    """Write a count, ``none`` for 0."""
    return str(int(number)) if number else "none"


def warning_words(rows: Sequence[AnyRow]) -> str:
    """Tell which warnings come with some rows only."""
    numbers = sorted({number for row in rows for number in row.warnings})
    some = [(n, [row for row in rows if n in row.warnings]) for n in numbers]
    words = [f"{number} with {_names(having, rows)}" for number, having in some if len(having) < len(rows)]
    return f"Warnings: {'; '.join(words)}." if words else ""


def shares(rows: Sequence[R], what: str, value: Callable[[R], float], show: Callable[[float], str]) -> str:
    """Tell which rows share which value, the least first; nothing where all share one."""
    by_value: dict[float, list[R]] = {}
    for row in rows:
        by_value.setdefault(value(row), []).append(row)
    if len(by_value) < 2:
        return ""
    have = {v: " have" * (len(some) > _MOST_NAMES) for v, some in by_value.items()}
    parts = "; ".join(f"{_names(by_value[v], rows)}{have[v]} {show(v)}" for v in sorted(by_value))
    return f"{what}: {parts}."


def _names(some: Sequence[AnyRow], rows: Sequence[AnyRow]) -> str:
    names = [row.name for row in some]
    if len(names) > _MOST_NAMES:
        return f"{len(names)} of {len(rows)}"
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)
