"""Where the eye of a picture is, what it sees of a point, and how grey a face looks."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.design.mesh import Vector, unit
from edgewright.design.outline import Point
from edgewright.drawing.view import Face, Layer, Loop

__all__ = [
    "AZIMUTH",
    "CREASE",
    "EDGES",
    "ELEVATION",
    "FACES",
    "GUIDES",
    "OUTLINES",
    "PLY",
    "grey_of",
    "key_of",
    "project",
    "seen_face",
    "towards_eye",
]

FACES: Final = Layer("PICTURE_FACES", "shaded faces", 0.13, "continuous", False)
EDGES: Final = Layer("PICTURE_EDGES", "edges between faces", 0.13, "continuous", False)
OUTLINES: Final = Layer("PICTURE_OUTLINES", "outlines of the parts", 0.25, "continuous", False)
GUIDES: Final = Layer("PICTURE_GUIDES", "where a part goes", 0.13, "dashed", False)

#: Eye: from the south, a little to the east, above. Light: from the south-west, above.
AZIMUTH: Final = math.radians(-64)
ELEVATION: Final = math.radians(28)
_LIGHT: Final = unit((-0.25, -0.45, 0.86))
_DARK, _BRIGHT = 0.28, 0.70
#: Every second ply is this much darker.
PLY: Final = 0.84
#: Faces that turn by more than this have a line between them.
CREASE: Final = math.cos(math.radians(40))


def project(point: Vector) -> Point:
    """Point of the picture: right and up."""
    x, y, z = point
    ca, sa = math.cos(AZIMUTH), math.sin(AZIMUTH)
    return -sa * x + ca * y, math.cos(ELEVATION) * z - math.sin(ELEVATION) * (ca * x + sa * y)


def towards_eye(vector: Vector) -> float:
    """How far a vector goes towards the eye."""
    x, y, z = vector
    flat = math.cos(AZIMUTH) * x + math.sin(AZIMUTH) * y
    return math.cos(ELEVATION) * flat + math.sin(ELEVATION) * z


def grey_of(normal: Vector, ply: int) -> float:
    """Grey by the angle to one lamp, which dims gently round the back; plies show on edges, not on level faces."""
    lit = 0.5 + 0.5 * sum(a * b for a, b in zip(normal, _LIGHT, strict=True))
    grey = _DARK + _BRIGHT * lit
    return round(grey * (PLY if ply % 2 and abs(normal[2]) < 0.999 else 1.0), 3)


def seen_face(points: Sequence[Vector], grey: float) -> Iterator[Face]:
    """A flat face as the eye sees it; nothing where it is seen from its side."""
    flat = [project(point) for point in points]
    apart = [p for p, before in zip(flat, [flat[-1], *flat[:-1]], strict=True) if math.dist(p, before) > 1e-6]
    if len(apart) > 2:
        yield Face(Loop(tuple((x, y, 0.0) for x, y in apart)), grey)


def key_of(point: Vector) -> Vector:
    """The point to a millionth of a millimetre: neighbours share it whatever rounding did."""
    x, y, z = point
    return round(x, 6) + 0.0, round(y, 6) + 0.0, round(z, 6) + 0.0
