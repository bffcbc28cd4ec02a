"""Entities as lines to cut along: edges with a bulge, in millimetres, and what is wrong with each by itself.

References
----------
DXF Reference (LINE, ARC, CIRCLE, LWPOLYLINE, POLYLINE; object coordinate systems; 42: bulge is tan(sweep / 4))
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from edgewright.drawing.chain_edges import SAME_MM
from edgewright.dxf_audit.drawing import Entity
from edgewright.dxf_audit.tags import Group

__all__ = ["LINES", "Edge", "Path", "PathFault", "Place", "path_of"]

Place = tuple[float, float]
#: Start, end and bulge (mm).
Edge = tuple[Place, Place, float]
#: Largest figure of a drawing that is looked at, in its own units.
_LARGEST: Final = 1e7


@dataclass(frozen=True, slots=True)
class PathFault:
    """What is wrong with an entity: a word for its kind, and the end of a sentence."""

    kind: str
    words: str


@dataclass(frozen=True, slots=True)
class Path:
    """An entity as a line; ``closed`` where it ends where it began by itself."""

    label: str
    layer: str
    kind: str
    edges: tuple[Edge, ...]
    closed: bool


class _DamagedError(Exception):
    """An entity that lacks a figure, as the end of a sentence."""


def path_of(entity: Entity, mm: float) -> tuple[Path | None, tuple[PathFault, ...]]:
    """Line of an entity of one of the kinds `LINES`; None where no line can be made of it.

    Parameters
    ----------
    mm
        Millimetres of one drawing unit.
    """
    faults: list[PathFault] = []
    try:
        sign, height = _plane(entity)
        vertices, closed = _READ[entity.kind](entity)
    except _DamagedError as damage:
        return None, (PathFault("damaged", str(damage)),)
    if height is None:
        return None, (
            PathFault("height", "is tilted out of the plane of the drawing: flatten the drawing to Z = 0"),
        )
    heights = [z for *_, z in vertices] + [height]
    # a comparison with nan is never true
    if not all(abs(value) <= _LARGEST for vertex in vertices for value in vertex):
        return None, (PathFault("damaged", "has a figure that is too large or no number: draw it again"),)
    lifted = next((z for z in heights if z != 0), 0.0)
    if lifted:
        faults.append(PathFault("height", f"lies at Z = {lifted:.6g}: flatten the drawing to Z = 0"))
    if entity.kind in ("LINE",):
        sign = 1.0  # its ends are those of the world, whatever its plane
    points = [(sign * x * mm, y * mm, sign * bulge) for x, y, bulge, _ in vertices]
    if len(points) < 2:
        return None, (*faults, PathFault("no length", "has fewer than 2 points: delete it"))
    ends = math.dist(points[0][:2], points[-1][:2])
    if entity.kind in ("LWPOLYLINE", "POLYLINE") and len(points) > 2 and ends <= SAME_MM:
        words = "repeats its first vertex at the end" + ("" if closed else " in place of the closed flag")
        faults.append(PathFault("repeated vertex", f"{words}: delete that vertex and set the flag"))
        points, closed = points[:-1], True
    edges, short = [], 0
    for (x0, y0, bulge), (x1, y1, _) in pairwise([*points, points[0]] if closed else points):
        if math.dist((x0, y0), (x1, y1)) > SAME_MM:
            edges.append(((x0, y0), (x1, y1), bulge))
        else:
            short += 1
    if short:
        which = "has no length" if not edges else f"has {short} edge{'s' * (short > 1)} of no length"
        faults.append(PathFault("no length", f"{which}: delete what has none"))
    if not edges:
        return None, tuple(faults)
    return Path(entity.label, entity.layer, entity.kind, tuple(edges), closed), tuple(faults)


#: x, y, bulge of the edge that begins here, and z, in drawing units.
_Vertex = tuple[float, float, float, float]


def _figure(groups: tuple[Group, ...], code: int, other: float | None = None) -> float:
    for found, value in groups:
        if found == code:
            return _number(value)
    if other is None:
        raise _DamagedError(f"lacks a figure (group {code}): draw it again")
    return other


def _number(value: str) -> float:
    try:
        return float(value)
    except ValueError:
        raise _DamagedError("has a figure that is no number: draw it again") from None


def _whole(groups: tuple[Group, ...], code: int) -> int:
    value = _figure(groups, code, 0.0)
    return int(value) if abs(value) < 1e9 else 0


def _plane(entity: Entity) -> tuple[float, float | None]:
    """Sign of x, -1 where the entity is seen from below, and its height; None where its plane is tilted."""
    x, y, z = (_figure(entity.groups, code, other) for code, other in ((210, 0.0), (220, 0.0), (230, 1.0)))
    size = math.sqrt(x * x + y * y + z * z) if max(abs(x), abs(y), abs(z)) < 1e100 else math.inf
    if not (math.isfinite(size) and size > 0 and abs(abs(z) / size - 1) < 1e-9):
        return 1.0, None
    # 39 is a thickness: the line is a wall
    return (1.0 if z > 0 else -1.0), _figure(entity.groups, 38, 0.0) or _figure(entity.groups, 39, 0.0)


def _line(entity: Entity) -> tuple[list[_Vertex], bool]:
    g = entity.groups
    return [(_figure(g, 10 + n), _figure(g, 20 + n), 0.0, _figure(g, 30 + n, 0.0)) for n in (0, 1)], False


def _arc(entity: Entity) -> tuple[list[_Vertex], bool]:
    begin, end = (math.radians(_figure(entity.groups, code)) for code in (50, 51))
    if not (math.isfinite(begin) and math.isfinite(end)):
        raise _DamagedError("has an angle that is no number: draw it again")
    sweep = (end - begin) % math.tau
    return _round(entity, begin, sweep or math.tau), sweep == 0


def _circle(entity: Entity) -> tuple[list[_Vertex], bool]:
    return _round(entity, 0.0, math.tau), True


def _round(entity: Entity, begin: float, sweep: float) -> list[_Vertex]:
    """Arc as one edge, as two halves where it turns more than half a circle; a whole one does not return."""
    x, y, z, radius = (
        _figure(entity.groups, code, other) for code, other in ((10, None), (20, None), (30, 0.0), (40, None))
    )
    if not radius > 0:
        raise _DamagedError(f"has the radius {radius:.6g}: delete it")
    pieces = 1 if sweep <= math.pi else 2
    bulge = math.tan(sweep / pieces / 4)
    count = pieces if sweep == math.tau else pieces + 1
    angles = [begin + sweep * n / pieces for n in range(count)]
    return [(x + radius * math.cos(a), y + radius * math.sin(a), bulge, z) for a in angles]


def _lwpolyline(entity: Entity) -> tuple[list[_Vertex], bool]:
    found: list[list[float]] = []
    for code, value in entity.groups:
        if code == 10:
            found.append([_number(value), math.nan, 0.0, 0.0])
        elif code in (20, 42) and found:
            found[-1][1 if code == 20 else 2] = _number(value)
    said = _whole(entity.groups, 90)
    if said != len(found):
        raise _DamagedError(f"says that it has {said} vertices and has {len(found)}: get the file again")
    return [(x, y, bulge, z) for x, y, bulge, z in found], bool(_whole(entity.groups, 70) & 1)


def _polyline(entity: Entity) -> tuple[list[_Vertex], bool]:
    flags = _whole(entity.groups, 70)
    if flags & (8 | 16 | 64):
        raise _DamagedError("is no flat polyline: draw it with lines and arcs at Z = 0")
    if flags & (2 | 4):
        raise _DamagedError("is smoothed by its vertices: explode it to lines and arcs")
    height = _figure(entity.groups, 30, 0.0)
    vertices = [
        (_figure(v, 10), _figure(v, 20), _figure(v, 42, 0.0), _figure(v, 30, 0.0) or height)
        for v in entity.vertices
    ]
    return vertices, bool(flags & 1)


_READ: Final[dict[str, Callable[[Entity], tuple[list[_Vertex], bool]]]] = {
    "LINE": _line,
    "ARC": _arc,
    "CIRCLE": _circle,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
}
LINES: Final = frozenset(_READ)
"""Kinds of entities that a tool can follow."""
