"""Published numbers, and numbers computed by hand, that the edge metrics must give."""

from __future__ import annotations

import math

import pytest

from edgewright.design.form_integrals import form_area, form_volume
from edgewright.design.forms import round_over
from edgewright.design.levels import area_at, perimeter_at, rectangle_levels
from edgewright.design.metrics import edge_metrics, underside_band
from edgewright.design.profile import EdgeProfile

INCH = 25.4


def disc(radius):
    """A disc is the square around it with all its corner radii at their largest."""
    return rectangle_levels(2 * radius, 2 * radius, (radius,) * 4)


# ---- Pappus-Guldinus ------------------------------------------------------------------------------------


@pytest.mark.reference
@pytest.mark.parametrize(("radius", "r"), [(400, 12), (400, 400), (30, 6.35)])
def test_round_over_of_a_disc_obeys_both_theorems_of_pappus(radius, r):
    """Kern & Bland, Solid Mensuration; textbook centroids: quarter arc 2r/π, quarter disc 4r/(3π)."""
    levels = disc(radius)
    arc, arc_centroid = math.pi * r / 2, radius - r + 2 * r / math.pi
    # the spandrel is the r × r square, centroid r/2 from its inner side, less the quarter disc
    square, quarter = r * r, math.pi * r * r / 4
    moment = square * (radius - r / 2) - quarter * (radius - r + 4 * r / (3 * math.pi))

    assert form_area(levels, round_over(r)) == pytest.approx(arc * 2 * math.pi * arc_centroid, rel=1e-13)
    assert form_volume(levels, round_over(r)) == pytest.approx(2 * math.pi * moment, rel=1e-12)


@pytest.mark.reference
def test_torus_of_radii_2_and_1():
    """Larson & Edwards, Calculus, section 7.6, example 7: volume 4π², about 39.4784 (39.5 in print).

    A disc of radius 3, 2 thick and rounded over by 1 on both sides, is a core cylinder of radius 2 and the
    outer half of that torus. The outer half exceeds the inner one by two balls of radius 1 (their half
    discs' centroids lie 4/(3π) outside and inside the circle of radius 2).
    """
    outer = edge_metrics(disc(3), EdgeProfile.round_overs(2, 1, 1)).solid_volume_mm3 - 2 * math.pi * 2**2
    ball = 4 / 3 * math.pi

    assert 2 * outer - 2 * ball == pytest.approx(39.4784, abs=5e-5)
    assert 2 * outer - 2 * ball == pytest.approx(4 * math.pi**2, rel=1e-13)


@pytest.mark.reference
def test_disc_rounded_over_by_its_own_radius_is_a_ball():
    """Archimedes: surface 4πr², volume 4πr³/3."""
    ball = edge_metrics(disc(1), EdgeProfile.round_overs(2, 1, 1))

    assert ball.top_round_over_mm2 == pytest.approx(2 * math.pi, rel=1e-13)
    assert ball.edge_mm2 == pytest.approx(4 * math.pi, rel=1e-13)
    assert ball.solid_volume_mm3 == pytest.approx(4 / 3 * math.pi, rel=1e-13)
    assert ball.flat_top_mm2 == pytest.approx(0, abs=1e-14)


# ---- Steiner --------------------------------------------------------------------------------------------


@pytest.mark.reference
@pytest.mark.parametrize("d", [0, 1, 12, 60])
def test_smooth_inner_parallel_obeys_steiner(d):
    """Steiner's formula, lecture notes on integral geometry: P - 2πd and A - Pd + πd² for radii >= d."""
    levels = rectangle_levels(1200, 800, (60, 75, 100, 390))
    perimeter, area = perimeter_at(levels, 0), area_at(levels, 0)

    assert perimeter_at(levels, d) == pytest.approx(perimeter - 2 * math.pi * d, rel=1e-14)
    assert area_at(levels, d) == pytest.approx(area - perimeter * d + math.pi * d * d, rel=1e-14)


