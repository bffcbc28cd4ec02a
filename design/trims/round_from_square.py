"""A round cut from its own square: the straight blank that each corner gives at 45°.

The blank lies across the corner. Its outer corners lie on the square's two sides, a distance R√2 - l/2 from the
middle; its inner long side touches the far edge of the kerf, R + k from the middle.
"""

from __future__ import annotations

import math

from edgewright.errors import GeometryError

__all__ = ["corner_blank_length", "corner_blank_width"]


def corner_blank_width(radius: float, length: float, kerf: float = 0.0, square: float | None = None) -> float:
    """Widest blank of a length from one corner: w = s/√2 - l/2 - R - k, with s the square's side, 2R by default.

    Parameters
    ----------
    radius, length, kerf
        Finished radius, length of the blank, kerf or cutter diameter, mm.
    square
        Side of the square that the round is cut from the middle of, mm, at least the diameter.

    Returns
    -------
    float
        Width in mm; 0 if the corner gives no blank of this length.

    Raises
    ------
    GeometryError
        If a figure is out of range.

    Notes
    -----
    Geometry, common practice, no source. The corners of the blank that lie inward are clear of the round, since
    the side touches it at its middle.
    """
    return max(_reach(radius, kerf, square) - _checked("blank length", length) / 2, 0.0)


def corner_blank_length(radius: float, width: float, kerf: float = 0.0, square: float | None = None) -> float:
    """Longest blank of a width from one corner, mm; 0 if the corner gives none. See `corner_blank_width`."""
    return max(2 * (_reach(radius, kerf, square) - _checked("blank width", width)), 0.0)


def _reach(radius: float, kerf: float, square: float | None) -> float:
    """From the far edge of the kerf to the square's corner, along the diagonal (mm)."""
    _checked("radius", radius)
    side = 2 * radius if square is None else _checked("square", square)
    if side < 2 * radius:
        raise GeometryError(
            f"the square's side is {side:g} mm; it must be at least the diameter of {2 * radius:g} mm: "
            "make the round smaller"
        )
    if not (math.isfinite(kerf) and kerf >= 0):
        raise GeometryError(f"kerf is {kerf:g} mm; it must be at least 0 mm: measure it with a test cut")
    return side / math.sqrt(2) - radius - kerf


def _checked(name: str, size: float) -> float:
    if not (math.isfinite(size) and size > 0):
        raise GeometryError(f"{name} is {size:g} mm; it must be greater than 0 mm: give a size")
    return size
