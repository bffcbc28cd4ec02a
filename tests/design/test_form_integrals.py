"""Surface and removed wood of every form: textbook solids, closed form against quadrature, and wrong ways shut out."""

from __future__ import annotations

import math
import time

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.ellipse import Ellipse
from edgewright.design.form_integrals import form_area, form_volume
from edgewright.design.form_twins import form_area_twin, form_volume_twin
from edgewright.design.forms import Form, bevel, chamfer, cove, ogee, round_over
from edgewright.design.levels import area_at, perimeter_at, rectangle_levels
from edgewright.design.metrics import edge_metrics
from edgewright.design.outline import Arc, Line, Outline
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.wavefront import region_levels


def disc(radius):
    return rectangle_levels(2 * radius, 2 * radius, (radius,) * 4)


# ---- solids of revolution -------------------------------------------------------------------------------


@pytest.mark.reference
def test_chamfered_disc_is_a_frustum_of_a_cone():
    """Frustum: lateral surface π(R1 + R2)s, volume πh(R1² + R1R2 + R2²)/3."""
    radius, a, h = 400.0, 6.0, 9.0
    form = bevel(a, h)
    slant = math.hypot(a, h)
    small = radius - a
    assert form_area(disc(radius), form) == pytest.approx(math.pi * (radius + small) * slant, rel=1e-13)
    frustum = math.pi * h / 3 * (radius**2 + radius * small + small**2)
    assert form_volume(disc(radius), form) == pytest.approx(math.pi * radius**2 * h - frustum, rel=1e-10)


@pytest.mark.reference
@pytest.mark.parametrize(("radius", "r"), [(400, 12), (30, 6.35), (12, 12)])
def test_coved_disc_obeys_both_theorems_of_pappus(radius, r):
    """Pappus-Guldinus; textbook centroids: quarter arc 2r/π, quarter disc 4r/(3π) from its centre, here the arris."""
    arc, area = math.pi * r / 2, math.pi * r * r / 4
    levels = disc(radius)
    assert form_area(levels, cove(r)) == pytest.approx(
        arc * 2 * math.pi * (radius - 2 * r / math.pi), rel=1e-13
    )
    assert form_volume(levels, cove(r)) == pytest.approx(
        area * 2 * math.pi * (radius - 4 * r / (3 * math.pi)), rel=1e-12
    )


@pytest.mark.reference
def test_ogee_on_a_disc_by_pappus_part_by_part():
    radius, r, s = 300.0, 4.0, 1.5
    reach = 2 * r + s
    quarter, centroid = math.pi * r / 2, 2 * r / math.pi
    # distances of each part's centroid from the axis: step down, round, hollow, step out
    parts = [
        (s, radius - reach),
        (quarter, radius - reach + centroid),
        (quarter, radius - s - centroid),
        (s, radius - s / 2),
    ]
    surface = sum(length * 2 * math.pi * x for length, x in parts)
    assert form_area(disc(radius), ogee(r, s)) == pytest.approx(surface, rel=1e-13)
    # what goes: spandrel and quarter disc, and the rectangles above the two arcs and the outer step
    disc_area, square = math.pi * r * r / 4, r * r
    spandrel_moment = square * (radius - reach + r / 2) - disc_area * (radius - reach + 4 * r / (3 * math.pi))
    moment = (
        spandrel_moment
        + r * s * (radius - reach + r / 2)
        + disc_area * (radius - s - 4 * r / (3 * math.pi))
        + r * (r + s) * (radius - s - r / 2)
        + s * reach * (radius - s / 2)
    )
    assert form_volume(disc(radius), ogee(r, s)) == pytest.approx(2 * math.pi * moment, rel=1e-12)


@pytest.mark.reference
def test_quarter_round_swept_on_a_disc_and_the_naive_figure():
    """π²r(R - r) + 2πr²: R 400, r 12 gives 46857.657 mm²; length times perimeter, 47374.101, is 1.1 % too much."""
    levels = disc(400)
    exact = form_area(levels, round_over(12))
    naive = round_over(12).length * perimeter_at(levels, 0)
    assert exact == pytest.approx(46857.657, abs=5e-4)
    assert naive == pytest.approx(47374.101, abs=5e-4)
    assert naive / exact - 1 == pytest.approx(0.011, abs=1e-4)
    assert form_volume(levels, round_over(12)) == pytest.approx(77146.418, abs=5e-4)
    assert form_area(disc(1), round_over(1)) == pytest.approx(2 * math.pi, rel=1e-14)


