"""Write a mesh of the finished top as a GLB file: metres, Y up, one named node for each body.

No geometry kernel takes part, so the 3D view of a page is there at once and on every machine. The same figures
give the same bytes.

References
----------
glTF 2.0 Specification, sections 3.4 (units and axes) and 4 (GLB): https://registry.khronos.org/glTF/specs/2.0/
"""

from __future__ import annotations

import json
import math
import struct
from dataclasses import dataclass
from typing import Any, Final

from edgewright.design.mesh import Body, Vector, area_vector, facet_triangles, meshes, unit
from edgewright.design.solid_figures import SolidSpec

__all__ = ["glb_bytes"]

#: Neighbouring facets that turn by less than this are shaded as one curved surface.
_SMOOTH: Final = math.cos(math.radians(30))
_TOP_COLOUR, _STRIP_COLOUR = (0.80, 0.68, 0.50, 1.0), (0.62, 0.48, 0.31, 1.0)
_FLOATS, _INDICES = 34962, 34963


@dataclass(frozen=True, slots=True)
class _Triangles:
    """Corners and normals of a body, triangles as indices into both."""

    points: list[Vector]
    normals: list[Vector]
    indices: list[int]


def glb_bytes(spec: SolidSpec, title: str = "finished top") -> bytes:
    """Bytes of the GLB file; the origin is that of the plan, on the underside."""
    document: dict[str, Any] = {
        "asset": {"version": "2.0", "generator": "edgewright"},
        "scene": 0,
        "scenes": [{"name": title, "nodes": []}],
        "nodes": [],
        "meshes": [],
        "materials": [_material("top", _TOP_COLOUR), _material("strips", _STRIP_COLOUR)],
        "accessors": [],
        "bufferViews": [],
        "buffers": [],
    }
    binary = bytearray()
    for number, body in enumerate(meshes(spec)):
        shape = _triangles(body)
        points = [_turned(point, 0.001) for point in shape.points]
        attributes = {
            "POSITION": _floats(document, binary, points, bounds=True),
            "NORMAL": _floats(document, binary, [_turned(normal, 1.0) for normal in shape.normals]),
        }
        primitive = {
            "attributes": attributes,
            "indices": _numbers(document, binary, shape.indices),
            "material": 0 if body.name == "top" else 1,
        }
        document["meshes"].append({"name": body.name, "primitives": [primitive]})
        document["nodes"].append({"name": body.name, "mesh": number})
        document["scenes"][0]["nodes"].append(number)
    document["buffers"].append({"byteLength": len(binary)})
    return _container(document, bytes(binary))


def _material(name: str, colour: tuple[float, float, float, float]) -> dict[str, Any]:
    surface = {"baseColorFactor": list(colour), "metallicFactor": 0.0, "roughnessFactor": 0.7}
    return {"name": name, "pbrMetallicRoughness": surface}


def _turned(vector: Vector, scale: float) -> Vector:
    """Z up to Y up: east stays x, up becomes y, south becomes z."""
    x, y, z = vector
    return x * scale, z * scale, -y * scale + 0.0


def _triangles(body: Body) -> _Triangles:
    """Triangles; at a corner the facets that nearly go on into one another share a normal.

    It is weighted by area, so that a round-over leaves the large flat without a kink and the flat stays flat.
    """
    # beside an edge that stays a facet may be a mere line: it has no normal and is not seen
    facets = [facet for facet in body.facets if any(area_vector(facet.points))]
    areas = [area_vector(facet.points) for facet in facets]
    normals = [unit(area) for area in areas]
    keys = [[_key(point) for point in facet.points] for facet in facets]
    meeting: dict[Vector, list[tuple[Vector, Vector]]] = {}
    for area, normal, corner_keys in zip(areas, normals, keys, strict=True):
        for key in corner_keys:
            meeting.setdefault(key, []).append((area, normal))
    shape = _Triangles([], [], [])
    seen: dict[tuple[Vector, Vector], int] = {}
    for normal, facet, corner_keys in zip(normals, facets, keys, strict=True):
        corners = []
        for point, key in zip(facet.points, corner_keys, strict=True):
            near = sorted(area for area, other in meeting[key] if _dot(other, normal) > _SMOOTH)
            x, y, z = map(sum, zip(*near, strict=True))
            mean = unit((x, y, z))
            place = key, _key(mean)
            if place not in seen:
                seen[place] = len(shape.points)
                shape.points.append(point)
                shape.normals.append(mean)
            corners.append(seen[place])
        for triangle in facet_triangles(facet):
            shape.indices.extend(corners[n] for n in triangle)
    return shape


def _key(vector: Vector) -> Vector:
    x, y, z = vector
    return round(x, 6) + 0.0, round(y, 6) + 0.0, round(z, 6) + 0.0


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _floats(document: dict[str, Any], binary: bytearray, rows: list[Vector], bounds: bool = False) -> int:
    data = struct.pack(f"<{3 * len(rows)}f", *(value for row in rows for value in row))
    accessor: dict[str, Any] = {"componentType": 5126, "count": len(rows), "type": "VEC3"}
    if bounds:
        # of the rounded figures that the file holds, as a validator compares them
        stored = [struct.unpack_from("<3f", data, 12 * n) for n in range(len(rows))]
        accessor["min"] = [min(row[axis] for row in stored) for axis in range(3)]
        accessor["max"] = [max(row[axis] for row in stored) for axis in range(3)]
    return _append(document, binary, data, accessor, _FLOATS)


def _numbers(document: dict[str, Any], binary: bytearray, indices: list[int]) -> int:
    data = struct.pack(f"<{len(indices)}I", *indices)
    accessor = {"componentType": 5125, "count": len(indices), "type": "SCALAR"}
    return _append(document, binary, data, accessor, _INDICES)


def _append(
    document: dict[str, Any], binary: bytearray, data: bytes, accessor: dict[str, Any], target: int
) -> int:
    view = {"buffer": 0, "byteOffset": len(binary), "byteLength": len(data), "target": target}
    document["bufferViews"].append(view)
    document["accessors"].append({"bufferView": len(document["bufferViews"]) - 1, **accessor})
    binary += data
    return len(document["accessors"]) - 1


def _container(document: dict[str, Any], binary: bytes) -> bytes:
    """Header and two chunks, each padded to 4 bytes: JSON with blanks, binary with zeros."""
    text = json.dumps(document, separators=(",", ":")).encode()
    text += b" " * (-len(text) % 4)
    binary += b"\0" * (-len(binary) % 4)
    size = 12 + 8 + len(text) + 8 + len(binary)
    return b"".join(
        [
            struct.pack("<4sII", b"glTF", 2, size),
            struct.pack("<I4s", len(text), b"JSON"),
            text,
            struct.pack("<I4s", len(binary), b"BIN\0"),
            binary,
        ]
    )
