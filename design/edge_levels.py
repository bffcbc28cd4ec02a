"""The finished edge as a stack of loops: the profile followed by chords, the moved outline at each of its heights.

Frame as in `edgewright.design.solid_figures`, millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Final

from edgewright.design.forms import Form
from edgewright.design.front import Live
from edgewright.design.moved_loop import MovedLoop
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.segments import parameter, point_at
from edgewright.design.solid_figures import SolidSpec
from edgewright.design.wavefront import region_wave

__all__ = ["FINE", "Detail", "EdgeLevels", "Station", "edge_levels"]


@dataclass(frozen=True, slots=True)
class Detail:
    """How fine: chords stay within ``sag_mm`` of their arc and turn by at most ``turn`` (radians)."""

    sag_mm: float = 0.05
    turn: float = math.radians(9)

    @property
    def step(self) -> float:
        """Inset from one level to the next where a corner runs along a curve (mm): gentle, so a coarse rule does."""
        return 10 * math.sqrt(self.sag_mm)

    def chords(self, radius: float, angle: float) -> int:
        """Number of chords for an arc of that radius (mm) and angle (radians)."""
        step = 2 * math.acos(1 - self.sag_mm / radius) if radius > self.sag_mm else self.turn
        return max(1, math.ceil(angle / min(step, self.turn) - 1e-9))


FINE: Final = Detail()


@dataclass(frozen=True, slots=True)
class Station:
    """A height, the inset of the outline there, and that of the holes (mm)."""

    z: float
    inset: float
    holes: float


@dataclass(frozen=True, slots=True)
class EdgeLevels:
    """Heights of the edge from the underside up, and the loops that its outline makes there.

    Attributes
    ----------
    profile
        Section of the edge.
    stations
        Heights at which chords of the profile meet; a level step of a form has two of one height.
    loops
        Each loop of the outline on its way inwards, the outer one first.
    holes_below
        Whether the holes' lower arris is routed.
    """

    profile: EdgeProfile
    stations: tuple[Station, ...]
    loops: tuple[MovedLoop, ...]
    holes_below: bool

    def between(self, z0: float, z1: float) -> tuple[Station, ...]:
        """Stations from one height up to another; at a level step the wood between the two heights counts."""
        inner = [station for station in self.stations if z0 + FIT_MM < station.z < z1 - FIT_MM]
        return (self._last_at(z0), *inner, self._first_at(z1))

    def rings(self, station: Station) -> tuple[list[Point], ...]:
        """Points of each loop at a station."""
        outer, *holes = self.loops
        return (outer.points(station.inset), *(hole.points(station.holes) for hole in holes))

    def _last_at(self, z: float) -> Station:
        here = [station for station in self.stations if abs(station.z - z) <= FIT_MM]
        return replace(here[-1], z=z) if here else self._at(z)

    def _first_at(self, z: float) -> Station:
        here = [station for station in self.stations if abs(station.z - z) <= FIT_MM]
        return replace(here[0], z=z) if here else self._at(z)

    def _at(self, z: float) -> Station:
        """Station at a height that is no level step."""
        low = self.profile.bottom.inset_at(max(z, 0.0))
        high = self.profile.top.inset_at(max(self.profile.thickness - z, 0.0))
        return Station(z, max(low, high), max(low if self.holes_below else 0.0, high))


def edge_levels(spec: SolidSpec, detail: Detail = FINE) -> EdgeLevels:
    """Levels of the whole edge, as fine as asked for.

    Raises
    ------
    GeometryError
        If the top is too narrow somewhere for the forms of its edge.
    """
    reach = max(spec.profile.top.reach, spec.profile.bottom.reach)
    deaths = {
        segment.radius
        for number, segment in enumerate(spec.region.segments)
        if isinstance(segment, Arc) and segment.sweep > 0 and number not in spec.still
    }
    loops = []
    for fronts in region_wave(spec.region, reach, spec.still).fronts:
        chords = [_chords(detail, stretch, reach) for stretch in fronts[0][1].live]
        loops.append(MovedLoop(fronts, tuple(chords)))
    # where a corner runs along a curve, a straight form is no flat face there
    linear = all(front.is_linear for loop in loops for _, front in loop.fronts)
    stations = tuple(_stations(spec, deaths, detail, math.inf if linear else detail.step))
    return EdgeLevels(spec.profile, stations, tuple(loops), spec.holes_below)


def _chords(detail: Detail, stretch: Live, reach: float) -> int:
    """Chords of a stretch; one that is hollow grows as it moves in."""
    if stretch.is_line:
        return 1
    sweep = stretch.segment.sweep if isinstance(stretch.segment, Arc) else stretch.turn
    return detail.chords(max(stretch.radius(0.0), stretch.radius(reach)), abs(sweep))


def _stations(spec: SolidSpec, deaths: Iterable[float], detail: Detail, step: float) -> Iterator[Station]:
    profile = spec.profile
    found = [
        Station(depth, inset, inset if spec.holes_below else 0.0)
        for inset, depth in _points(profile.bottom, deaths, detail, step)
    ]
    found += [
        Station(profile.thickness - depth, inset, inset)
        for inset, depth in reversed(_points(profile.top, deaths, detail, step))
    ]
    for at, station in enumerate(found):
        # forms that meet without a flat share a station
        if at == 0 or math.dist((station.z, station.inset), (found[at - 1].z, found[at - 1].inset)) > FIT_MM:
            yield station


def _points(form: Form, deaths: Iterable[float], detail: Detail, step: float) -> list[Point]:
    """Points (inset, depth) of a form from the face to the edge, also where an arc of the outline dies.

    Neighbours on a line are at most ``step`` (mm) apart in inset.
    """
    if not form.parts:
        return [(0.0, 0.0)]
    points = [form.parts[0].start]
    for part in form.parts:
        if isinstance(part, Line):
            count = max(1, math.ceil((part.start[0] - part.end[0]) / step))
        else:
            count = detail.chords(part.radius, abs(part.sweep))
        shares = {n / count for n in range(1, count)} | {_share(part, inset) for inset in deaths}
        points += [point_at(part, share) for share in sorted(shares) if 1e-9 < share < 1 - 1e-9]
        points.append(part.end)
    return points


def _share(part: Segment, inset: float) -> float:
    """Where a part of a form has an inset, as a share of its length; 0 where it never has."""
    (d0, _), (d1, _) = part.start, part.end
    if not min(d0, d1) + FIT_MM < inset < max(d0, d1) - FIT_MM:
        return 0.0
    if isinstance(part, Line):
        return (inset - d0) / (d1 - d0)
    cx, cz = part.centre
    half = math.sqrt(max(0.0, part.radius**2 - (inset - cx) ** 2))
    return parameter(part, (inset, cz + math.copysign(half, (part.start[1] + part.end[1]) / 2 - cz)))
