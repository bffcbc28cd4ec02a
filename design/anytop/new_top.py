"""A new top: the blank that it is sawn out of a sheet as, and what is cut off that blank to come to its outline.

The blank is the box round the outline, larger all round by what the job allows for sawing. It takes the place of an
old top: keep lines, pivots and offcuts are told from it.
"""

from __future__ import annotations

import math
from dataclasses import replace

from edgewright.design.anytop.trim import ShapedTrims, cut_to_outline
from edgewright.design.outline import FIT_MM, Line, Outline
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.loop import move_outline
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.placing import placed
from edgewright.design.tolerances import NODE_MM
from edgewright.job_shaped import ShapedJob

__all__ = ["blank_of", "cut_from_blank"]


def blank_of(
    wanted: Shape, holes: tuple[Outline, ...], oversize: float
) -> tuple[Shape, Shape, tuple[Outline, ...]]:
    """Blank of a new top, and its outline and holes as they lie in it.

    Parameters
    ----------
    wanted, holes
        The new top as it shall be, and the holes of its drawing.
    oversize
        How much larger the blank is all round (mm).

    Returns
    -------
    blank, outline, holes
        The south-west corner of the blank is the origin. The blank carries what the measurements say of one another.
    """
    x0, y0, x1, y1 = wanted.outline.bounds
    by = oversize - x0, oversize - y0
    moved = placed(wanted, by) if max(map(abs, by)) > FIT_MM else wanted
    blank = rectangle_shape(x1 - x0 + 2 * oversize, y1 - y0 + 2 * oversize)
    blank = replace(blank, checks=wanted.checks, suggestions=wanted.suggestions)
    return blank, moved, tuple(move_outline(hole, by, 0.0) for hole in holes)


def cut_from_blank(blank: Shape, wanted: Shape, job: ShapedJob) -> ShapedTrims:
    """Cuts from the blank to the outline; none where the blank is the top.

    Raises
    ------
    GeometryError
        If an edge cannot be sawn or routed.
    """
    edges, sides = wanted.outline.segments, blank.outline.segments
    straight = len(edges) == 4 and all(isinstance(edge, Line) for edge in edges)
    same = all(
        math.dist(one, other) <= NODE_MM
        for one, other in zip(sorted(e.start for e in edges), sorted(s.start for s in sides), strict=straight)
    )
    return ShapedTrims(blank) if straight and same else cut_to_outline(blank, wanted, job)
