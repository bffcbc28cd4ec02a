"""What an offcut is good for: lanes of a width along its fresh edge, and its largest true rectangle.

A board of the offcut from height a to height b is as long as the stretch of the cut line over which no edge comes
between a and b; for lines and arcs that is exact. Old edges count up to their very edge: what cleaning takes off
them is the planner's.
"""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.design.outline import Arc, Segment
from edgewright.design.region import point_in_region
from edgewright.design.tolerances import TOUCH_MM
from edgewright.design.trims.golden import peak_between
from edgewright.design.trims.offcut import Offcut
from edgewright.design.trims.shadow import free_between, shadows, span
from edgewright.design.trims.turned_rectangle import TurnedRectangle

__all__ = ["lane_count", "lane_lengths", "stretch", "usable_length", "usable_rectangle"]


def stretch(
    offcut: Offcut, low: float, high: float, local: Sequence[Segment] | None = None
) -> tuple[float, float]:
    """Longest clear stretch (start, end) along the fresh edge for a board between two heights, mm.

    ``(0, 0)`` if there is none. ``local`` is ``offcut.local_segments``, for who asks often.
    """
    segments = offcut.local_segments if local is None else local
    begin, end = span(segments, (1.0, 0.0))
    free = free_between(shadows(segments, low, high), begin, end)
    middle = (low + high) / 2
    frame = offcut.frame
    for start, stop in sorted(free, key=lambda part: part[0] - part[1]):
        if point_in_region(offcut.region, frame.world(((start + stop) / 2, middle))) == "inside":
            return start, stop
    return 0.0, 0.0


def usable_length(offcut: Offcut, width: float, local: Sequence[Segment] | None = None) -> float:
    """Length of the longest strip of a width (mm) with one long side on the fresh edge; 0 if there is none."""
    if not 0 < width <= offcut.depth + TOUCH_MM:
        return 0.0
    start, end = stretch(offcut, 0.0, width, local)
    return end - start


def lane_count(depth: float, width: float, kerf: float) -> int:
    """How many strips of a width lie side by side in a depth, one kerf between neighbours: (W + k)/(w + k)."""
    return max(0, int((depth + kerf + TOUCH_MM) // (width + kerf))) if width > 0 else 0


def lane_lengths(
    offcut: Offcut, width: float, kerf: float, local: Sequence[Segment] | None = None
) -> tuple[float, ...]:
    """Lengths of the strips of a width (mm) that lie side by side from the fresh edge outwards.

    An offcut of even width W gives floor((W + k)/(w + k)); in a tapered one the outer ones are shorter.
    """
    segments = offcut.local_segments if local is None else local
    lengths = []
    for number in range(lane_count(offcut.depth, width, kerf)):
        low = number * (width + kerf)
        start, end = stretch(offcut, low, low + width, segments)
        if end > start:
            lengths.append(end - start)
    return tuple(lengths)


def usable_rectangle(offcut: Offcut) -> TurnedRectangle | None:
    """Largest true rectangle whose longer side lies on the fresh edge; None if the fresh edge gives none.

    Notes
    -----
    The clear length L(h) is exact. The area h L(h) is searched between the heights at which an edge begins or
    ends, by samples and golden section; L falls as h grows, so that the sampled step bounds what could be missed.
    """
    local = offcut.local_segments

    def clear(height: float) -> float:
        return usable_length(offcut, height, local)

    # beyond this height the long side would no longer be the one on the fresh edge
    low, high = 0.0, offcut.depth
    if clear(high) < high:
        for _ in range(60):
            middle = (low + high) / 2
            low, high = (middle, high) if clear(middle) >= middle else (low, middle)
        high = low
    if high <= TOUCH_MM:
        return None
    heights = {0.0, high}
    for segment in local:
        ends = {segment.start[1], segment.end[1]}
        if isinstance(segment, Arc):
            ends |= {
                segment.centre[1] + segment.radius,
                segment.centre[1] - segment.radius,
                segment.centre[1],
            }
        heights |= {y for y in ends if 0 < y < high}
    height = peak_between(lambda h: h * clear(h), sorted(heights))
    if height <= 0:
        return None
    start, end = stretch(offcut, 0.0, height, local)
    if end <= start:
        return None
    frame = offcut.frame
    return TurnedRectangle(frame.world((start, 0.0)), frame.along, end - start, height)
