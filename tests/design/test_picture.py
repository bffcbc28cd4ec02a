"""The picture: what is near hides what is far, and the view is sound for every writer."""

import math
import random

import pytest
from solid_cases import CASES, STRIP, TOP, WIDTH, box, butt_ring, make, mitred_ring

from edgewright.design import picture_eye as module
from edgewright.design.draw_order import far_first
from edgewright.design.picture import picture
from edgewright.drawing.arcs import box_around
from edgewright.drawing.audit import audit_view
from edgewright.drawing.dxf import dxf_text
from edgewright.drawing.view import Face, Layer, Loop, Segment, View

LENGTH, DEPTH = 1828.8, 914.4


def pinwheel(w=WIDTH):
    z = (0.0, STRIP)
    return (
        box("S1", 0, 0, LENGTH - w, w, *z),
        box("E1", LENGTH - w, 0, LENGTH, DEPTH - w, *z),
        box("N1", w, DEPTH - w, LENGTH, DEPTH, *z),
        box("W1", 0, w, w, DEPTH, *z),
    )


def along_sight(strip, u):
    """Stretch of a line of sight, seen from above, that lies in a convex strip: far end and near end."""
    ca, sa = math.cos(module.AZIMUTH), math.sin(module.AZIMUTH)
    turned = [(ca * x + sa * y, ca * y - sa * x) for x, y in strip.corners]
    depths = []
    for (d0, u0), (d1, u1) in zip(turned, [*turned[1:], turned[0]], strict=True):
        if (u0 > u) != (u1 > u):
            depths.append(d0 + (u - u0) * (d1 - d0) / (u1 - u0))
    return (min(depths), max(depths)) if depths else None


@pytest.mark.property
@pytest.mark.parametrize(
    "strips",
    [
        butt_ring(LENGTH, DEPTH, 0, STRIP, splice=600.0),
        butt_ring(LENGTH, DEPTH, 0, STRIP),
        mitred_ring(LENGTH, DEPTH, 0, STRIP),
        pinwheel(),
    ],
    ids=["spliced", "butt", "mitre", "pinwheel"],
)
def test_strips_are_drawn_from_far_to_near_along_every_line_of_sight(strips):
    rng = random.Random(5)
    for _ in range(8):
        shuffled = rng.sample(strips, len(strips))
        order = far_first(shuffled, module.AZIMUTH)
        assert sorted(strip.name for strip in order) == sorted(strip.name for strip in strips)
        for _ in range(200):
            u = rng.uniform(-2000, 3000)
            met = [stretch for strip in order if (stretch := along_sight(strip, u))]
            assert met == sorted(met)


@pytest.mark.parametrize("apart", [True, False])
@pytest.mark.parametrize("name", CASES)
def test_view_passes_the_check_of_drawings(name, apart):
    view = picture(CASES[name], "a top", apart=apart, plies=7)
    assert audit_view(view) == ()
    assert view.title == "a top"


def test_width_of_the_picture_is_the_projected_diagonal():
    """Sharp corners: from the south-west to the north-east one, L sin a + W cos a across the line of sight."""
    x0, _, x1, _ = box_around(shape for _, shape in picture(CASES["sharp"], "", paper=None).shapes)
    a = -module.AZIMUTH
    assert x1 - x0 == pytest.approx(LENGTH * math.sin(a) + DEPTH * math.cos(a))


@pytest.mark.parametrize("paper", [(170.0, 120.0), (170.0, 40.0)])
def test_picture_fills_the_paper_with_its_lines(paper):
    view = picture(CASES["round"], "", paper=paper)
    x0, y0, x1, y1 = box_around(shape for _, shape in view.shapes)
    half = 0.25 / 2
    assert (x0, y0) == pytest.approx((half, half))
    assert x1 <= paper[0] - half + 1e-9
    assert y1 <= paper[1] - half + 1e-9
    assert x1 == pytest.approx(paper[0] - half) or y1 == pytest.approx(paper[1] - half)


