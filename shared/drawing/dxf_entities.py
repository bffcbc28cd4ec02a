"""Take one DXF entity apart into edges: start, end and bulge, in millimetres.

References
----------
DXF Reference (object coordinate systems; group code 42: bulge is tan(sweep / 4))
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any, Final

from edgewright.drawing.chain_edges import SAME_MM, DrawingFaultError, DrawnEdge, Place
from edgewright.unit_words import printable

__all__ = ["IGNORED", "DrawingFaultError", "edges_of"]

#: What stands beside an outline on a drawing and says nothing about the wood.
IGNORED: Final = frozenset(
    {
        *(
            "TEXT",
            "MTEXT",
            "ATTDEF",
            "ATTRIB",
            "POINT",
            "HATCH",
            "IMAGE",
            "WIPEOUT",
            "VIEWPORT",
            "XLINE",
            "RAY",
        ),
        *(
            "DIMENSION",
            "ARC_DIMENSION",
            "LARGE_RADIAL_DIMENSION",
            "LEADER",
            "MULTILEADER",
            "MLEADER",
            "TOLERANCE",
        ),
        *("OLE2FRAME", "ACAD_TABLE"),
    }
)
#: In drawing units; no wood is so large.
_LARGEST: Final = 1e6
_HINTS: Final = {
    "SPLINE": "explode it to arcs and lines, or fit arcs to it",
    "ELLIPSE": 'explode it to arcs, or give the top as shape = "ellipse"',
    "INSERT": "it is a block: explode it to lines and arcs",
}


def edges_of(entity: Any, mm: float, name: str) -> list[DrawnEdge]:
    """Edges of one entity.

    Parameters
    ----------
    entity
        Entity of the DXF library.
    mm
        Millimetres of one drawing unit.
    name
        Name of the file, as messages show it.

    Raises
    ------
    DrawingFaultError
        If it cannot be taken exactly, or lies outside the plane of the drawing.
    """
    kind = entity.dxftype()
    article = "an" if kind[0] in "AEIO" else "a"
    label = (
        f"{article} {kind} (handle {entity.dxf.handle}, layer {printable(str(entity.dxf.layer))[:60]}{{}})"
    )
    where = _where(entity, kind)
    label = label.format("" if where is None else f", at {where[0]:g}, {where[1]:g}")
    if kind not in _READ:
        hint = _HINTS.get(kind, "draw it with lines, arcs, circles or polylines")
        raise DrawingFaultError("file", f"{name} holds {label}: {hint}")
    try:
        edges = list(_READ[kind](entity))
    except _UnfitError as unfit:
        raise DrawingFaultError("file", f"{name} holds {label} {unfit}") from None
    # a comparison with nan is never true
    if not all(abs(value) <= _LARGEST for start, end, bulge in edges for value in (*start, *end, bulge)):
        raise DrawingFaultError(
            "file", f"{name} holds {label} with a figure that is too large or no number: draw it again"
        )
    scaled = []
    for start, end, bulge in edges:
        # plain floats, whatever the library keeps its figures in
        a, b = (float(start[0] * mm), float(start[1] * mm)), (float(end[0] * mm), float(end[1] * mm))
        if math.dist(a, b) <= SAME_MM:
            place = f"{start[0]:g}, {start[1]:g}"
            message = f"{name} holds {label} with a piece of no length at {place}: delete it"
            raise DrawingFaultError("file", message)
        scaled.append(DrawnEdge(a, b, float(bulge), label))
    return scaled


class _UnfitError(Exception):
    """What is wrong with an entity, as the end of a sentence."""


_Raw = tuple[Place, Place, float]


def _where(entity: Any, kind: str) -> Place | None:
    """Some point of an entity, in drawing units."""
    try:
        if kind == "SPLINE":
            points = entity.control_points if len(entity.control_points) else entity.fit_points
            point = points[0]
        elif kind == "LWPOLYLINE":
            point = entity[0]
        elif kind == "POLYLINE":
            point = entity.vertices[0].dxf.location
        else:
            given = entity.dxf.all_existing_dxf_attribs()
            point = next((given[key] for key in ("start", "center", "insert") if key in given), None)
        return (float(point[0]), float(point[1])) if point is not None else None
    except (AttributeError, IndexError, TypeError, ValueError):
        return None  # an entity without a point


def _mirror(entity: Any, height: float) -> float:
    """Sign of x: -1 where the entity is seen from below.

    An entity's own plane is the drawing's where its normal is +z or -z; the latter mirrors x.
    """
    x, y, z = entity.dxf.get("extrusion", (0.0, 0.0, 1.0))
    size = math.sqrt(x * x + y * y + z * z)
    if not (math.isfinite(size) and size > 0 and abs(abs(z) / size - 1) < 1e-9):
        raise _UnfitError("is tilted out of the plane of the drawing: flatten the drawing to z = 0")
    if height != 0:
        raise _UnfitError(f"lies at z = {height:g}: flatten the drawing to z = 0")
    return 1.0 if z > 0 else -1.0


def _line(entity: Any) -> Iterator[_Raw]:
    start, end = entity.dxf.start, entity.dxf.end
    for point in (start, end):
        if point[2] != 0:
            raise _UnfitError(f"lies at z = {point[2]:g}: flatten the drawing to z = 0")
    yield (start[0], start[1]), (end[0], end[1]), 0.0


def _arc(entity: Any) -> Iterator[_Raw]:
    begin = math.radians(entity.dxf.start_angle)
    sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360)
    yield from _round(entity, begin, sweep if sweep > 0 else math.tau)


def _circle(entity: Any) -> Iterator[_Raw]:
    yield from _round(entity, 0.0, math.tau)


def _round(entity: Any, begin: float, sweep: float) -> Iterator[_Raw]:
    """Arc as one edge, or as two halves where it turns more than half a circle."""
    centre, radius = entity.dxf.center, entity.dxf.radius
    sign = _mirror(entity, centre[2])
    if not radius > 0:
        raise _UnfitError(f"with radius {radius:g}: draw it again")
    pieces = 1 if sweep <= math.pi else 2
    angles = [begin + sweep * at / pieces for at in range(pieces + 1)]
    points = [(sign * (centre[0] + radius * math.cos(a)), centre[1] + radius * math.sin(a)) for a in angles]
    if sweep == math.tau:
        points[-1] = points[0]
    for start, end in pairwise(points):
        yield start, end, sign * math.tan(sweep / pieces / 4)


def _lwpolyline(entity: Any) -> Iterator[_Raw]:
    sign = _mirror(entity, entity.dxf.get("elevation", 0.0))
    vertices = [(sign * x, y, sign * bulge) for x, y, bulge in entity.get_points("xyb")]
    yield from _through(vertices, entity.closed)


def _polyline(entity: Any) -> Iterator[_Raw]:
    if not entity.is_2d_polyline:
        raise _UnfitError("that is no flat polyline: draw it with lines and arcs at z = 0")
    # 2: arcs fitted, 4: a spline fitted; their vertices are not those that were drawn
    if entity.dxf.flags & 6:
        raise _UnfitError("that is smoothed: explode it to lines and arcs")
    elevation = entity.dxf.get("elevation", (0.0, 0.0, 0.0))
    heights = [elevation[2], *(vertex.dxf.location[2] for vertex in entity.vertices)]
    sign = _mirror(entity, next((z for z in heights if z != 0), 0.0))
    vertices = [
        (sign * vertex.dxf.location[0], vertex.dxf.location[1], sign * vertex.dxf.get("bulge", 0.0))
        for vertex in entity.vertices
    ]
    yield from _through(vertices, entity.is_closed)


def _through(vertices: list[tuple[float, float, float]], closed: bool) -> Iterator[_Raw]:
    if len(vertices) < 2:
        raise _UnfitError(f"with {len(vertices)} vertices: delete it")
    for (x, y, bulge), (x1, y1, _) in pairwise([*vertices, vertices[0]] if closed else vertices):
        yield (x, y), (x1, y1), bulge


_READ: Final[dict[str, Any]] = {
    "LINE": _line,
    "ARC": _arc,
    "CIRCLE": _circle,
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
}
