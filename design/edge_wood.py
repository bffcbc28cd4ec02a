"""Cut faces of the edge: its outline with both forms, glue seams and a hatch for each layer.

Positions are wood mm: x is 0 at the finished edge and negative inwards, y counts up from the underside.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.design.outline import Arc, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.segments import point_at
from edgewright.drawing.paper import HATCHING, HIDDEN, KEEP, PANEL, Pen, Point
from edgewright.drawing.view import Hatch, Loop, Vertex

__all__ = ["EdgeWood"]

#: How far a broken line jogs to both sides (paper mm).
_JOG: Final = 1.4
_STEPS: Final = 24
#: Less than can be drawn (wood mm).
_HAIR: Final = 1e-6


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
        """How far the wood reaches at a height: 0 on the flat, less in the forms."""
        profile = self.profile
        for form, depth in ((profile.bottom, y), (profile.top, profile.thickness - y)):
            if depth < form.depth:
                return -form.inset_at(max(depth, 0.0))
        return 0.0

    def draw(self, pen: Pen, at: Callable[[float, float], Point]) -> None:
        """Draw the wood; ``at`` turns a position into its place on the page."""
        high = self.profile.thickness
        pen.shape(PANEL, self.outline(at))
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
        for form, y, way in ((self.profile.bottom, 0.0, 1.0), (self.profile.top, high, -1.0)):
            pen.line(HIDDEN, at(-form.reach, y), at(0, y), at(0, y + way * form.depth))

    def outline(self, at: Callable[[float, float], Point]) -> Loop:
        """Outline of all the wood; ``at`` turns a position into its place on the page."""
        return Loop(tuple(self._vertices(at)))

    def _vertices(self, at: Callable[[float, float], Point]) -> Iterator[Vertex]:
        """Along the underside, round the edge, back along the top face."""
        top, bottom, high = self.profile.top, self.profile.bottom, self.profile.thickness
        end, floor = self.top_end, 0.0 if self.broken or not self.seams else self.seams[-1]
        places = [(-part.start[0], part.start[1], _bulge(part)) for part in bottom.parts]
        places.append((0.0, bottom.depth, 0.0))
        upwards = reversed(top.parts)
        places += [(-part.end[0], high - part.end[1], _bulge(part)) for part in upwards]
        places += [(-top.reach, high, 0.0), (end, high, 0.0)]
        vertices = [(*at(x, y), bulge) for x, y, bulge in places]
        (x, upper), lower = at(end, high), at(end, floor)[1]
        third = (upper - lower) / 3
        vertices += [
            (x, upper - third, 0.0),
            (x + _JOG, upper - 1.4 * third, 0.0),
            (x - _JOG, upper - 1.6 * third, 0.0),
            (x, lower + third, 0.0),
            (x, lower, 0.0),
        ]
        if not self.broken and self.seams:
            vertices += [(*at(self.strip_end, floor), 0.0), (*at(self.strip_end, 0.0), 0.0)]
        for index, vertex in enumerate(vertices):
            # forms that meet, or none at all, leave a vertex twice
            if math.dist(vertex[:2], vertices[(index + 1) % len(vertices)][:2]) > 1e-6:
                yield vertex

    def _form_heights(self) -> Iterator[float]:
        """Further heights where a form is finer than a layer: along its arcs, just below and above its level steps."""
        for form, foot, way in (
            (self.profile.bottom, 0.0, 1),
            (self.profile.top, self.profile.thickness, -1),
        ):
            for part in () if form.is_round_over else form.parts:
                if part.start[1] == part.end[1]:
                    yield from (foot + way * part.start[1] + side for side in (-_HAIR, _HAIR))
                    continue
                count = _STEPS if isinstance(part, Arc) else 1
                yield from (foot + way * point_at(part, n / count)[1] for n in range(count + 1))

    def _layer(self, at: Callable[[float, float], Point], low: float, high: float, end: float) -> Loop:
        """One layer of wood between two heights, for its hatch; arcs as short chords."""
        heights = [low + (high - low) * n / _STEPS for n in range(_STEPS + 1)]
        heights = sorted([*heights, *(y for y in self._form_heights() if low < y < high)])
        points = [at(end, low), *(at(self.reach(y), y) for y in heights), at(end, high)]
        # a height of a form may be one of the layer's own
        kept = [point for before, point in pairwise([points[-1], *points]) if math.dist(before, point) > 1e-3]
        return Loop(tuple((x, y, 0.0) for x, y in kept))


def _bulge(part: Segment) -> float:
    """Bulge of a part in the section; mirrored below, run backwards above, it turns the other way in both."""
    return math.tan(-part.sweep / 4) if isinstance(part, Arc) else 0.0
