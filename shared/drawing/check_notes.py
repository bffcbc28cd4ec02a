"""Check figures of a drawing: how many loops and lines each layer holds, their length and the area within.

They stand on the reference layer and tell whether a file came over whole: ``edgewright audit`` compares them with what
it finds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from edgewright.drawing.arcs import bulge_arc, edges, is_straight, loop_of
from edgewright.drawing.layers import REFERENCE
from edgewright.drawing.reference import UNIT_MM, FileUnits
from edgewright.drawing.strokes import plain_parts
from edgewright.drawing.view import Circle, Loop, Segment, View

__all__ = ["check_notes"]


def check_notes(view: View, units: FileUnits) -> Iterator[str]:
    """A line for each layer that holds lines, the reference layer left out; four decimals of the drawing unit."""
    mm = UNIT_MM[units]
    for layer in view.layers:
        if layer.name == REFERENCE.name:
            continue
        shapes = [part for shape in view.on(layer.name) for part in plain_parts(shape)]
        loops = [
            loop_of(one) if isinstance(one, Circle) else one
            for one in shapes
            if isinstance(one, (Circle, Loop))
        ]
        lines = [one for one in shapes if isinstance(one, Segment)]
        if loops or lines:
            length = math.fsum((*map(_length, loops), *(math.hypot(s.x1 - s.x0, s.y1 - s.y0) for s in lines)))
            area = math.fsum(map(_area, loops))
            counts = f"{len(loops)} closed, {len(lines)} open"
            yield f"{layer.name}: {counts}, length {length / mm:.4f}, area {area / mm**2:.4f}"


def _length(loop: Loop) -> float:
    lengths = []
    for start, end, bulge in edges(loop):
        if is_straight(start, end, bulge):
            lengths.append(math.dist(start, end))
        else:
            arc = bulge_arc(start, end, bulge)
            lengths.append(arc.radius * abs(arc.turn))
    return math.fsum(lengths)


def _area(loop: Loop) -> float:
    """Area within a loop, whichever way round it runs (Green's theorem; each arc by its own integral)."""
    parts = []
    for start, end, bulge in edges(loop):
        if is_straight(start, end, bulge):
            parts.append((start[0] * end[1] - end[0] * start[1]) / 2)
            continue
        arc = bulge_arc(start, end, bulge)
        # half the integral of x dy - y dx along the arc
        rises = arc.x * (end[1] - start[1]) - arc.y * (end[0] - start[0])
        parts.append((rises + arc.radius**2 * arc.turn) / 2)
    return abs(math.fsum(parts))
