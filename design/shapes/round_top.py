"""Round tops, from diameters or from a tape wrapped round the rim."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

from edgewright.design.shapes.figures import need_not_negative, need_positive
from edgewright.design.shapes.loop import named_loop
from edgewright.design.shapes.model import TAPE_MM, Shape, ShapeCheck
from edgewright.display import show_mm
from edgewright.errors import GeometryError
from edgewright.units import Units

__all__ = ["OVAL_SPREAD_MM", "round_from_wrap", "round_shape"]

#: Diameters that differ by more than two readings can explain (2 x 1/32 in) are those of an oval.
OVAL_SPREAD_MM: Final = 2 * TAPE_MM

_MOST_DIAMETERS: Final = 8


def round_shape(diameters: Sequence[float], units: Units = "in") -> Shape:
    """Round top of the mean diameter.

    Parameters
    ----------
    diameters
        1 to 8 diameters in mm, taken in different directions, each greater than 0.
    units
        In what the sentences speak.

    Returns
    -------
    Shape
        With more than one diameter a check of their spread, and of each against the mean.

    Raises
    ------
    GeometryError
        If there are no or too many diameters or one is not greater than 0.
    """
    if not 1 <= len(diameters) <= _MOST_DIAMETERS:
        raise GeometryError(
            f"{len(diameters)} diameters given; 1 to {_MOST_DIAMETERS} are read: measure it 3 ways"
        )
    for number, diameter in enumerate(diameters, start=1):
        need_positive(f"diameter {number}", diameter)
    mean = math.fsum(diameters) / len(diameters)
    checks: list[ShapeCheck] = []
    suggestions: list[str] = []
    if len(diameters) > 1:
        least, most = min(diameters), max(diameters)
        shown = [show_mm(value, units) for value in (least, most, most - least, mean)]
        says = f"the diameters run from {shown[0]} to {shown[1]}; the top is taken as round with {shown[3]}"
        checks.append(ShapeCheck("spread of the diameters", most - least, 0.0, TAPE_MM, says))
        for number, diameter in enumerate(diameters, start=1):
            says = f"diameter {number} is {show_mm(diameter, units)}, the mean {shown[3]}"
            checks.append(ShapeCheck(f"diameter {number}", diameter, mean, TAPE_MM, says))
        if most - least > OVAL_SPREAD_MM:
            suggestions.append(
                f"the diameters differ by {shown[2]}, more than a tape explains: old solid tops shrink across the "
                f"grain, so give it as an oval of length {shown[1]} and width {shown[0]}"
            )
    return _circle(mean, tuple(checks), tuple(suggestions))


def round_from_wrap(
    circumference: float, tape_thickness: float = 0.0, diameter: float | None = None, units: Units = "in"
) -> Shape:
    """Round top from a tape wrapped round its rim.

    Parameters
    ----------
    circumference
        Reading of the tape in mm, greater than 0.
    tape_thickness
        Thickness of the tape in mm: a tape on the rim reads the circle at half its thickness further out.
    diameter
        One diameter in mm as a check, if taken.
    units
        In what the sentences speak.

    Raises
    ------
    GeometryError
        If a figure is out of range or the tape is as thick as the top.
    """
    need_positive("circumference", circumference)
    need_not_negative("tape thickness", tape_thickness)
    found = circumference / math.pi - tape_thickness
    need_positive("diameter that follows from the wrap tape", found, "measure the circumference again")
    if diameter is None:
        return _circle(found, (), ())
    need_positive("diameter", diameter)
    says = f"the wrap tape gives a diameter of {show_mm(found, units)}, the rule {show_mm(diameter, units)}"
    check = ShapeCheck("diameter against wrap tape", diameter, found, TAPE_MM, says)
    suggestions = () if check.agrees else (f"{says}: measure the diameter 3 ways, the top may be oval",)
    return _circle(found, (check,), suggestions)


def _circle(diameter: float, checks: tuple[ShapeCheck, ...], suggestions: tuple[str, ...]) -> Shape:
    r = diameter / 2
    halves = (((0.0, r), 1.0, "south half"), ((diameter, r), 1.0, "north half"))
    return Shape(*named_loop(halves), checks, suggestions)
