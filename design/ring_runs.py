"""A finished outline as the ring sees it: straight runs and curves, and the corners between them.

A small rounding counts as the sharp corner that its two sides make: blanks run to that corner and are trimmed
flush. It may be so large that the corner of the strips would be left too thin inside the arc; then it takes a
corner block, and larger still it is a curve of its own, made of segments.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from edgewright.design.outline import Arc, Line, Outline, Point, Segment
from edgewright.design.ring_model import SQUARE_WITHIN, RingSettings
from edgewright.design.segments import curvature, direction
from edgewright.design.tolerances import PARALLEL_RAD

__all__ = ["Corner", "Run", "largest_rounding", "ring_runs"]

CornerKind = Literal["square", "mitre", "block", "inside block", "smooth"]

#: Two edges that turn by less at their joint run on into each other (choice of this program).
SMOOTH_WITHIN: Final = math.radians(2)


@dataclass(frozen=True, slots=True)
class Run:
    """A straight side, or a curve of arcs that bend the same way; a straight one ends at the sharp corners.

    ``names`` has a straight run's names, or one for each arc. ``plain`` is the part of a straight run that no
    rounding takes (mm).
    """

    segments: tuple[Segment, ...]
    names: tuple[str, ...]
    plain: float = 0.0

    @property
    def line(self) -> Line | None:
        """The line of a straight run, None for a curve."""
        first = self.segments[0]
        return first if isinstance(first, Line) else None

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.fsum(segment.length for segment in self.segments)


@dataclass(frozen=True, slots=True)
class Corner:
    """What lies between a run and the next one.

    Attributes
    ----------
    vertex
        Where the two runs meet; for a rounding the sharp corner of its two sides.
    turn
        Turned angle, radians, positive at an outside corner.
    radius
        Radius of the rounding, 0 where there is none (mm).
    name
        Plain name of the rounding, or of the two edges.
    """

    kind: CornerKind
    vertex: Point
    turn: float
    radius: float
    name: str


def largest_rounding(strip_width: float, ring: float, turn: float) -> float:
    """Largest radius that a corner of two strips covers without a block, any one unit; may be below 0.

    Along the bisector the strips' inner corner lies w / cos(θ/2) from the sharp corner and the arc
    R (1 / cos(θ/2) - 1); between them the ring must keep its width b. The ring is narrowest there. Hence
    R = (w - b cos(θ/2)) / (1 - cos(θ/2)), for a right angle (w - b/√2) / 0.2929.

    Parameters
    ----------
    strip_width, ring
        Width w of the strips inside the finished edge and the width b needed.
    turn
        Angle θ by which the outline turns, radians, above 0 and below π.
    """
    cosine = math.cos(turn / 2)
    return (strip_width - ring * cosine) / (1 - cosine)


def ring_runs(
    outline: Outline, names: Sequence[str], settings: RingSettings
) -> tuple[tuple[Run, ...], tuple[Corner, ...]]:
    """Divide an outline; ``corners[i]`` lies between ``runs[i]`` and the run after it.

    A closed smooth curve is a single run without corners.

    Parameters
    ----------
    outline
        Finished outline, counter-clockwise.
    names
        Plain name of each segment.
    settings
        Decide which roundings count as corners.
    """
    elements = _merged(list(zip(outline.segments, ((name,) for name in names), strict=True)))
    count = len(elements)
    rounding = [
        _rounding(elements[at - 1][0], segment, elements[(at + 1) % count][0], settings)
        for at, (segment, _) in enumerate(elements)
    ]
    first = _first(elements, rounding)
    if first is None:
        return (Run(tuple(s for s, _ in elements), _each(elements)),), ()
    elements, rounding = elements[first:] + elements[:first], rounding[first:] + rounding[:first]
    groups: list[list[tuple[Segment, tuple[str, ...]]]] = []
    roundings: list[tuple[Corner | None, str]] = []
    for at, element in enumerate(elements):
        corner = rounding[at]
        if corner is not None:
            roundings[-1] = (corner, " and ".join(element[1]))
        elif groups and rounding[at - 1] is None and _runs_on(elements[at - 1][0], element[0]):
            groups[-1].append(element)
        else:
            groups.append([element])
            roundings.append((None, ""))
    corners = []
    for at, (corner, name) in enumerate(roundings):
        following = groups[(at + 1) % len(groups)]
        before, after = groups[at][-1][0], following[0][0]
        if corner is None:
            between = f"{groups[at][-1][1][-1]} to {following[0][1][0]}"
            corners.append(_sharp(before, after, between))
        else:
            corners.append(Corner(corner.kind, corner.vertex, corner.turn, corner.radius, name))
    runs = []
    for at, group in enumerate(groups):
        segment = group[0][0]
        if isinstance(segment, Line):
            ends = corners[at - 1].vertex, corners[at].vertex
            runs.append(Run((Line(*ends),), group[0][1], segment.length))
        else:
            runs.append(Run(tuple(s for s, _ in group), _each(group)))
    return tuple(runs), tuple(corners)


def _turn(before: Segment, after: Segment) -> float:
    """Angle by which the outline turns at a joint, radians."""
    (ax, ay), (bx, by) = direction(before, 1.0), direction(after, 0.0)
    return math.atan2(ax * by - ay * bx, ax * bx + ay * by)


def _each(elements: Sequence[tuple[Segment, tuple[str, ...]]]) -> tuple[str, ...]:
    return tuple(names[0] for _, names in elements)


def _merged(elements: list[tuple[Segment, tuple[str, ...]]]) -> list[tuple[Segment, tuple[str, ...]]]:
    """Lines that run straight on are one line."""

    def on(before: Segment, after: Segment) -> bool:
        return (
            isinstance(before, Line) and isinstance(after, Line) and abs(_turn(before, after)) < PARALLEL_RAD
        )

    # begin where a line is not the rest of one that lies across the start of the loop
    first = next(at for at, (segment, _) in enumerate(elements) if not on(elements[at - 1][0], segment))
    out: list[tuple[Segment, tuple[str, ...]]] = []
    for segment, names in elements[first:] + elements[:first]:
        if out and on(out[-1][0], segment):
            last, before = out[-1]
            out[-1] = (Line(last.start, segment.end), tuple(dict.fromkeys((*before, *names))))
        else:
            out.append((segment, names))
    return out


def _rounding(before: Segment, arc: Segment, after: Segment, settings: RingSettings) -> Corner | None:
    """What an arc between two straight sides is to the ring; None where it is a curve of its own."""
    if not (isinstance(before, Line) and isinstance(arc, Arc) and isinstance(after, Line)):
        return None
    half = abs(arc.sweep) / 2
    if abs(_turn(before, arc)) > 1e-6 or abs(_turn(arc, after)) > 1e-6 or half > math.radians(80):
        return None
    (ux, uy), reach = direction(before, 1.0), arc.radius * math.tan(half)
    vertex = (before.end[0] + reach * ux, before.end[1] + reach * uy)
    width = settings.strip_width - settings.proud
    most = largest_rounding(width, settings.ring_width, 2 * half)
    if arc.sweep > 0 and arc.radius <= most + 1e-9:
        kind: CornerKind = "square" if abs(arc.sweep - math.pi / 2) <= SQUARE_WITHIN else "mitre"
        return Corner(kind, vertex, arc.sweep, arc.radius, "")
    # a block takes the strip width more of each side than the arc does, and leaves some for the strip
    room = min(before.length, after.length)
    if reach + settings.strip_width > settings.largest_block or 2.5 * settings.strip_width > room:
        return None
    return Corner("block" if arc.sweep > 0 else "inside block", vertex, arc.sweep, arc.radius, "")


def _runs_on(before: Segment, after: Segment) -> bool:
    """Whether two arcs belong to one curve."""
    if not (isinstance(before, Arc) and isinstance(after, Arc)):
        return False
    return before.sweep * after.sweep > 0 and abs(_turn(before, after)) < SMOOTH_WITHIN


def _first(
    elements: Sequence[tuple[Segment, tuple[str, ...]]], rounding: Sequence[Corner | None]
) -> int | None:
    """First element that begins a run; None where all of it is one closed curve."""
    for at, (segment, _) in enumerate(elements):
        if rounding[at] is None and (
            rounding[at - 1] is not None or not _runs_on(elements[at - 1][0], segment)
        ):
            return at
    return None


def _sharp(before: Segment, after: Segment, name: str) -> Corner:
    """Corner where two runs meet without a rounding."""
    turn = _turn(before, after)
    straight = isinstance(before, Line) and isinstance(after, Line)
    kind: CornerKind = "mitre"
    if abs(turn) > math.pi - 1e-6:
        # a cusp has no bisector that tells wood from air but its bend
        turn = math.copysign(turn, curvature(before) + curvature(after))
    if abs(turn) < SMOOTH_WITHIN:
        kind = "smooth"
    elif straight and turn < 0:
        kind = "inside block"
    elif straight and abs(turn - math.pi / 2) <= SQUARE_WITHIN:
        kind = "square"
    return Corner(kind, before.end, turn, 0.0, name)
