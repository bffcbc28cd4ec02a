"""Chain drawn edges to closed loops; a gap, a branch or an edge drawn twice is refused with its place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.errors import InputError

__all__ = ["SAME_MM", "DrawingFaultError", "DrawnEdge", "Loop", "Loops", "Place", "Points", "chain", "extent"]

#: Ends at most this far apart (mm) are one point: files round their figures, joints gape by less than 1 nm.
SAME_MM: Final = 1e-3

Place = tuple[float, float]
#: Vertices (x, y, bulge to the next vertex) in mm, closed.
Loop = tuple[tuple[float, float, float], ...]
Loops = tuple[Loop, ...]


class DrawingFaultError(InputError):
    """A drawing that cannot be used; ``key`` is the key of the job file that the sentence is about."""

    def __init__(self, key: str, message: str) -> None:
        self.key = key
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class DrawnEdge:
    """A line (bulge 0) or an arc of at most half a circle, in mm; ``label`` names the entity it comes from."""

    start: Place
    end: Place
    bulge: float
    label: str


class Points:
    """Numbers for points: those that lie at most `SAME_MM` apart have one number."""

    def __init__(self) -> None:
        self.places: list[Place] = []
        self._cells: dict[tuple[int, int], list[int]] = {}

    def number(self, point: Place) -> int:
        """Number of a point."""
        cell = (math.floor(point[0] / SAME_MM), math.floor(point[1] / SAME_MM))
        for dx in (-1, 0, 1):
            for dy in (-1, 0, 1):
                for known in self._cells.get((cell[0] + dx, cell[1] + dy), ()):
                    if math.dist(self.places[known], point) <= SAME_MM:
                        return known
        self.places.append(point)
        self._cells.setdefault(cell, []).append(len(self.places) - 1)
        return len(self.places) - 1


def chain(edges: Sequence[DrawnEdge], mm: float, name: str) -> Loops:
    """Make loops of edges, each used once.

    Parameters
    ----------
    edges
        Edges in any order and direction.
    mm
        Millimetres of one drawing unit; places are told in drawing units.
    name
        Name of the file, as messages show it.

    Raises
    ------
    DrawingFaultError
        If an edge is drawn twice, more than two edges meet, or an end stays open.
    """
    points = Points()
    ends = [(points.number(edge.start), points.number(edge.end)) for edge in edges]

    def at(number: int) -> str:
        x, y = points.places[number]
        return f"{x / mm:.6g}, {y / mm:.6g}"

    seen: dict[tuple[int, int, float], DrawnEdge] = {}
    joints: dict[int, list[int]] = {}
    for number, (edge, (a, b)) in enumerate(zip(edges, ends, strict=True)):
        if a == b:
            raise DrawingFaultError("file", f"{name} holds {edge.label} with a piece of no length: delete it")
        turn = round(edge.bulge if a < b else -edge.bulge, 6) + 0.0
        first = seen.setdefault((min(a, b), max(a, b), turn), edge)
        if first is not edge:
            raise DrawingFaultError(
                "file",
                f"{name} holds the edge from {at(a)} to {at(b)} twice, as {first.label} and {edge.label}: delete one",
            )
        joints.setdefault(a, []).append(number)
        joints.setdefault(b, []).append(number)
    for point, meeting in joints.items():
        if len(meeting) > 2:
            message = f"{name} has {len(meeting)} edges that meet at {at(point)}: an outline has 2 there"
            raise DrawingFaultError("file", message)
    _need_closed([point for point, meeting in joints.items() if len(meeting) == 1], points, mm, name)
    return tuple(_loops(edges, ends, joints, points))


def _need_closed(free: list[int], points: Points, mm: float, name: str) -> None:
    """Tell of the narrowest gap between ends that join nothing."""
    if not free:
        return
    # a drawing with more open ends than this is no outline, and any one gap tells it
    places = [points.places[number] for number in free[:400]]
    gap, one, other = min((math.dist(p, q), p, q) for at, p in enumerate(places) for q in places[at + 1 :])
    message = (
        f"{name} holds an outline that is open: a gap of {gap / mm:.3g} in drawing units ({gap:.3g} mm) from "
        f"{one[0] / mm:.6g}, {one[1] / mm:.6g} to {other[0] / mm:.6g}, {other[1] / mm:.6g}; close it"
    )
    raise DrawingFaultError("file", message)


def _loops(
    edges: Sequence[DrawnEdge], ends: list[tuple[int, int]], joints: dict[int, list[int]], points: Points
) -> list[Loop]:
    loops: list[Loop] = []
    used: set[int] = set()
    for first in range(len(edges)):
        if first in used:
            continue
        loop: list[tuple[float, float, float]] = []
        number, here = first, ends[first][0]
        while number not in used:
            used.add(number)
            a, b = ends[number]
            forward = here == a
            loop.append((*points.places[here], edges[number].bulge if forward else -edges[number].bulge))
            here = b if forward else a
            number = next((n for n in joints[here] if n not in used), number)
        loops.append(tuple(loop))
    return loops


def extent(loop: Loop) -> tuple[float, float]:
    """Width and height (mm) over the vertices of a loop and the middles of its arcs."""
    points = []
    for (x, y, bulge), (x1, y1, _) in zip(loop, (*loop[1:], loop[0]), strict=True):
        points += [(x, y), ((x + x1 + bulge * (y1 - y)) / 2, (y + y1 - bulge * (x1 - x)) / 2)]
    return tuple(max(p[axis] for p in points) - min(p[axis] for p in points) for axis in (0, 1))  # type: ignore[return-value]
