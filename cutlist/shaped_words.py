"""What a group of variants of a top with an outline differs in, in one sentence for each thing that is weighed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from edgewright.cutlist.compare_words import edge_area, extremes, shares, warning_words, whole
from edgewright.cutlist.shaped_row import ShapedRow
from edgewright.display import show_area, show_mm
from edgewright.units import Units

__all__ = ["finished_size", "shaped_differences", "weight_text"]


def finished_size(row: ShapedRow, units: Units, *, unit: bool = True) -> str:
    """Write the finished size, like ``60 x 29 3/4 in``; "" without one."""
    if row.finished_mm is None:
        return ""
    length, width = row.finished_mm
    return f"{show_mm(length, units, unit=False)} x {show_mm(width, units, unit=unit)}"


def weight_text(grams: float, units: Units) -> str:
    """Write a weight (g), like ``85 lb`` or ``38.6 kg``."""
    return f"{grams / 453.59237:.0f} lb" if units == "in" else f"{grams / 1000:.1f} kg"


def shaped_differences(rows: Sequence[ShapedRow], units: Units) -> list[str]:
    """Sentences, the finished size first."""

    def length(mm: float) -> str:
        return show_mm(mm, units) if mm else "none"

    def area(mm2: float) -> str:
        return show_area(mm2, units)

    def part(of_one: float) -> str:
        return f"{100 * of_one:.0f} %"

    def most(what: str, value: Callable[[ShapedRow], float | None], show: Callable[[float], str]) -> str:
        return extremes(rows, what, value, show)

    strip = next((row.strip_width_mm for row in rows if row.strip_width_mm), 0.0)
    cut = any(row.cut_count for row in rows)
    words = (
        most("Finished area", lambda r: r.finished_area_mm2, area),
        most("Comes off", lambda r: r.comes_off_mm2, area),
        most("Most off a corner", lambda r: r.most_off_mm, length),
        most(f"Strip {length(strip)} wide in the offcuts", lambda r: r.offcut_strip_mm, length),
        most("Widest strip that the offcuts give all round", lambda r: r.offcut_widest_mm, length),
        shares(rows, "Blanks in all", lambda r: r.blank_count, whole) if cut else "",
        shares(rows, "Blanks to buy or find", lambda r: r.blank_count - r.cut_count, whole),
        most("Board area", lambda r: r.board_area_mm2, area),
        most("Of the boards ends under the top", lambda r: r.yield_part, part),
        most("Length of the blanks in all", lambda r: r.running_mm, length),
        shares(rows, "Edge thick", lambda r: r.edge_thickness_mm or 0.0, length),
        most("Edge to fill and coat", lambda r: r.edge_area_mm2, lambda mm2: edge_area(mm2, units)),
        most("Weight", lambda r: r.weight_g, lambda grams: weight_text(grams, units)),
        warning_words(rows),
    )
    return [sentence for sentence in words if sentence]