@pytest.mark.reference
def test_steiner_does_not_hold_beyond_the_smallest_radius():
    levels = rectangle_levels(1200, 800, (10, 10, 10, 10))

    # four sharp corners shrink by 8 per mm instead of 2π
    assert perimeter_at(levels, 12) == pytest.approx(3904, rel=1e-14)
    assert perimeter_at(levels, 12) < perimeter_at(levels, 0) - 2 * math.pi * 12 - 3


# ---- computed, no published source ----------------------------------------------------------------------


@pytest.mark.reference
@pytest.mark.parametrize(
    ("thickness", "top", "bottom", "length"), [(38, 12, 12, 51.69911), (36, 12, 3, 44.56194)]
)
def test_profile_lengths(thickness, top, bottom, length):
    """Computed."""
    assert EdgeProfile.round_overs(thickness, top, bottom).length == pytest.approx(length, abs=1e-5)


@pytest.mark.reference
def test_disc_of_400_rounded_over_by_12():
    """Computed, and by quadrature; arc times circumference would give 47374.101 mm², 1.1 % too much."""
    assert form_area(disc(400), round_over(12)) == pytest.approx(46857.657, abs=5e-4)
    assert form_volume(disc(400), round_over(12)) == pytest.approx(77146.418, abs=5e-4)


@pytest.mark.reference
def test_sharp_rectangle_inset():
    """Computed: 1200 × 800 sharp, inset 12."""
    levels = rectangle_levels(1200, 800, (0, 0, 0, 0))

    assert perimeter_at(levels, 12) == 3904
    assert area_at(levels, 12) == 912576


@pytest.mark.reference
def test_rounded_rectangle_inset_and_round_over():
    """Computed in two ways: 1200 × 800 with corners of 100, inset and rounded over by 12."""
    levels = rectangle_levels(1200, 800, (100, 100, 100, 100))

    assert perimeter_at(levels, 0) == pytest.approx(3828.318531, abs=1e-5)
    assert area_at(levels, 0) == pytest.approx(951415.926536, abs=1e-5)
    assert perimeter_at(levels, 12) == pytest.approx(3752.920307, abs=1e-5)
    assert area_at(levels, 12) == pytest.approx(905928.493509, abs=1e-5)
    assert form_area(levels, round_over(12)) == pytest.approx(71645.660, abs=5e-4)
    assert form_volume(levels, round_over(12)) == pytest.approx(117784.794, abs=5e-4)


# ---- a 72 × 36 in table, 1-7/16 in thick: computed by hand, common practice, no source ------------------


def table(corner, r):
    levels = rectangle_levels(72 * INCH, 36 * INCH, (corner * INCH,) * 4)
    return levels, edge_metrics(levels, EdgeProfile.round_overs(1.4375 * INCH, r * INCH, r * INCH))


@pytest.mark.reference
@pytest.mark.parametrize(
    ("corner", "r", "profile_length", "edge"),
    [
        (2, 1 / 4, 1.7229, 365.78),
        (2, 3 / 8, 1.8656, 395.55),
        (2, 1 / 2, 2.0083, 425.10),
        (0, 3 / 8, 1.8656, 401.68),
    ],
)
def test_table_edge_in_square_inches(corner, r, profile_length, edge):
    """Computed by hand, common practice, no source."""
    _, found = table(corner, r)

    assert found.profile_length_mm / INCH == pytest.approx(profile_length, abs=5.1e-5)
    assert found.edge_mm2 / INCH**2 == pytest.approx(edge, abs=5.1e-3)


@pytest.mark.reference
def test_table_outline_and_flat_top_in_inches():
    """Computed by hand, common practice, no source."""
    levels, found = table(2, 3 / 8)

    assert found.perimeter_mm / INCH == pytest.approx(212.566, abs=5e-4)
    assert found.top_face_outline_area_mm2 / INCH**2 == pytest.approx(2588.57, abs=5e-3)
    assert found.flat_top_mm2 / INCH**2 == pytest.approx(2509.30, abs=5e-3)
    # drips curl 3/8 in under: (212.566 - 2π·3/8)·3/8 - π(3/8)² = 78.387
    assert underside_band(levels, 3 / 8 * INCH, 3 / 8 * INCH) / INCH**2 == pytest.approx(78.387, abs=1e-3)
