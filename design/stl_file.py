"""Write a mesh of the finished top as a binary STL file: millimetres, Z up, all bodies in one list of triangles.

The format has neither a unit nor names; the header says which unit it is. The same figures give the same bytes.

References
----------
3D Systems, StereoLithography Interface Specification (1989): 80 bytes of header, a count, 50 bytes a triangle.
"""

from __future__ import annotations

import math
import struct

from edgewright.design.mesh import Vector, facet_triangles, meshes
from edgewright.design.solid_figures import SolidSpec
from edgewright.drawing.plain_ascii import plain_ascii

__all__ = ["stl_bytes"]


def stl_bytes(spec: SolidSpec, title: str = "finished top") -> bytes:
    """Bytes of the STL file; the origin is that of the plan, on the underside."""
    rows = []
    for body in meshes(spec):
        for facet in body.facets:
            # as the file holds them: the normal must fit the rounded corners
            points = [_stored(point) for point in facet.points]
            rows += [_row(points[a], points[b], points[c]) for a, b, c in facet_triangles(facet)]
    # a header that begins with "solid" is taken for a text file by some readers
    header = f"edgewright, millimetres: {plain_ascii(title)}".encode("ascii")[:80].ljust(80)
    return header + struct.pack("<I", len(rows)) + b"".join(rows)


def _stored(point: Vector) -> Vector:
    x, y, z = struct.unpack("<3f", struct.pack("<3f", *point))
    return x + 0.0, y + 0.0, z + 0.0


def _row(a: Vector, b: Vector, c: Vector) -> bytes:
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    vx, vy, vz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    x, y, z = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    size = math.hypot(x, y, z)
    # a triangle that rounding has made flat keeps its place, so that the mesh stays closed, and has no normal
    normal = (x / size, y / size, z / size) if size else (0.0, 0.0, 0.0)
    return struct.pack("<12fH", *normal, *a, *b, *c, 0)
