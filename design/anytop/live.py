"""Which edges of a finished top are live: traced along the bark, and cut by nobody."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.design.anytop.measured import measured_shape
from edgewright.design.outline import Arc, Segment
from edgewright.design.segments import distance, point_at
from edgewright.design.shapes.live_edge import corner_sides, station_side
from edgewright.design.shapes.model import Shape
from edgewright.design.tolerances import NODE_MM
from edgewright.job_outline import Stations
from edgewright.job_shaped import ShapedJob

__all__ = ["goes_by", "lies_on", "live_segments"]


def goes_by(edge: str, name: str) -> bool:
    """Whether an edge goes by a name: its own, or that of the traced side it is a part of, like ``north``.

    A rounding between two stations is a part of their side, too.
    """
    return edge == name or station_side(edge) == name or corner_sides(edge) == (name, name)


def lies_on(segment: Segment, edges: Sequence[Segment]) -> bool:
    """Whether a segment lies on some edges from end to end; edges in one line may have become one."""
    points = [point_at(segment, share / 8) for share in range(9)]
    return all(any(distance(edge, point) <= NODE_MM for edge in edges) for point in points)


def live_segments(job: ShapedJob, finished: Shape) -> frozenset[int]:
    """Numbers of the finished outline's segments that lie on a traced side of the old top.

    What is cut is live no longer, and a top that was turned to its largest rectangle has nothing live left. The
    rounding between two live edges is one itself.
    """
    if not isinstance(job.top.outline, Stations) or job.trim.largest_rectangle:
        return frozenset()
    old, _ = measured_shape(job.top.outline, job.saw.kerf.mm, job.units)
    traced = [
        edge
        for edge, name in zip(old.outline.segments, old.names, strict=True)
        if station_side(name) is not None
    ]
    segments = finished.outline.segments
    live = {number for number, segment in enumerate(segments) if lies_on(segment, traced)}
    count = len(segments)
    return frozenset(live) | {
        number
        for number, segment in enumerate(segments)
        if isinstance(segment, Arc) and {(number - 1) % count, (number + 1) % count} <= live
    }
