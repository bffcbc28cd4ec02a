"""Why fewer strips come out of a stick than before: what they and their kerfs take across it, and what it has."""

from __future__ import annotations

from fractions import Fraction

from edgewright.cutlist.model import CutPlan, Stick
from edgewright.design.model import Design
from edgewright.ticks import TICKS_PER_MM
from edgewright.trade import inch, inch_text
from edgewright.units import Units

__all__ = ["lost_strip_words", "show_fine"]


def show_fine(mm: Fraction, units: Units) -> str:
    """Show an exact length to 1/128 in or 0.1 mm, with ``~`` in front where it is rounded."""
    step = inch("1/128") if units == "in" else Fraction(1, 10)
    shown = round(mm / step) * step
    text = inch_text(shown) if units == "in" else f"{float(shown):.7g} mm"
    return text if shown == mm else f"~{text}"


def lost_strip_words(before: CutPlan, after: Design, width: int) -> str:
    """Inequality of the first stick that no longer gives as many strips of one width; empty where all do.

    n strips of an offcut take n (w + k), for the kerf beside the finished edge is its own; those of a board
    n w + (n - 1) k.

    Parameters
    ----------
    before
        A plan with strips of this width (ticks).
    after
        The design with another kerf, or of another old top.
    """
    kerf, units = after.job.saw.kerf.exact_mm, after.job.units
    strip = Fraction(width, TICKS_PER_MM)
    for stick in before.sticks:
        number = len(stick.lanes)
        kerfs = number if stick.source == "offcut" else number - 1
        need, have = number * strip + kerfs * kerf, _clean_width(stick, after)
        if need > have:
            strips = f"{number} strip{'s' * (number > 1)} and {kerfs} kerf{'s' * (kerfs != 1)}"
            return f"{strips} take {show_fine(need, units)} of the {show_fine(have, units)} of {stick.name}"
    return ""


def _clean_width(stick: Stick, design: Design) -> Fraction:
    if stick.side is None:
        return Fraction(stick.width_ticks - 2 * stick.edge_waste_ticks, TICKS_PER_MM)
    finish = design.job.top.finished_edge[stick.side].depth.exact_mm
    return Fraction(design.sizes.amounts[stick.side], TICKS_PER_MM) - finish
