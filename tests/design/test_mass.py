"""Volume and centre of mass, against closed forms of solids of revolution and of boxes."""

from __future__ import annotations

import math

import pytest

from edgewright.design.forms import bevel, no_form, round_over
from edgewright.design.mass import Body, joined, prism, profile_inset, slice_body
from edgewright.design.outline import Arc, Outline, rectangle
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError


def disc(radius: float, centre: tuple[float, float] = (0.0, 0.0)) -> Outline:
    x, y = centre
    east, west = (x + radius, y), (x - radius, y)
    return Outline((Arc(east, west, centre, radius, math.pi), Arc(west, east, centre, radius, math.pi)))


@pytest.mark.reference
def test_a_disc_with_a_full_round_over_is_half_a_ball() -> None:
    # Archimedes, On the Sphere and Cylinder I.34: 2/3 π r³; the centre lies 3/8 r from the flat (from memory)
    profile = EdgeProfile(100.0, round_over(100.0), no_form())
    body = slice_body(lambda d: [disc(100.0 - d)] if d < 100 else [], profile, 0.0, 100.0)
    assert body.volume == pytest.approx(2 / 3 * math.pi * 100**3, rel=1e-7)
    assert 100 - body.centre[2] == pytest.approx(100 * 3 / 8, rel=1e-6)


@pytest.mark.reference
def test_a_bevelled_disc_is_a_frustum() -> None:
    # frustum of a cone, textbook: V = π h (R² + R r + r²)/3
    profile = EdgeProfile(30.0, bevel(20.0, 30.0), no_form())
    body = slice_body(lambda d: [disc(100.0 - d, (7.0, -3.0))], profile, 0.0, 30.0)
    assert body.volume == pytest.approx(math.pi * 30 * (100**2 + 100 * 80 + 80**2) / 3, rel=1e-12)
    assert body.centre[:2] == pytest.approx((7.0, -3.0))
    h, big, small = 30.0, 100.0, 80.0
    up = h * (big**2 + 2 * big * small + 3 * small**2) / (4 * (big**2 + big * small + small**2))
    assert 30 - body.centre[2] == pytest.approx(up, rel=1e-12)


@pytest.mark.example
def test_slices_add_up_to_the_whole() -> None:
    profile = EdgeProfile.round_overs(40.0, 9.0, 12.0)

    def loops(d: float) -> list[Outline]:
        return [rectangle(800 - 2 * d, 500 - 2 * d, origin=(d, d))]

    whole = slice_body(loops, profile, 0.0, 40.0)
    parts = [slice_body(loops, profile, a, b) for a, b in ((0.0, 5.0), (5.0, 20.0), (20.0, 40.0))]
    again = joined(parts)
    assert again.volume == pytest.approx(whole.volume, rel=1e-8)
    assert again.centre == pytest.approx(whole.centre, rel=1e-8)


@pytest.mark.example
def test_masses_pull_the_centre() -> None:
    light, heavy = Body(10.0, (0.0, 0.0, 0.0)), Body(10.0, (8.0, 4.0, 2.0))
    assert joined([light, heavy], [1.0, 3.0]) == Body(40.0, (6.0, 3.0, 1.5))
    with pytest.raises(GeometryError, match="0 mm³"):
        joined([])


@pytest.mark.example
def test_a_cut_out_moves_the_centre() -> None:
    hole = Outline(
        tuple(
            Arc(s.end, s.start, s.centre, s.radius, -s.sweep)
            for s in reversed(disc(50.0, (300.0, 100.0)).segments)
            if isinstance(s, Arc)
        )
    )
    body = prism([rectangle(400, 200), hole], 0.0, 10.0)
    area, off = 80000.0, math.pi * 2500
    assert body.centre[0] == pytest.approx((area * 200 - off * 300) / (area - off))
    assert body.volume == pytest.approx((area - off) * 10)


@pytest.mark.example
def test_the_profile_at_a_depth_and_depths_out_of_order() -> None:
    profile = EdgeProfile.round_overs(40.0, 10.0, 5.0)
    assert profile_inset(profile, 0.0) == pytest.approx(10.0)
    assert profile_inset(profile, 20.0) == 0.0
    assert profile_inset(profile, 40.0) == pytest.approx(5.0)
    with pytest.raises(GeometryError, match="must lie within the edge of 40 mm"):
        slice_body(lambda d: [disc(100.0 - d)], profile, 10.0, 5.0)
