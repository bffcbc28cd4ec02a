"""Wood of a shaped top and its centre, worked by hand and against rays."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import design

ROUND_5 = 'build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5\n'
SECTION = 25 * (1 - math.pi / 4)


@pytest.mark.example
def test_a_plain_board() -> None:
    mass = design().mass
    assert mass.ring is None
    assert mass.whole == mass.top
    assert mass.top.volume == pytest.approx(1000 * 600 * 20, rel=1e-12)
    assert mass.top.centre == pytest.approx((500, 300, 10))


@pytest.mark.example
def test_a_hole_moves_the_centre_away_from_it() -> None:
    """12 000 000 mm³ less π 100² · 20 at x = 750, y = 150."""
    mass = design(more='[[cut_out]]\nkind = "round"\nx = 750\ny = 150\ndiameter = 200\n').mass
    gone = math.pi * 100**2 * 20
    left = 12e6 - gone
    assert mass.top.volume == pytest.approx(left, rel=1e-12)
    assert mass.top.centre[0] == pytest.approx((12e6 * 500 - gone * 750) / left)
    assert mass.top.centre[1] == pytest.approx((12e6 * 300 - gone * 150) / left)


@pytest.mark.example
def test_both_arrises_of_the_rim_but_only_the_upper_one_of_a_cut_out_are_routed() -> None:
    """Rim: 2 (section · 3200 - 8 r³ (5/6 - π/4)); hole of 200: section · 200 π + 2π r³ (5/6 - π/4), once."""
    loss = 125 * (5 / 6 - math.pi / 4)
    rim = 2 * (SECTION * 3200 - 8 * loss)
    hole = '[[cut_out]]\nkind = "round"\nx = 500\ny = 300\ndiameter = 200\nrouted = true\n'
    bare, cut = design(edge=ROUND_5).mass, design(edge=ROUND_5, more=hole).mass
    assert bare.top.volume == pytest.approx(12e6 - rim, rel=1e-11)
    gap = math.pi * 100**2 * 20 + SECTION * 200 * math.pi + 2 * math.pi * loss
    assert bare.top.volume - cut.top.volume == pytest.approx(gap, rel=1e-8)
    assert bare.top.centre == pytest.approx((500, 300, 10))
    # the hole is wider above, so the wood's centre lies deeper than half way
    assert cut.top.centre[2] > 10 + 1e-4


@pytest.mark.example
def test_a_square_ring_under_a_board() -> None:
    """Strips of 60 all round: (1000 · 600 - 880 · 480) · 20 mm³, its centre 30 mm deep."""
    found = design(edge='build_up = "flat"\nstrip_width = 60\ntop_round_over = 0\nbottom_round_over = 0')
    mass = found.mass
    ring = (1000 * 600 - 880 * 480) * 20
    assert mass.ring is not None
    assert mass.ring.volume == pytest.approx(ring, rel=1e-9)
    assert mass.ring.centre == pytest.approx((500, 300, 30), abs=1e-6)
    assert mass.whole.volume == pytest.approx(12e6 + ring, rel=1e-9)
    assert mass.whole.centre[2] == pytest.approx((12e6 * 10 + ring * 30) / (12e6 + ring))
    assert found.glue_face_mm2 == pytest.approx(ring / 20)


@pytest.mark.example
def test_the_profile_takes_wood_off_the_ring_too() -> None:
    """The lower round-over of 5 lies in the ring: section · 3200 - 8 r³ (5/6 - π/4) less."""
    edge = 'build_up = "flat"\nstrip_width = 60\ntop_round_over = 0\nbottom_round_over = {}'
    square, routed = (design(edge=edge.format(radius)).mass for radius in (0, 5))
    assert square.ring is not None
    assert routed.ring is not None
    gone = SECTION * 3200 - 8 * 125 * (5 / 6 - math.pi / 4)
    assert square.ring.volume - routed.ring.volume == pytest.approx(gone, rel=1e-6)
    assert routed.top.volume == pytest.approx(square.top.volume, rel=1e-12)


@pytest.mark.example
def test_a_skirt_hangs_from_the_underside() -> None:
    """Boards on edge 20 mm thick under the rim: 2 · 1000 + 2 · 560 long, 60 deep, from 20 to 80 mm below the face."""
    edge = 'build_up = "skirt_under"\nskirt_drop = 60\ntop_round_over = 0\nbottom_round_over = 0'
    mass = design(edge=edge).mass
    assert mass.ring is not None
    assert mass.ring.volume == pytest.approx((1000 * 600 - 960 * 560) * 60, rel=1e-9)
    assert mass.ring.centre == pytest.approx((500, 300, 50), abs=1e-6)
