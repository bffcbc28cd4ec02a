"""Report findings 105 and 109: what the measurements of an old top say of one another."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.check_figures import exceeds
from edgewright.design.shapes.misclosure import BLUNDER_MM
from edgewright.design.shapes.model import ShapeCheck
from edgewright.design.shapes.quad import CLOSING, SQUARENESS
from edgewright.display import show_area, show_decimal
from edgewright.findings import Finding
from edgewright.job_outline import Quad, Round
from edgewright.units import Units

__all__ = ["measured_findings"]

#: So many likely slips are told; all of them stand with the outline in plan.json.
_TOLD: Final = 3


def measured_findings(design: ShapedDesign) -> Iterator[Finding]:
    """109, once a top: the check that is furthest beyond its tolerance; 105: a top that is measured well, but leans.

    Six measurements of a quadrilateral share what one of them is off, so that none stands out against their fit:
    the diagonal that the other five predict is the one to judge by, and beyond 1/4 in it is a stop.
    """
    units, old = design.job.units, design.old
    wrong = [check for check in old.checks if not check.agrees and check.what != SQUARENESS]
    if not wrong:
        yield from _out_of_square(old.checks, units)
        return
    worst = max(wrong, key=lambda check: abs(check.off) / check.tolerance)
    stop = worst.what == CLOSING and exceeds(abs(worst.off), BLUNDER_MM)
    more = len(wrong) - 1
    likely = "; or ".join(said.rstrip(".") for said in old.suggestions[:_TOLD]) or worst.says.rstrip(".")
    if "measure" not in likely:  # some advise what to measure
        likely = f"{'likely: ' if old.suggestions else ''}{likely}; measure again"
    yield Finding(
        109,
        "stop" if stop else "warn",
        "measurements disagree",
        "outline",
        f"{worst.what}: measured {_figure(worst, worst.measured, units)}, the other measurements give "
        f"{_figure(worst, worst.expected, units)}" + (f"; {more} more disagree" if more else ""),
        f"{likely}; {_outline_used(design)}",
    )


def _outline_used(design: ShapedDesign) -> str:
    match design.job.top.outline:
        case Quad():
            return "the outline used is the best fit of all six, nothing was taken out"
        case Round(diameters=(_, _, *_)):
            return "the outline used has the mean diameter"
        case _:
            return "nothing was corrected"


def _figure(check: ShapeCheck, value: float, units: Units) -> str:
    if "angle" in check.what:
        return f"{value:.2f}°"
    return show_area(value, units) if " area" in f" {check.what}" else show_decimal(value, units)


def _out_of_square(checks: tuple[ShapeCheck, ...], units: Units) -> Iterator[Finding]:
    """105 for a quadrilateral: no misreading, for the other figures agree."""
    for check in checks:
        if check.what == SQUARENESS and not check.agrees:
            yield Finding(
                105,
                "note",
                "top is out of square",
                "outline",
                f"the diagonals differ by {show_decimal(abs(check.off), units)}",
                f"{check.says.rstrip('.')}. The measurements agree: this is the top, no misreading",
            )
