"""The finished edge as a stack of loops: the profile followed by chords, the moved outline at each of its heights.

Frame as in `edgewright.design.solid_figures`, millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from edgewright.design.forms import Form
from edgewright.design.moved_loop import Stretch, moved_points, stretches
from edgewright.design.outline import FIT_MM, Arc, Line, Point, Segment
from edgewright.design.profile import EdgeProfile
from edgewright.design.segments import parameter, point_at
from edgewright.design.solid_figures import SolidSpec, turn_at

__all__ = ["FINE", "Detail", "EdgeLevels", "Station", "edge_levels"]


@dataclass(frozen=True, slots=True)
class Detail:
    """How fine: chords stay within ``sag_mm`` of their arc and turn by at most ``turn`` (radians)."""

    sag_mm: float = 0.05
    turn: float = math.radians(9)

    def chords(self, radius: float, angle: float) -> int:
        """Number of chords for an arc of that radius (mm) and angle (radians)."""
        step = 2 * math.acos(1 - self.sag_mm / radius) if radius > self.sag_mm else self.turn
        return max(1, math.ceil(angle / min(step, self.turn) - 1e-9))


FINE: Final = Detail()


@dataclass(frozen=True, slots=True)
class Station:
    """A height (mm) and the inset of the edge there."""

    z: float
    inset: float


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
        Stretches of each loop of the outline, the outer one first.
    """

    profile: EdgeProfile
    stations: tuple[Station, ...]
    loops: tuple[tuple[Stretch, ...], ...]

    def between(self, z0: float, z1: float) -> tuple[Station, ...]:
        """Stations from one height up to another; at a level step the wood between the two heights counts."""
        inner = [station for station in self.stations if z0 + FIT_MM < station.z < z1 - FIT_MM]
        return (self._last_at(z0), *inner, self._first_at(z1))

    def rings(self, inset: float) -> tuple[list[Point], ...]:
        """Points of each loop moved in by an inset."""
        return tuple(moved_points(loop, inset) for loop in self.loops)

    def _last_at(self, z: float) -> Station:
        here = [station for station in self.stations if abs(station.z - z) <= FIT_MM]
        return Station(z, here[-1].inset if here else _inset(self.profile, z))

    def _first_at(self, z: float) -> Station:
        here = [station for station in self.stations if abs(station.z - z) <= FIT_MM]
        return Station(z, here[0].inset if here else _inset(self.profile, z))


def edge_levels(spec: SolidSpec, detail: Detail = FINE) -> EdgeLevels:
    """Levels of the whole edge, as fine as asked for."""
    reach = max(spec.profile.top.reach, spec.profile.bottom.reach)
    deaths = {
        segment.radius
        for number, segment in enumerate(spec.region.segments)
        if isinstance(segment, Arc) and segment.sweep > 0 and number not in spec.still
    }
    loops = []
    for loop, routed in spec.routed_loops():
        segments = loop.segments
        chords = [
            # a hollow arc grows as it moves in
            detail.chords(segment.radius + (reach if segment.sweep < 0 else 0.0), abs(segment.sweep))
            if isinstance(segment, Arc)
            else 1
            for segment in segments
        ]
        corners = [
            detail.chords(max(reach, FIT_MM), -min(turn_at(segments[at - 1], segment), 0.0)) if reach else 1
            for at, segment in enumerate(segments)
        ]
        loops.append(stretches(loop, routed, chords, corners))
    return EdgeLevels(spec.profile, tuple(_stations(spec.profile, deaths, detail)), tuple(loops))


def _stations(profile: EdgeProfile, deaths: Iterable[float], detail: Detail) -> Iterator[Station]:
    found = [Station(depth, inset) for inset, depth in _points(profile.bottom, deaths, detail)]
    found += [
        Station(profile.thickness - depth, inset)
        for inset, depth in reversed(_points(profile.top, deaths, detail))
    ]
    for at, station in enumerate(found):
        # forms that meet without a flat share a station
        if at == 0 or math.dist((station.z, station.inset), (found[at - 1].z, found[at - 1].inset)) > FIT_MM:
            yield station


def _points(form: Form, deaths: Iterable[float], detail: Detail) -> list[Point]:
    """Points (inset, depth) of a form from the face to the edge, also where an arc of the outline dies."""
    if not form.parts:
        return [(0.0, 0.0)]
    points = [form.parts[0].start]
    for part in form.parts:
        count = 1 if isinstance(part, Line) else detail.chords(part.radius, abs(part.sweep))
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


def _inset(profile: EdgeProfile, z: float) -> float:
    """Inset of the edge at a height that is no level step."""
    return max(profile.bottom.inset_at(max(z, 0.0)), profile.top.inset_at(max(profile.thickness - z, 0.0)))
