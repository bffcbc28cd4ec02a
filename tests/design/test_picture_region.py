"""The picture of tops that are not convex: what the eye sees of them, found by following lines of sight."""

import math
import random

import pytest
from region_cases import BITTEN, DUMBBELL, HOLED, LENS, ROUNDED_L, SHARP_L
from solid_cases import box

from edgewright.design import picture_eye as eye
from edgewright.design.draw_order import walls_far_first
from edgewright.design.edge_levels import edge_levels
from edgewright.design.forms import cove, no_form, ogee
from edgewright.design.mesh import area_vector, layer_mesh, unit
from edgewright.design.picture import _COARSE, picture
from edgewright.design.profile import EdgeProfile
from edgewright.design.solid_figures import region_solid_spec
from edgewright.drawing.audit import audit_view
from edgewright.drawing.view import Face

FORMS = {
    "plain": EdgeProfile(60.0, no_form(), no_form()),
    "round-overs": EdgeProfile.round_overs(36.5, 9.525, 6.0),
    "ogee": EdgeProfile(60.0, ogee(8.0, 3.0), cove(9.0)),
}
REGIONS = {"L": ROUNDED_L, "holed": HOLED, "bitten": BITTEN, "dumbbell": DUMBBELL, "lens": LENS}
RING = (
    box("S1", 0, 0, 1800, 60, 0.0, 18.0),
    box("E1", 1740, 60, 1800, 540, 0.0, 18.0),
    box("N1", 540, 540, 1800, 600, 0.0, 18.0),
    box("W1", 0, 60, 60, 1440, 0.0, 18.0),
)


def inside(loop, x, y):
    found = False
    for (ax, ay), (bx, by) in zip(loop, [*loop[1:], loop[0]], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
            found = not found
    return found


def facing(facets):
    """Facets turned towards the eye: their outline in the picture, a point and the normal of each."""
    for facet in facets:
        normal = unit(area_vector(facet.points))
        if eye.towards_eye(normal) > 1e-6:
            yield [eye.project(point) for point in facet.points], facet.points[0], normal


def nearest(facets, u, v):
    """Grey of the facet that the eye meets first along the line of sight through a point of the picture."""
    ca, sa = math.cos(eye.AZIMUTH), math.sin(eye.AZIMUTH)
    ce, se = math.cos(eye.ELEVATION), math.sin(eye.ELEVATION)
    # the point of that line in the plane through the origin square to it
    base = (-sa * u - se * ca * v, ca * u - se * sa * v, ce * v)
    met = []
    for outline, corner, normal in facets:
        if inside(outline, u, v):
            gap = sum(n * (c - b) for n, c, b in zip(normal, corner, base, strict=True))
            met.append((gap / eye.towards_eye(normal), eye.grey_of(normal, 0)))
    return max(met)[1] if met else None


@pytest.mark.property
@pytest.mark.parametrize(
    ("name", "form"),
    [("L", "round-overs"), *((name, form) for name in REGIONS for form in ("plain", "ogee"))],
)
def test_last_face_at_a_point_is_the_one_nearest_to_the_eye(name, form):
    region = REGIONS[name]
    if (name, form) in {("dumbbell", "ogee")}:
        region = SHARP_L  # its neck is narrower than the form
    spec = region_solid_spec(region, FORMS[form], FORMS[form].thickness)
    view = picture(spec, "", paper=None)
    assert audit_view(view) == ()
    faces = [shape for _, shape in view.shapes if isinstance(shape, Face)]
    outlines = [([(x, y) for x, y, _ in face.loop.vertices], face.grey) for face in faces]
    facets = list(facing(layer_mesh(edge_levels(spec, _COARSE), 0.0, spec.thickness)))
    everything = [point for outline, _ in outlines for point in outline]
    low, high = (tuple(pick(p[axis] for p in everything) for axis in (0, 1)) for pick in (min, max))
    rng = random.Random(7)
    wrong = hits = 0
    for at in range(150):
        u, v = rng.uniform(low[0], high[0]), rng.uniform(low[1], high[1])
        if at % 2:
            # near an edge of the picture, where faces hide one another
            u, v = (w + rng.uniform(-12, 12) for w in rng.choice(everything))
        expected = nearest(facets, u, v)
        drawn = [grey for outline, grey in outlines if inside(outline, u, v)]
        hits += expected is not None
        wrong += (drawn[-1] if drawn else None) != expected
    assert hits > 40
    # a point within rounding of a border may fall to either side
    assert wrong <= 2


def test_strips_are_drawn_apart_below_the_top():
    spec = region_solid_spec(ROUNDED_L, FORMS["round-overs"], 18.5, strips=RING)
    view = picture(spec, "L", plies=5)
    assert audit_view(view) == ()
    together = picture(spec, "L", apart=False, paper=None)
    lowest = [
        min(y for _, shape in made.shapes if isinstance(shape, Face) for _, y, _ in shape.loop.vertices)
        for made in (picture(spec, "L", paper=None), together)
    ]
    assert lowest[0] < lowest[1] - 500


@pytest.mark.property
def test_walls_come_from_far_to_near_along_every_line_of_sight():
    rng = random.Random(3)
    corners = [(0, 0), (900, 0), (900, 300), (600, 250), (620, 700), (300, 650), (310, 200), (0, 400)]
    walls = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    for _ in range(50):
        azimuth = rng.uniform(0, 2 * math.pi)
        ca, sa = math.cos(azimuth), math.sin(azimuth)
        rng.shuffle(walls)
        order = walls_far_first(walls, azimuth)
        assert sorted(order) == list(range(len(walls)))
        for _ in range(20):
            u, met = rng.uniform(-900, 900), []
            for number in order:
                (u0, d0), (u1, d1) = ((ca * y - sa * x, ca * x + sa * y) for x, y in walls[number])
                if (u0 > u) != (u1 > u):
                    met.append(d0 + (u - u0) * (d1 - d0) / (u1 - u0))
            assert met == sorted(met)
