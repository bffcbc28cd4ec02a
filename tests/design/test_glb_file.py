"""The GLB file taken apart by hand: metres, Y up, named nodes, triangles that enclose the right volume."""

import json
import struct

import pytest
from solid_cases import CASES, SLAB

from edgewright.design.glb_file import glb_bytes


def parts(data):
    """Return the JSON document and the binary chunk."""
    magic, version, size = struct.unpack_from("<4sII", data)
    assert (magic, version, size) == (b"glTF", 2, len(data))
    length, kind = struct.unpack_from("<I4s", data, 12)
    assert kind == b"JSON"
    assert length % 4 == 0
    document = json.loads(data[20 : 20 + length])
    binary_length, binary_kind = struct.unpack_from("<I4s", data, 20 + length)
    assert binary_kind == b"BIN\0"
    assert binary_length % 4 == 0
    assert 28 + length + binary_length == len(data)
    return document, data[28 + length :]


def values(document, binary, number):
    accessor = document["accessors"][number]
    view = document["bufferViews"][accessor["bufferView"]]
    assert view["byteOffset"] % 4 == 0
    width = {"VEC3": 3, "SCALAR": 1}[accessor["type"]]
    code = {5126: "f", 5125: "I"}[accessor["componentType"]]
    assert view["byteLength"] == 4 * width * accessor["count"]
    flat = struct.unpack_from(f"<{width * accessor['count']}{code}", binary, view["byteOffset"])
    return [flat[n : n + width] for n in range(0, len(flat), width)]


@pytest.mark.reference
def test_slab_is_in_metres_with_y_up():
    """The glTF 2.0 specification: metres, right-handed, +Y up; north goes to -Z."""
    document, _ = parts(glb_bytes(SLAB))
    (mesh,) = document["meshes"]
    position = document["accessors"][mesh["primitives"][0]["attributes"]["POSITION"]]
    assert position["min"] == pytest.approx([0, 0, -2.286], abs=1e-6)
    assert position["max"] == pytest.approx([1.0668, 0.030, 0], abs=1e-6)
    assert not any({"scale", "matrix", "rotation"} & node.keys() for node in document["nodes"])


@pytest.mark.parametrize("name", CASES)
def test_each_body_is_a_named_node(name):
    document, binary = parts(glb_bytes(CASES[name], "Bob's top"))
    names = ["top", *(strip.name for strip in CASES[name].strips)]
    assert [node["name"] for node in document["nodes"]] == names
    assert document["scenes"] == [{"name": "Bob's top", "nodes": list(range(len(names)))}]
    assert document["buffers"] == [{"byteLength": len(binary)}]


def test_bounds_are_those_of_the_stored_figures():
    document, binary = parts(glb_bytes(CASES["round"]))
    for mesh in document["meshes"]:
        number = mesh["primitives"][0]["attributes"]["POSITION"]
        rows = values(document, binary, number)
        for axis in range(3):
            column = [row[axis] for row in rows]
            assert document["accessors"][number]["min"][axis] == min(column)
            assert document["accessors"][number]["max"][axis] == max(column)


def test_triangles_enclose_the_wood_and_normals_look_out():
    document, binary = parts(glb_bytes(SLAB))
    primitive = document["meshes"][0]["primitives"][0]
    points = values(document, binary, primitive["attributes"]["POSITION"])
    normals = values(document, binary, primitive["attributes"]["NORMAL"])
    indices = [n for (n,) in values(document, binary, primitive["indices"])]
    volume = 0.0
    for at in range(0, len(indices), 3):
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (points[n] for n in indices[at : at + 3])
        volume += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
        across = (
            (by - ay) * (cz - az) - (bz - az) * (cy - ay),
            (bz - az) * (cx - ax) - (bx - ax) * (cz - az),
            (bx - ax) * (cy - ay) - (by - ay) * (cx - ax),
        )
        for n in indices[at : at + 3]:
            assert sum(a * b for a, b in zip(across, normals[n], strict=True)) > 0
    assert volume / 6 * 1e9 == pytest.approx(73045686.455, rel=2e-4)
    assert all(sum(v * v for v in normal) == pytest.approx(1, abs=1e-6) for normal in normals)


def test_large_flats_stay_flat():
    """A vertex of the top face, where the round-over begins, looks straight up."""
    document, binary = parts(glb_bytes(SLAB))
    attributes = document["meshes"][0]["primitives"][0]["attributes"]
    points, normals = (values(document, binary, attributes[key]) for key in ("POSITION", "NORMAL"))
    on_top = [normal for point, normal in zip(points, normals, strict=True) if point[1] > 0.03 - 1e-7]
    assert on_top
    assert all(normal[1] > 0.9999 for normal in on_top)


def test_same_bytes_again():
    assert glb_bytes(CASES["mitre"]) == glb_bytes(CASES["mitre"])
