"""Cut faces of the edge: its outline with the round-overs, glue seams and a hatch for each layer.

Positions are wood mm: x is 0 at the finished edge and negative inwards, y counts up from the underside.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.design.profile import EdgeProfile
from edgewright.drawing.paper import HATCHING, HIDDEN, KEEP, PANEL, Pen, Point
from edgewright.drawing.view import Hatch, Loop, Vertex

__all__ = ["EdgeWood"]

_QUARTER: Final = math.sqrt(2) - 1
#: How far a broken line jogs to both sides (paper mm).
_JOG: Final = 1.4
_STEPS: Final = 24


@dataclass(frozen=True, slots=True)
class EdgeWood:
    """The wood of the section.

    Attributes
    ----------
    seams
        Heights of the glue seams, lowest first; the last one is the underside of the top itself.
    top_end, strip_end
        x where the top is broken off, and where the strips end; equal when the strips are broken off, too.
    """

    profile: EdgeProfile
    seams: Sequence[float]
    top_end: float
    strip_end: float

    @property
    def broken(self) -> bool:
        """Whether the strips are wider than the page."""
        return self.strip_end == self.top_end

    def reach(self, y: float) -> float:
        """How far the wood reaches at a height: 0 on the flat, less in the round-overs."""
        profile = self.profile
        for radius, depth in ((profile.bottom_radius, y), (profile.top_radius, profile.thickness - y)):
            if depth < radius:
                return math.sqrt(max(0.0, radius**2 - (radius - depth) ** 2)) - radius
        return 0.0

    def draw(self, pen: Pen, at: Callable[[float, float], Point]) -> None:
        """Draw the wood; ``at`` turns a position into its place on the page."""
        high = self.profile.thickness
        pen.shape(PANEL, Loop(tuple(self._outline(at))))
        for seam in self.seams:
            pen.line(KEEP, at(self.strip_end, seam), at(self.reach(seam), seam))
        spans = list(zip([0.0, *self.seams], [*self.seams, high], strict=True))
        for number, (low, upper) in enumerate(spans):
            top = number == len(spans) - 1
            # neighbours are hatched opposite ways
            angle = 45 if number % 2 == len(self.seams) % 2 else 135
            layer = self._layer(at, low, upper, self.top_end if top else self.strip_end)
            pen.shape(HATCHING, Hatch(layer, angle, 3.0))
        # the square edge that the profile is routed from
        for radius, y, way in (
            (self.profile.bottom_radius, 0.0, 1.0),
            (self.profile.top_radius, high, -1.0),
        ):
            pen.line(HIDDEN, at(-radius, y), at(0, y), at(0, y + way * radius))

    def _outline(self, at: Callable[[float, float], Point]) -> Iterator[Vertex]:
        """Along the underside, round the edge, back along the top face; each arc turns a quarter to the left."""
        rb, rt, high = self.profile.bottom_radius, self.profile.top_radius, self.profile.thickness
        end, floor = self.top_end, 0.0 if self.broken else self.seams[-1]
        places = [(-rb, 0.0, _QUARTER if rb else 0.0), (0.0, rb, 0.0)]
        places += [(0.0, high - rt, _QUARTER if rt else 0.0), (-rt, high, 0.0), (end, high, 0.0)]
        vertices = [(*at(x, y), bulge) for x, y, bulge in places]
        (x, top), bottom = at(end, high), at(end, floor)[1]
        third = (top - bottom) / 3
        vertices += [
            (x, top - third, 0.0),
            (x + _JOG, top - 1.4 * third, 0.0),
            (x - _JOG, top - 1.6 * third, 0.0),
            (x, bottom + third, 0.0),
            (x, bottom, 0.0),
        ]
        if not self.broken:
            vertices += [(*at(self.strip_end, floor), 0.0), (*at(self.strip_end, 0.0), 0.0)]
        for index, vertex in enumerate(vertices):
            # round-overs that meet, or none at all, leave a vertex twice
            if math.dist(vertex[:2], vertices[(index + 1) % len(vertices)][:2]) > 1e-6:
                yield vertex

    def _layer(self, at: Callable[[float, float], Point], low: float, high: float, end: float) -> Loop:
        """One layer of wood between two heights, for its hatch; round-overs as short chords."""
        heights = [low + (high - low) * n / _STEPS for n in range(_STEPS + 1)]
        points = [at(end, low), *(at(self.reach(y), y) for y in heights), at(end, high)]
        return Loop(tuple((x, y, 0.0) for x, y in points))