@pytest.mark.reference
@pytest.mark.parametrize("radii", [(100.0,) * 4, (30.0, 40.0, 200.0, 12.0)])
def test_smooth_outlines_share_one_formula(radii):
    """S = (πr/2)[P - 2π(r - 2r/π)], V = r²(1 - π/4)[P - 2π · 0.2233679 r] while no radius is below r."""
    levels, r = rectangle_levels(1200, 800, radii), 12.0
    p = perimeter_at(levels, 0)
    assert form_area(levels, round_over(r)) == pytest.approx(
        math.pi * r / 2 * (p - 2 * math.pi * (r - 2 * r / math.pi))
    )
    volume = r * r * (1 - math.pi / 4) * (p - 2 * math.pi * 0.2233679 * r)
    assert form_volume(levels, round_over(r)) == pytest.approx(volume, rel=1e-9)


@pytest.mark.reference
def test_published_rectangle_with_corners_of_100():
    """1200 × 800, R 100: P, A, inset by 12, edge 71645.660 mm² and wood 117784.794 mm³."""
    levels = rectangle_levels(1200, 800, (100,) * 4)
    assert perimeter_at(levels, 0) == pytest.approx(3828.318531, abs=1e-5)
    assert area_at(levels, 0) == pytest.approx(951415.926536, abs=1e-5)
    assert perimeter_at(levels, 12) == pytest.approx(3752.920307, abs=1e-5)
    assert area_at(levels, 12) == pytest.approx(905928.493509, abs=1e-5)
    assert form_area(levels, round_over(12)) == pytest.approx(71645.660, abs=5e-4)
    assert form_volume(levels, round_over(12)) == pytest.approx(117784.794, abs=5e-4)


@pytest.mark.reference
def test_pyramid_of_a_square_and_its_sharp_corners():
    """A chamfer that meets in the middle of a square is a pyramid: surface and volume of school books."""
    levels = rectangle_levels(20, 20, (0,) * 4)
    form = bevel(10, 6)
    assert form_area(levels, form) == pytest.approx(4 * 20 * math.hypot(10, 6) / 2, rel=1e-14)
    assert 400 * 6 - form_volume(levels, form) == pytest.approx(400 * 6 / 3, rel=1e-13)


@pytest.mark.reference
def test_ellipse_obeys_the_formula_of_smooth_outlines():
    """600 × 400: P 3173.087918, A 753982.236862, radius of curvature at least 266.667; inset by 12 3097.689694."""
    levels, p = Ellipse(1200.0, 800.0).levels(20.0), 3173.087918
    assert perimeter_at(levels, 12) == pytest.approx(3097.689694, abs=1e-5)
    for r in (6.35, 12.0):
        surface = math.pi * r / 2 * (p - 2 * math.pi * (r - 2 * r / math.pi))
        volume = r * r * (1 - math.pi / 4) * p - 2 * math.pi * r**3 * (5 / 6 - math.pi / 4)
        assert form_area(levels, round_over(r)) == pytest.approx(surface, rel=1e-9)
        assert form_volume(levels, round_over(r)) == pytest.approx(volume, rel=1e-9)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(st.floats(0.1, 0.6), st.floats(1, 12))
def test_pieces_that_are_no_polynomial_hold_their_twin(bulge, r):
    """A lens of two arcs: its corners run inward along a curve; the inset lens is a lens again."""
    chord, sweep = 400.0, 4 * math.atan(bulge)
    radius = chord / (2 * math.sin(sweep / 2))
    off = radius * math.cos(sweep / 2)
    lens = Outline(
        (
            Arc((0.0, 0.0), (chord, 0.0), (chord / 2, off), radius, sweep),
            Arc((chord, 0.0), (0.0, 0.0), (chord / 2, -off), radius, sweep),
        )
    )
    (levels,) = region_levels(Region(lens), 12.0)

    def perimeter(d):
        return 4 * (radius - d) * math.acos(off / (radius - d))

    assert perimeter_at(levels, r) == pytest.approx(perimeter(r), rel=1e-10)
    for form in (round_over(r), ogee(r / 2.5, r / 5), bevel(r, 4.0)):
        area, volume = form_area_twin(levels, form), form_volume_twin(levels, form)
        assert form_area(levels, form) == pytest.approx(area.value, rel=1e-9)
        assert form_volume(levels, form) == pytest.approx(volume.value, rel=1e-9)
    # 64 points of Gauss on the bare formula
    nodes, weights = np.polynomial.legendre.leggauss(64)
    angles = (nodes + 1) * math.pi / 4
    surface = sum(
        w * math.pi / 4 * r * perimeter(r * (1 - math.cos(t))) for t, w in zip(angles, weights, strict=True)
    )
    assert form_area(levels, round_over(r)) == pytest.approx(surface, rel=1e-9)


# ---- closed form against quadrature ---------------------------------------------------------------------


SIZE = st.floats(0.5, 20)
FORMS = st.one_of(
    st.builds(round_over, SIZE),
    st.builds(chamfer, SIZE),
    st.builds(bevel, SIZE, SIZE),
    st.builds(cove, SIZE),
    st.builds(ogee, st.floats(0.5, 9), st.floats(0, 2)),
)
RADII = st.tuples(*[st.one_of(st.just(0.0), st.floats(0.5, 60))] * 4)


