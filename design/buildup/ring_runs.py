"""A finished outline as the ring sees it: straight runs and curves, and the corners between them.

A small rounding counts as the sharp corner that its two sides make: blanks run to that corner and are trimmed
flush. It may be so large that the corner of the strips would be left too thin inside the arc; then it takes a
corner block, and larger still it is a curve of its own, made of segments. Short facets that turn little, as of
a live edge measured at stations or a curve drawn in chords, are a curve too: strips run on under several of them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final

from edgewright.design.buildup.ring_model import SQUARE_WITHIN, RingSettings
from edgewright.design.buildup.roundings import Corner, CornerKind, rounding_corner
from edgewright.design.outline import Arc, Line, Outline, Segment
from edgewright.design.segments import curvature, turn_between
from edgewright.design.tolerances import PARALLEL_RAD
from edgewright.trade import MIN_PIECE

__all__ = ["Run", "ring_runs"]

#: Straight edges that turn by no more at their joint are facets of a curve where one of them is shorter than
#: `FACET_MM`, too short for a strip of its own (common practice, no source: 8 in).
FACET_WITHIN: Final = math.radians(15)
FACET_MM: Final = float(MIN_PIECE.value)

#: Two edges that turn by less at their joint run on into each other (choice of this program).
SMOOTH_WITHIN: Final = math.radians(2)


@dataclass(frozen=True, slots=True)
class Run:
    """A straight side, or a curve: arcs that bend the same way, or facets. Straight ends reach the sharp corners.

    ``names`` has a straight run's names, or one for each segment of a curve. ``plain`` is the part of a straight
    run that no rounding takes (mm).
    """

    segments: tuple[Segment, ...]
    names: tuple[str, ...]
    plain: float = 0.0

    @property
    def line(self) -> Line | None:
        """The line of a straight run, None for a curve."""
        first = self.segments[0]
        return first if len(self.segments) == 1 and isinstance(first, Line) else None

    @property
    def length(self) -> float:
        """Length in mm."""
        return math.fsum(segment.length for segment in self.segments)


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
        rounding_corner(elements[at - 1][0], segment, elements[(at + 1) % count][0], settings)
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
        segments = [segment for segment, _ in group]
        plain = segments[0].length
        if isinstance(segments[0], Line):
            segments[0] = Line(corners[at - 1].vertex, segments[0].end)
        if isinstance(segments[-1], Line):
            segments[-1] = Line(segments[-1].start, corners[at].vertex)
        names_of = group[0][1] if len(group) == 1 and isinstance(segments[0], Line) else _each(group)
        runs.append(Run(tuple(segments), names_of, plain))
    return tuple(runs), tuple(
        _beside_facets(corner, runs[at], runs[(at + 1) % len(runs)], settings)
        for at, corner in enumerate(corners)
    )


def _beside_facets(corner: Corner, before: Run, after: Run, settings: RingSettings) -> Corner:
    """A corner of facets is mitred, not butted; so is an inside one where a facet is too short for a block's side."""
    facets = [s for r, s in ((before, before.segments[-1]), (after, after.segments[0])) if r.line is None]
    if not facets or corner.kind not in ("square", "inside block"):
        return corner
    if corner.kind == "inside block" and (
        corner.radius > 0 or min(facet.length for facet in facets) >= 1.5 * settings.strip_width
    ):
        return corner
    return replace(corner, kind="mitre")


def _each(elements: Sequence[tuple[Segment, tuple[str, ...]]]) -> tuple[str, ...]:
    return tuple(names[0] for _, names in elements)


def _merged(elements: list[tuple[Segment, tuple[str, ...]]]) -> list[tuple[Segment, tuple[str, ...]]]:
    """Lines that run straight on are one line."""

    def on(before: Segment, after: Segment) -> bool:
        return (
            isinstance(before, Line)
            and isinstance(after, Line)
            and abs(turn_between(before, after)) < PARALLEL_RAD
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


def _runs_on(before: Segment, after: Segment) -> bool:
    """Whether two segments belong to one curve."""
    if isinstance(before, Line) and isinstance(after, Line):
        return (
            min(before.length, after.length) < FACET_MM and abs(turn_between(before, after)) <= FACET_WITHIN
        )
    if not (isinstance(before, Arc) and isinstance(after, Arc)):
        return False
    return before.sweep * after.sweep > 0 and abs(turn_between(before, after)) < SMOOTH_WITHIN


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
    turn = turn_between(before, after)
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
