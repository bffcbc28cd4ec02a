"""Tops with bowed sides or ends: boats and D-ends. The radius follows from the sagitta."""

from __future__ import annotations

import math
from typing import Literal

from edgewright.design.outline import FIT_MM
from edgewright.design.shapes.figures import need_at_most, need_greater, need_not_negative, need_positive
from edgewright.design.shapes.loop import FLATTEST_MM, Vertex, named_loop
from edgewright.design.shapes.model import Shape
from edgewright.errors import GeometryError

__all__ = ["boat", "d_end", "radius_of"]


def radius_of(chord: float, sagitta: float) -> float:
    """Radius of the arc over a chord with a given rise in its middle (mm): ((c/2)² + s²) / 2s."""
    return ((chord / 2) ** 2 + sagitta**2) / (2 * sagitta)


def boat(length: float, end_width: float, middle_width: float) -> Shape:
    """Boat-shaped top: straight ends, both sides one arc.

    Parameters
    ----------
    length, end_width, middle_width
        In mm; the ends may come to a point (0), the middle is wider than the ends.

    Raises
    ------
    GeometryError
        If a figure is out of range, or the sides do not bow out, so slightly that they are straight, or
        further than half a circle.
    """
    need_positive("length", length)
    need_not_negative("end width", end_width, "give 0 for pointed ends")
    need_positive("middle width", middle_width)
    need_greater(
        "middle width of a boat",
        middle_width,
        "its end width ",
        end_width,
        "exchange the two, or give a rectangle",
    )
    sagitta = (middle_width - end_width) / 2
    need_at_most(
        "bow of each side",
        sagitta,
        "half the length",
        length / 2,
        "a side is at most half a circle: measure again",
    )
    _need_bend("bow of each side", length, sagitta)
    bulge = 2 * sagitta / length
    low, high = sagitta, sagitta + end_width
    return Shape(
        *named_loop(
            (
                ((0.0, low), bulge, "south"),
                ((length, low), 0.0, "east end"),
                ((length, high), bulge, "north"),
                ((0.0, high), 0.0, "west end"),
            )
        )
    )


def d_end(
    length: float,
    width: float,
    depth: float,
    ends: Literal["east", "west", "both"],
    chord: float | None = None,
) -> Shape:
    """Rectangle with one or both ends bowed: a D or a double D.

    Parameters
    ----------
    length
        Over all, bow included, in mm.
    width
        In mm, greater than 0.
    depth
        How far the bow stands out over its chord, in mm; half the chord makes half a circle.
    ends
        Which ends are bowed.
    chord
        Where the bow leaves shoulders at the corners, its chord in mm, at most the width; None for all of it.

    Raises
    ------
    GeometryError
        If a figure is out of range, the bow deeper than half its chord, or the bows longer than the top.
    """
    need_positive("length", length)
    need_positive("width", width)
    need_positive("depth of the D", depth, "give a rectangle for straight ends")
    if ends not in ("east", "west", "both"):
        raise GeometryError(f"bowed ends are `{ends}`; they must be east, west or both: name one")
    span = width if chord is None else chord
    need_positive("chord of the D", span)
    need_at_most("chord of the D", span, "the width", width, "measure the chord again")
    need_at_most(
        "depth of the D", depth, "half its chord", span / 2, "an end is at most half a circle: measure again"
    )
    count = 2 if ends == "both" else 1
    need_at_most(
        f"depth of {count} D end{'s' * (count - 1)}", count * depth, "the length", length, "measure again"
    )
    _need_bend("depth of the D", span, depth)
    bulge, shoulder = 2 * depth / span, (width - span) / 2
    west = depth if ends != "east" else 0.0
    east = length - depth if ends != "west" else length
    vertices: list[Vertex] = [((west, 0.0), 0.0, "south")]
    if ends == "west":
        vertices.append(((east, 0.0), 0.0, "east"))
    else:
        vertices += [
            ((east, 0.0), 0.0, "south-east shoulder"),
            ((east, shoulder), bulge, "east end"),
            ((east, width - shoulder), 0.0, "north-east shoulder"),
        ]
    vertices.append(((east, width), 0.0, "north"))
    if ends == "east":
        vertices.append(((west, width), 0.0, "west"))
    else:
        vertices += [
            ((west, width), 0.0, "north-west shoulder"),
            ((west, width - shoulder), bulge, "west end"),
            ((west, shoulder), 0.0, "south-west shoulder"),
        ]
    return Shape(*named_loop(vertices))


def _need_bend(name: str, chord: float, sagitta: float) -> None:
    radius = radius_of(chord, sagitta) if sagitta > FIT_MM else math.inf
    if radius > FLATTEST_MM:
        raise GeometryError(
            f"{name} is {sagitta:g} mm, a radius of {radius:g} mm; at most {FLATTEST_MM:g} mm can be told from "
            "straight: give a straight edge"
        )