def any_form(rises, runs, bends):
    """Chain of lines and of round and hollow arcs that are no quarter circles."""
    x, y = sum(runs), 0.0
    parts = []
    for rise, run, bend in zip(rises, runs, bends, strict=True):
        start, end = (x, y), (x - run, y + rise)
        chord, slope = math.hypot(run, rise), math.atan2(rise, run)
        # an arc stays within its box as long as neither end turns past level or upright
        sweep = bend * 2 * min(slope, math.pi / 2 - slope)
        if abs(sweep) < 1e-3:
            parts.append(Line(start, end))
        else:
            radius = chord / (2 * math.sin(abs(sweep) / 2))
            off = math.copysign(radius * math.cos(sweep / 2), sweep)
            ux, uy = (end[0] - start[0]) / chord, (end[1] - start[1]) / chord
            centre = ((start[0] + end[0]) / 2 - off * uy, (start[1] + end[1]) / 2 + off * ux)
            parts.append(Arc(start, end, centre, radius, sweep))
        x, y = end
    return Form("own", tuple(parts))


THREE = st.lists(st.floats(0.3, 6), min_size=3, max_size=3)
OWN = st.builds(any_form, THREE, THREE, st.lists(st.floats(-0.95, 0.95), min_size=3, max_size=3))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=120)
@given(st.one_of(FORMS, OWN), RADII)
def test_closed_form_and_twin_agree_to_nine_digits(form, radii):
    levels = rectangle_levels(300, 200, radii)
    area, volume = form_area_twin(levels, form), form_volume_twin(levels, form)
    assert form_area(levels, form) == pytest.approx(area.value, rel=1e-9)
    # a nearly straight arc of large radius costs the closed form some digits
    assert abs(form_area(levels, form) - area.value) <= area.error + 1e-10 * area.value
    assert form_volume(levels, form) == pytest.approx(volume.value, rel=1e-9)
    assert abs(form_volume(levels, form) - volume.value) <= volume.error + 1e-10 * volume.value


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.one_of(FORMS, OWN), RADII)
def test_both_agree_with_bands_cut_from_the_bare_curve(form, radii):
    """4000 chords for each part, frustum by frustum; chords of an arc fall short by 2e-8 at most."""
    levels = rectangle_levels(300, 200, radii)
    surface = volume = 0.0
    for part in form.parts:
        share = np.linspace(0, 1, 4001)
        if isinstance(part, Arc):
            angle = part.start_angle + part.sweep * share
            d, z = part.centre[0] + part.radius * np.cos(angle), part.centre[1] + part.radius * np.sin(angle)
        else:
            d = part.start[0] + (part.end[0] - part.start[0]) * share
            z = part.start[1] + (part.end[1] - part.start[1]) * share
        d = np.clip(d, 0, None)
        ends = np.array([perimeter_at(levels, float(x)) for x in d])
        middle = (ends[1:] + ends[:-1]) / 2
        surface += float(np.sum(middle * np.hypot(np.diff(d), np.diff(z))))
        volume += float(np.sum(middle * (z[1:] + z[:-1]) / 2 * -np.diff(d)))
    # a corner that dies within a band adds at most one band's kink
    assert form_area(levels, form) == pytest.approx(surface, rel=2e-6)
    assert form_volume(levels, form) == pytest.approx(volume, rel=2e-6)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(SIZE, SIZE, RADII)
def test_a_deep_and_a_shallow_bevel_take_wood_in_their_ratio(inset, depth, radii):
    levels = rectangle_levels(300, 200, radii)
    one, two = form_volume(levels, bevel(inset, depth)), form_volume(levels, bevel(inset, 2 * depth))
    assert two == pytest.approx(2 * one, rel=1e-12)


@pytest.mark.example
def test_metrics_report_both_and_stay_quick():
    levels = rectangle_levels(1828.8, 914.4, (2.0, 4.0, 5.0, 6.0))
    profile = EdgeProfile(36.5125, ogee(4, 1), ogee(3, 1))
    metrics = edge_metrics(levels, profile)
    assert abs(metrics.edge_mm2 - metrics.edge_twin_mm2) <= metrics.edge_twin_error_mm2
    assert metrics.edge_twin_error_mm2 < 1e-9 * metrics.edge_mm2
    assert (
        abs(metrics.solid_volume_mm3 - metrics.solid_volume_twin_mm3) <= metrics.solid_volume_twin_error_mm3
    )
    assert metrics.solid_volume_twin_error_mm3 < 1e-9 * metrics.solid_volume_mm3
    best = math.inf
    for _ in range(5):
        before = time.perf_counter()
        edge_metrics(levels, profile)
        best = min(best, time.perf_counter() - before)
    # 5 ms on a bench computer; twenty times that on a loaded one
    assert best < 0.1
