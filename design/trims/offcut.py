"""An offcut of a straight cut: how long, how wide at both ends, and which of its edges are old.

An offcut is seen from its fresh edge, the far edge of the kerf: x along that edge, y into the offcut.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.design.outline import Line, Segment
from edgewright.design.region import Region
from edgewright.design.tolerances import EVENT_MM
from edgewright.design.trims.shadow import Frame, span
from edgewright.design.trims.straight_cut import Sawn

__all__ = ["Offcut", "offcuts_of"]

#: Cosine of 45°: an edge turned less than this against the cut faces it.
_FACING: Final = 0.7071


@dataclass(frozen=True, slots=True)
class Offcut:
    """One offcut (mm).

    Attributes
    ----------
    name
        Name of the cut that made it.
    fresh
        Its edge along the kerf, from the first to the last wood, with the offcut on the left.
    length
        Length of that edge.
    width_start, width_end
        Distances from the cut line to the two ends of the longest straight edge that faces it, at the start
        and the end of `fresh`; they differ by the taper. 0 where no straight edge faces the cut.
    depth
        Greatest distance of its wood from the cut line.
    dirty
        Numbers from 0, in the order of ``region.segments``, of its edges that are old: neither this cut nor
        one before it made them.
    """

    name: str
    region: Region
    fresh: Line
    length: float
    width_start: float
    width_end: float
    depth: float
    dirty: tuple[int, ...]

    @property
    def narrowest(self) -> float:
        """The smaller of the two end widths (mm)."""
        return min(self.width_start, self.width_end)

    @property
    def widest(self) -> float:
        """The larger of the two end widths, or the depth where no straight edge faces the cut (mm)."""
        return max(self.width_start, self.width_end) or self.depth

    @property
    def frame(self) -> Frame:
        """Axes along the fresh edge and into the offcut."""
        return Frame.on(self.fresh)

    @property
    def local_segments(self) -> tuple[Segment, ...]:
        """All edges seen from the fresh edge."""
        frame = self.frame
        return tuple(frame.moved(segment) for segment in self.region.segments)


def offcuts_of(sawn: Sawn, clean: Sequence[Line] = ()) -> tuple[Offcut, ...]:
    """Offcuts of one cut.

    Parameters
    ----------
    clean
        Keep lines of the cuts made before: edges on them are clean.
    """
    waste = sawn.cut.waste
    frame = Frame.on(Line(waste.end, waste.start))
    return tuple(_offcut(sawn.cut.name, region, frame, clean) for region in sawn.offcuts)


def _offcut(name: str, region: Region, frame: Frame, clean: Sequence[Line]) -> Offcut:
    local = [frame.moved(segment) for segment in region.segments]
    on_cut = [number for number, segment in enumerate(local) if _lies_on_axis(segment)]
    xs = [x for number in on_cut for x in (local[number].start[0], local[number].end[0])]
    if not xs:  # touches the kerf at a point only
        xs = list(span(local, (1.0, 0.0)))
    start, end = min(xs), max(xs)
    frames = [Frame.on(line) for line in clean]
    old = tuple(
        number
        for number, segment in enumerate(region.segments)
        if number not in on_cut and not any(_lies_on_axis(other.moved(segment)) for other in frames)
    )
    far = max(
        (s for s in local if isinstance(s, Line) and s.start[0] - s.end[0] > _FACING * s.length),
        key=lambda s: s.length,
        default=None,
    )
    depth = span(local, (0.0, 1.0))[1]
    return Offcut(
        name,
        region,
        Line(frame.world((start, 0.0)), frame.world((end, 0.0))),
        end - start,
        far.end[1] if far else 0.0,
        far.start[1] if far else 0.0,
        depth,
        old,
    )


def _lies_on_axis(segment: Segment) -> bool:
    return isinstance(segment, Line) and max(abs(segment.start[1]), abs(segment.end[1])) <= EVENT_MM
