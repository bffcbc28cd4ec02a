"""Lengths in the sentence of a GeometryError, in the units of the job.

Geometry works in millimetres and says so. Who measures in inches reads each figure in inches, with the millimetres
behind it where it was rounded.
"""

from __future__ import annotations

import re
from typing import Final

from edgewright.display import show_mm
from edgewright.units import Units

__all__ = ["in_units"]

_NUMBER: Final = r"-?[0-9]+(?:\.[0-9]+)?(?:e[+-]?[0-9]+)?"
#: A place ``(x, y) mm`` or from one to another, two sizes ``a x b mm`` or ``a by b mm``, or one length; areas and
#: volumes stay as they are.
_FIGURE: Final = re.compile(
    rf"(?P<places>\({_NUMBER}, {_NUMBER}\)(?: to \({_NUMBER}, {_NUMBER}\))?) mm\b(?![²³])"
    rf"|(?<![\w.,])(?:(?P<one>{_NUMBER})(?P<by> x | by ))?(?P<size>{_NUMBER}) mm\b(?![²³])"
)
#: What is nearer to a 64th of an inch than this (mm) is that 64th.
_EXACT_MM: Final = 1e-3
_LARGEST_MM: Final = 1e6


def in_units(sentence: str, units: Units) -> str:
    """Rewrite the lengths of a sentence.

    Parameters
    ----------
    sentence
        With lengths like ``12.7 mm`` and places like ``(0, 12.7) mm``.
    units
        Of the job; for ``"mm"`` nothing is changed.

    Returns
    -------
    str
        For inches like ``1/2 in``, or ``~1/2 in (12.8 mm)`` where it is rounded to a 64th.
    """
    return sentence if units == "mm" else _FIGURE.sub(_said, sentence)


def _said(found: re.Match[str]) -> str:
    if found["places"] is not None:
        return re.sub(_NUMBER, lambda number: _inches(number[0]), found["places"]) + " in"
    size = _inches(found["size"])
    if found["one"] is not None:
        first = _inches(found["one"])
        return f"{first}{found['by']}{size} in"
    mm = f" ({found['size']} mm)" if size.startswith("~") else ""
    return f"{size} in{mm}"


def _inches(text: str) -> str:
    mm = float(text)
    if abs(mm) > _LARGEST_MM:
        return f"~{mm / 25.4:.4g}"
    shown = show_mm(mm, "in", unit=False)
    whole = round(mm / 25.4 * 64) / 64 * 25.4
    return shown if abs(whole - mm) <= _EXACT_MM else f"~{shown}"
