"""The moving edge itself: its corners, the lengths between them, and the loop they make."""

from __future__ import annotations

import math

import pytest
from region_cases import LENS, circle, polygon

from edgewright.design.front import first_front
from edgewright.design.outline import Arc, Line, Outline, rectangle


def front(outline, still=()):
    return first_front(outline, [number not in still for number in range(len(outline.segments))])


@pytest.mark.example
def test_kinds_of_corners():
    top = polygon((0, 0), (300, 0), (300, 100), (100, 100), (100, 300), (0, 300))
    found = front(top)

    # an arc of no radius opens at the inside corner (100, 100), smooth on both sides
    assert [corner.kind for corner in found.corners] == ["straight"] * 2 + ["smooth"] * 2 + ["straight"] * 3
    (hollow,) = [one for one in found.live if one.segment is None]
    assert (hollow.point, hollow.turn) == ((100, 100), pytest.approx(-math.pi / 2))
    assert {corner.kind for corner in front(LENS.outer).corners} == {"curved"}
    assert {corner.kind for corner in front(rectangle(90, 60, (5,) * 4)).corners} == {"smooth"}
    # beside a smooth neighbour that stays, and at an inside corner to one, the routed edge ends square
    assert [corner.kind for corner in front(rectangle(90, 60, (5,) * 4), {0}).corners].count("square") == 2
    assert [corner.kind for corner in front(top, {2}).corners].count("square") == 1


@pytest.mark.example
def test_corner_of_two_lines_runs_along_the_middle():
    triangle = polygon((0, 0), (400, 0), (0, 300))
    found = front(triangle)

    # inradius 100: all corners run towards (100, 100) and meet there
    for number in range(3):
        assert found.corner_at(number, 100)[0] == pytest.approx((100, 100))
        assert found.length(number, 100) == pytest.approx(0, abs=1e-9)
    assert found.perimeter(50) == pytest.approx(600)
    assert found.outline(50).area == pytest.approx(15000)
    assert found.outline(100) is None
    assert found.length(0, 150) < 0


@pytest.mark.example
def test_the_nearer_crossing_is_not_always_the_corner():
    # line and hollow arc whose two crossings lie close together: the corner is where the way turns left
    for sagitta in (1e-4, 1e-2, 1.0):
        half = 100.0
        radius = (half * half + sagitta * sagitta) / (2 * sagitta)
        sweep = 2 * math.asin(half / radius)
        arc = Arc((half, 200.0), (-half, 200.0), (0.0, 200 - sagitta + radius), radius, -sweep)
        top = Outline(
            (Line((-half, 200), (-half, 0)), Line((-half, 0), (half, 0)), Line((half, 0), (half, 200)), arc)
        )
        d = 30.0
        end = front(top).corner_at(3, d)[0]
        # circle of radius R + d, cut by x = -half + d below its centre
        y = arc.centre[1] - math.sqrt((radius + d) ** 2 - (half - d) ** 2)
        assert end == pytest.approx((-half + d, y), abs=1e-9 * radius / half + 1e-9)


@pytest.mark.example
def test_tiny_circle_beside_a_huge_one():
    # the arc about an inside corner is 1e-6 of a millimetre, its neighbour 2 km: no digit of the crossing is lost
    outer = Outline(
        (
            Line((0.0, 0.0), (500.0, 0.0)),
            Line((500.0, 0.0), (500.0, 400.0)),
            Line((500.0, 400.0), (250.0, 300.0)),
            Line((250.0, 300.0), (0.0, 400.0)),
            Line((0.0, 400.0), (0.0, 0.0)),
        )
    )
    found = front(outer)
    arc = next(number for number, one in enumerate(found.live) if one.segment is None)
    for d in (1e-6, 1e-3, 1.0):
        start, end = found.ends(arc, d)
        assert math.dist(start, (250, 300)) == pytest.approx(d, rel=1e-6)
        assert math.dist(end, (250, 300)) == pytest.approx(d, rel=1e-6)
        assert found.length(arc, d) == pytest.approx(2 * d * math.atan(0.4), rel=1e-9)


@pytest.mark.example
def test_a_hole_grows():
    found = front(circle(0, 0, 50))
    assert found.perimeter(10) == pytest.approx(120 * math.pi)
    assert found.outline(10).area == pytest.approx(-math.pi * 3600)
    assert found.is_linear
    assert not front(LENS.outer).is_linear


@pytest.mark.example
def test_only_what_is_routed_counts_as_length():
    found = front(rectangle(90, 60), {1})

    assert found.perimeter(5) == pytest.approx(2 * 85 + 50)
    assert found.outline(5).area == pytest.approx(85 * 50)
    # a routed side between smooth arcs that stay ends on its normals: four more lines, no more length
    rounded_top = front(rectangle(90, 60, (10,) * 4), {1, 3, 5, 7})
    assert rounded_top.perimeter(5) == pytest.approx(2 * (70 + 40))
    assert rounded_top.outline(5).area == pytest.approx(90 * 60 - (4 - math.pi) * 100 - 5 * 220)
