"""The mesh without a kernel: closed, named, true in size, and as large as the closed form says."""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from solid_cases import CASES, SLAB, make, wood_volume

from edgewright.design.edge_levels import edge_levels
from edgewright.design.mesh import Detail, area_vector, layer_mesh, meshes, unit


def volume(facets):
    """Volume by the divergence theorem: each facet's area vector on its distance from the origin."""
    total = 0.0
    for facet in facets:
        (x, y, z), (ax, ay, az) = facet.points[0], area_vector(facet.points)
        total += (x * ax + y * ay + z * az) / 3
    return total


def is_closed(facets):
    """Whether each edge is run through once each way."""
    edges = Counter()
    for facet in facets:
        keys = [tuple(round(value, 5) + 0.0 for value in point) for point in facet.points]
        edges.update(zip(keys, [*keys[1:], keys[0]], strict=True))
    return all(count == 1 and edges[b, a] == 1 for (a, b), count in edges.items())


@pytest.mark.parametrize("name", CASES)
def test_bodies_are_closed_and_named(name):
    bodies = meshes(CASES[name])
    assert [body.name for body in bodies] == ["top", *(strip.name for strip in CASES[name].strips)]
    assert all(is_closed(body.facets) for body in bodies)


@pytest.mark.parametrize("name", [name for name, case in CASES.items() if case.strips])
def test_volume_is_a_little_below_the_closed_form(name):
    found = sum(volume(body.facets) for body in meshes(CASES[name]))
    exact = wood_volume(CASES[name], proud=1.5 if name == "round" else 0.0)
    # chords lie inside their arcs
    assert -5e-4 < found / exact - 1 <= 1e-12


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=15)
@given(
    radii=st.tuples(*[st.just(0.0) | st.floats(0.5, 200)] * 4),
    rt=st.just(0.0) | st.floats(0.1, 18),
    rb=st.just(0.0) | st.floats(0.1, 18),
    ring=st.sampled_from(["butt", "mitre"]),
)
def test_volume_converges_to_the_closed_form(radii, rt, rb, ring):
    spec = make(radii, rt, rb, ring=ring)
    whole = layer_mesh(edge_levels(spec), 0.0, spec.thickness)
    assert volume(whole) == pytest.approx(spec.volume_mm3, rel=5e-4)
    fine = layer_mesh(edge_levels(spec, Detail(2e-3, 0.06)), 0.0, spec.thickness)
    assert volume(fine) == pytest.approx(spec.volume_mm3, rel=2e-5)
    assert all(is_closed(body.facets) for body in meshes(spec))


def test_size_along_the_axes_is_exact():
    points = [point for body in meshes(SLAB) for facet in body.facets for point in facet.points]
    assert [min(p[axis] for p in points) for axis in range(3)] == [0, 0, 0]
    assert [max(p[axis] for p in points) for axis in range(3)] == [1066.8, 2286, 30]


def test_facets_look_outwards():
    centre = (1828.8 / 2, 914.4 / 2, 27.0)
    for facet in meshes(CASES["small radius"])[0].facets:
        normal = unit(area_vector(facet.points))
        assert sum((p - c) * n for p, c, n in zip(facet.points[0], centre, normal, strict=True)) > 0
