"""Meshes of tops of any outline: closed, true to the figures, cut by pieces of the build-up; and as an STL file."""

import math
import struct
from collections import Counter

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from region_cases import BITTEN, D_END, HOLED, LENS, NAMED, RACETRACK, ROUNDED_L, circle, tops
from solid_cases import CASES, box

from edgewright.design.edge_levels import FINE, Detail, edge_levels
from edgewright.design.forms import bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.inset import inset
from edgewright.design.mesh import area_vector, layer_mesh, meshes
from edgewright.design.outline import rectangle
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.solid_figures import StripBody, region_solid_spec
from edgewright.design.stl_file import stl_bytes
from edgewright.errors import GeometryError

FORMS = {
    "round-overs": EdgeProfile.round_overs(36.5, 9.525, 6.0),
    "chamfer": EdgeProfile(30.0, chamfer(6.0), no_form()),
    "bevel": EdgeProfile(36.5, bevel(15.0, 8.0), round_over(3.0)),
    "cove": EdgeProfile(30.0, cove(10.0), chamfer(3.0)),
    "ogee": EdgeProfile(36.5, ogee(6.0, 2.0), no_form()),
}
CASES_HERE = [
    (name, form) for at, name in enumerate(NAMED) for n, form in enumerate(FORMS) if (at + n) % 3 == 0
]


def volume(facets):
    """Volume by the divergence theorem: each facet's area vector on its distance from the origin."""
    parts = []
    for facet in facets:
        (x, y, z), (ax, ay, az) = facet.points[0], area_vector(facet.points)
        parts.append((x * ax + y * ay + z * az) / 3)
    return math.fsum(parts)


def is_closed(facets):
    """Whether each edge is run through once each way, its ends the very same points."""
    edges = Counter()
    for facet in facets:
        edges.update(zip(facet.points, [*facet.points[1:], facet.points[0]], strict=True))
    return all(count == 1 and edges[b, a] == 1 for (a, b), count in edges.items())


def edge_surface(facets, thickness):
    """Area of all facets but those that lie in the two faces."""
    return math.fsum(
        math.hypot(*area_vector(facet.points))
        for facet in facets
        if not any(all(z == face for _, _, z in facet.points) for face in (0.0, thickness))
    )


@pytest.mark.property
@pytest.mark.parametrize(("name", "form"), CASES_HERE)
def test_mesh_is_closed_and_converges_to_the_closed_form(name, form):
    profile = FORMS[form]
    spec = region_solid_spec(NAMED[name], profile, profile.thickness)
    (whole,) = meshes(spec)
    assert is_closed(whole.facets)
    assert volume(whole.facets) == pytest.approx(spec.volume_mm3, rel=1e-3)
    (fine,) = meshes(spec, Detail(5e-3, 0.08))
    assert volume(fine.facets) == pytest.approx(spec.volume_mm3, rel=1e-4)
    assert edge_surface(fine.facets, profile.thickness) == pytest.approx(spec.edge_mm2, rel=3e-4)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30, suppress_health_check=list(HealthCheck))
@given(region=tops(), form=st.sampled_from(sorted(FORMS)))
def test_mesh_of_any_top_is_closed_and_as_large_as_its_figures(region, form):
    profile = FORMS[form]
    try:
        spec = region_solid_spec(region, profile, profile.thickness)
    except GeometryError:
        assume(False)
    (whole,) = meshes(spec)
    assert is_closed(whole.facets)
    assert volume(whole.facets) == pytest.approx(spec.volume_mm3, rel=1e-3)


@pytest.mark.property
@pytest.mark.parametrize("name", ["rounded L", "holed", "bitten", "lens", "racetrack"])
def test_rings_enclose_the_inner_parallel(name):
    """Against the inset, which cuts moved pieces where they meet and knows no stretches."""
    spec = region_solid_spec(NAMED[name], FORMS["round-overs"], 36.5)
    levels = edge_levels(spec, Detail(1e-4, 0.01))
    for station in levels.stations[::9]:
        found = sum(
            (ax * by - bx * ay) / 2
            for ring in levels.rings(station)
            for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True)
        )
        exact = sum(part.area for part in inset(spec.region, station.inset))
        # chords lie within 1e-4 mm of their arcs
        assert found == pytest.approx(exact, abs=1e-4 * spec.region.perimeter)


@pytest.mark.property
@pytest.mark.parametrize(
    "region", [RACETRACK, ROUNDED_L, HOLED, D_END], ids=["racetrack", "L", "holed", "d-end"]
)
def test_pieces_that_fill_a_layer_add_up_to_it(region):
    """Straight and slanted pieces over the whole underside; each is closed."""
    x0, y0, x1, y1 = region.bounds
    mid, lean = (x0 + x1) / 2, 37.0
    strips = (
        box("S1", x0 - 5, y0 - 5, mid - 100, y1 + 5, 0.0, 18.0),
        StripBody(
            "S2", ((mid - 100, y0 - 5), (mid, y0 - 5), (mid + lean, y1 + 5), (mid - 100, y1 + 5)), 0.0, 18.0
        ),
        StripBody("S3", ((mid, y0 - 5), (x1 + 5, y0 - 5), (x1 + 5, y1 + 5), (mid + lean, y1 + 5)), 0.0, 18.0),
    )
    spec = region_solid_spec(region, FORMS["ogee"], 18.5, strips=strips)
    bodies = meshes(spec)
    assert [body.name for body in bodies] == ["top", "S1", "S2", "S3"]
    assert all(is_closed(body.facets) for body in bodies)
    whole = volume(layer_mesh(edge_levels(spec), 0.0, spec.thickness))
    assert sum(volume(body.facets) for body in bodies) == pytest.approx(whole, rel=1e-9)


