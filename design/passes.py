"""How deep the router is set for each pass, so that no pass takes too much.

The bit is lowered step by step; its bearing rides on the edge below the cut each time. Lowered to a part of its depth
it takes what the form, raised by the rest, would take.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from edgewright.design.form_parts import inset_span, upright
from edgewright.design.form_twins import over_part
from edgewright.design.forms import Form
from edgewright.design.outline import FIT_MM
from edgewright.errors import GeometryError
from edgewright.trade import COMMON, Default, inch

__all__ = ["LARGEST_CUT", "Pass", "router_passes"]

#: Deepest cut of one pass; a form that reaches or goes further is routed in two passes or more.
LARGEST_CUT: Final = Default(inch("3/8"), "mm", COMMON)


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass of the router.

    Attributes
    ----------
    number
        From 1.
    depth
        How far below the face the bit cuts, mm.
    section
        Wood that this pass takes off, seen in section, mm².
    share
        The same as a share of the whole form, 0 to 1.
    """

    number: int
    depth: float
    section: float
    share: float


def router_passes(
    form: Form, largest_cut: Fraction = LARGEST_CUT.value, grid: float = 0.0
) -> tuple[Pass, ...]:
    """Passes for a form, none for a sharp arris.

    Parameters
    ----------
    largest_cut
        Most that the bit is lowered at once, exact mm, greater than 0.
    grid
        Settings before the last one are rounded down to this step (mm) where that keeps them apart; 0 leaves them.

    Raises
    ------
    GeometryError
        If the largest cut is not greater than 0.
    """
    if not form.parts:
        return ()
    most = float(largest_cut)
    if not most > 0:
        raise GeometryError(
            f"largest cut is {most:g} mm; it must be greater than 0 mm: give the depth of one pass"
        )
    large = max(form.reach, form.depth) > most + FIT_MM
    count = max(2 if large else 1, math.ceil((form.depth - FIT_MM) / most))
    whole = _section(form, form.depth)
    found: list[Pass] = []
    taken = before = 0.0
    for number in range(1, count):
        depth = _setting(before, form.depth, count - number, most, grid)
        found.append(Pass(number, depth, *_taken(form, depth, taken, whole)))
        taken, before = _section(form, depth), depth
    found.append(Pass(count, form.depth, *_taken(form, form.depth, taken, whole)))
    return tuple(found)


def _taken(form: Form, depth: float, before: float, whole: float) -> tuple[float, float]:
    """Wood of one pass in section, mm², and its share of the whole."""
    section = _section(form, depth) - before
    return section, section / whole


def _setting(before: float, full: float, later: int, most: float, grid: float) -> float:
    """Depth of the next pass when ``later`` ones follow: equal steps, on the grid where none gets too deep."""
    depth = before + (full - before) / (later + 1)
    if not grid > 0:
        return depth
    low = math.floor((depth + FIT_MM) / grid) * grid
    if low > before + FIT_MM and full - low <= later * most + FIT_MM:
        return low
    high = low + grid
    return high if high - before <= most + FIT_MM and high < full - FIT_MM else depth


def _section(form: Form, depth: float) -> float:
    """Wood in section that the bit takes when it is lowered to a depth: what of the form lies below the rest."""
    rest = form.depth - depth
    area = 0.0
    for part in form.parts:
        if upright(part) or part.end[1] <= rest:
            continue
        low, high = inset_span(part)
        # inset falls with depth: what lies outside of the place where the rest is reached
        if part.start[1] < rest:
            high = min(high, form.inset_at(rest))
        if high > low:
            area += over_part(part, low, high, lambda _, z: max(z - rest, 0.0), "inset").value
    return area