def test_north_strip_comes_out_below_the_south_edge_of_the_top():
    """Below the point where the picture of the strip's north edge and the top's south edge share their x."""
    view = picture(CASES["sharp"], "", paper=None)
    guide = next(
        shape for name, shape in view.shapes if name == "PICTURE_GUIDES" and isinstance(shape, Segment)
    )
    lowered = (guide.y0 - guide.y1) / math.cos(module.ELEVATION)
    north = module.project((LENGTH / 2, DEPTH, STRIP - lowered))
    (x0, y0), (x1, y1) = (module.project((x, 0.0, STRIP)) for x in (0.0, LENGTH))
    south_edge = y0 + (north[0] - x0) * (y1 - y0) / (x1 - x0)
    assert north[1] < south_edge - 10


def ends(shape):
    if isinstance(shape, Face):
        return [(x, y) for x, y, _ in shape.loop.vertices]
    return [(shape.x0, shape.y0), (shape.x1, shape.y1)]


def test_top_is_drawn_last_and_brightest():
    faces = [
        shape
        for _, shape in picture(CASES["round"], "", plies=7, paper=None).shapes
        if isinstance(shape, Face)
    ]
    areas = [area(face) for face in faces]
    top = areas.index(sorted(areas)[-2])  # the largest is the whole silhouette
    lowest_of_top = min(y for _, y in ends(faces[top]))
    assert all(n < top for n, face in enumerate(faces) if max(y for _, y in ends(face)) < lowest_of_top - 100)
    assert faces[top].grey > 0.9
    assert all(face.grey >= 0.2 for face in faces)


def area(face):
    points = ends(face)
    return (
        sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(points, [*points[1:], points[0]], strict=True))
        / 2
    )


def test_visible_faces_all_turn_the_same_way():
    """A face seen from its back would run clockwise."""
    for name in CASES:
        faces = [shape for _, shape in picture(CASES[name], "", plies=3).shapes if isinstance(shape, Face)]
        assert all(area(face) > 0 for face in faces)


def test_visible_faces_cover_the_plan_once():
    """Faces of a convex body that look at the eye project onto its silhouette without overlap."""
    spec = make((0.0,) * 4, 0.0, 0.0, ring="none", top=TOP)
    backing, *faces = [shape for _, shape in picture(spec, "", paper=None).shapes if isinstance(shape, Face)]
    el, az = module.ELEVATION, -module.AZIMUTH
    level = LENGTH * DEPTH * math.sin(el)
    upright = TOP * math.cos(el) * (LENGTH * math.sin(az) + DEPTH * math.cos(az))
    assert sum(map(area, faces)) == pytest.approx(level + upright)
    assert area(backing) == pytest.approx(level + upright)


def test_plies_shade_the_edge_only():
    """A sharp top shows three greys: the face, and two sides of which every second ply is darker."""
    spec = make((0.0,) * 4, 0.0, 0.0, ring="none")
    plain, plies = (
        {shape.grey for _, shape in picture(spec, "", plies=count).shapes if isinstance(shape, Face)}
        for count in (0, 5)
    )
    east, south, level = sorted(plain)
    assert {round(grey, 2) for grey in plies - plain} == {
        round(module.PLY * grey, 2) for grey in (east, south)
    }
    assert plain <= plies
    assert level > south > east


def test_same_view_again():
    assert picture(CASES["mitre"], "x", plies=7) == picture(CASES["mitre"], "x", plies=7)


def test_line_writers_leave_faces_out():
    layer = Layer("PICTURE_FACES", "faces", 0.13, "continuous", False)
    face = Face(Loop(((0, 0, 0), (10, 0, 0), (0, 10, 0))), 0.5)
    line = Segment(0, 0, 100, 0)
    with_face, without = (
        View("p", "", tuple((layer.name, shape) for shape in shapes), (layer,))
        for shapes in ((line, face), (line,))
    )
    assert dxf_text(with_face, "mm") == dxf_text(without, "mm")


@pytest.mark.parametrize(
    ("grey", "cut", "says"),
    [(1.2, False, "its grey is 1.2; it must lie between 0"), (0.5, True, "a cut layer holds")],
)
def test_unsound_faces_are_told(grey, cut, says):
    layer = Layer("PICTURE_FACES", "faces", 0.13, "continuous", cut)
    face = Face(Loop(((0, 0, 0), (10, 0, 0), (0, 10, 0))), grey)
    (fault,) = audit_view(View("p", "", ((layer.name, face),), (layer,)))
    assert says in fault