@pytest.mark.example
def test_wall_side_and_hole_keep_their_edges():
    """A chamfer of 6 on three sides of 1000 x 500, and above only round a square hole of 100."""
    hole = Region(rectangle(100, 100)).outer
    clockwise = tuple(type(s)(s.end, s.start) for s in reversed(hole.segments))
    moved = tuple(type(s)(*((x + 400, y + 200) for x, y in (s.start, s.end))) for s in clockwise)
    region = Region(rectangle(1000, 500), (type(hole)(moved),))
    profile = EdgeProfile(30.0, chamfer(6.0), chamfer(6.0))
    spec = region_solid_spec(region, profile, 30.0, still=frozenset({3}), holes_below=False)
    (whole,) = meshes(spec)
    assert is_closed(whole.facets)
    # each corner of two sloped sides lacks 2 x 6³/6; round the hole a cone of a quarter adds 6³/3 π/4 a corner
    outside = 18 * 2500 - 2 * 2 * 6**3 / 6
    inside = 18 * 400 + 4 * math.pi / 4 * 6**3 / 3
    assert spec.volume_mm3 == pytest.approx(30 * (1000 * 500 - 100**2) - 2 * outside - inside, rel=1e-12)
    assert volume(whole.facets) == pytest.approx(spec.volume_mm3, rel=1e-5)
    on_wall = [f for f in whole.facets if all(x == 0 for x, _, _ in f.points)]
    # 500 x 30 less a triangle of 18 mm² at each of its four corners
    assert sum(math.hypot(*area_vector(f.points)) for f in on_wall) == pytest.approx(500 * 30 - 4 * 18)


@pytest.mark.example
@pytest.mark.parametrize("radii", [(4, 4, 4, 4), (0, 5, 4, 0), (4, 12, 2, 6)])
def test_a_chamfer_that_outreaches_roundings_beside_a_wall_side(radii):
    region = Region(rectangle(600, 400, tuple(map(float, radii))))
    wall = frozenset(at for at, s in enumerate(region.segments) if s.start[1] == s.end[1] == 400)
    spec = region_solid_spec(region, EdgeProfile(30.0, chamfer(9.0), no_form()), 30.0, still=wall)
    (whole,) = meshes(spec)
    assert is_closed(whole.facets)
    assert volume(whole.facets) == pytest.approx(spec.volume_mm3, rel=5e-6)


@pytest.mark.property
@pytest.mark.parametrize("radius", [30.0, 300.0])
def test_chords_stay_within_the_stated_error(radius):
    top = Region(circle(0, 0, radius, hole=False))
    spec = region_solid_spec(top, FORMS["chamfer"], 30.0)
    levels = edge_levels(spec)
    (ring,) = levels.rings(levels.stations[0])
    for (ax, ay), (bx, by) in zip(ring, [*ring[1:], ring[0]], strict=True):
        assert radius - math.hypot((ax + bx) / 2, (ay + by) / 2) <= FINE.sag_mm
        assert math.hypot(ax, ay) == pytest.approx(radius, abs=1e-9)


def read_stl(data):
    """Triangles of a binary STL file: normal and three corners."""
    (count,) = struct.unpack_from("<I", data, 80)
    assert len(data) == 84 + 50 * count
    rows = [struct.unpack_from("<12fH", data, 84 + 50 * n) for n in range(count)]
    return [(row[:3], row[3:6], row[6:9], row[9:12]) for row in rows]


STL_CASES = {
    "holed": region_solid_spec(HOLED, FORMS["ogee"], 36.5),
    "bitten": region_solid_spec(BITTEN, FORMS["round-overs"], 36.5),
    "lens": region_solid_spec(LENS, FORMS["cove"], 30.0),
    "rectangle with strips": CASES["mitre"],
}


@pytest.mark.parametrize("name", STL_CASES)
def test_stl_read_back_is_closed_looks_out_and_has_the_volume(name):
    spec = STL_CASES[name]
    triangles = read_stl(stl_bytes(spec))
    edges, total = Counter(), 0.0
    for normal, a, b, c in triangles:
        edges.update([(a, b), (b, c), (c, a)])
        u, v = ([q - p for p, q in zip(a, end, strict=True)] for end in (b, c))
        across = (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])
        size = math.hypot(*across)
        if size > 1e-6:
            assert sum(p * q for p, q in zip(normal, across, strict=True)) == pytest.approx(size, rel=1e-5)
        total += sum(p * q for p, q in zip(a, across, strict=True)) / 6
    # every edge as often one way as the other: bodies side by side may share one
    assert all(edges[b, a] == count for (a, b), count in edges.items() if a != b)
    wood = math.fsum(volume(body.facets) for body in meshes(spec))
    assert total == pytest.approx(wood, rel=1e-5)


def test_stl_header_says_the_unit_and_no_date():
    data = stl_bytes(CASES["sharp"], "Küche 1")
    assert data[:80].rstrip() == b"edgewright, millimetres: Kuche 1"
    assert data == stl_bytes(CASES["sharp"], "Küche 1")
    assert len(stl_bytes(CASES["sharp"], "x" * 200)) == len(data)
