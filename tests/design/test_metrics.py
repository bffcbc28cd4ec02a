"""Edge metrics against two quadratures of the raw outline, which share no code or formula with the levels.

By section: at each depth every point of the straight sides is moved inward and kept only if no neighbouring
corner or side is nearer; the ends of what is kept are found by bisection on distances. Length and area of the
section follow, then Gauss-Legendre over the quarter circle.

By patch: the surface and the removed wood are integrated across the plan instead, side by side and corner by
corner: at each place along a side, how far the round-over reaches before the mitre cuts it off; at each
corner, a piece of torus from the cross product of its tangents.
"""

from __future__ import annotations

import math
from dataclasses import fields
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.levels import area_at, rectangle_levels
from edgewright.design.metrics import edge_metrics, underside_band
from edgewright.design.profile import EdgeProfile
from edgewright.errors import GeometryError

NODES, WEIGHTS = np.polynomial.legendre.leggauss(24)
TIGHT = 1e-9


def gauss(low: float, high: float) -> tuple[np.ndarray, np.ndarray]:
    """Nodes and weights on low..high."""
    half = (high - low) / 2
    return low + half * (NODES + 1), half * WEIGHTS


# ---- by section -----------------------------------------------------------------------------------------


def neighbour_distance(x: np.ndarray, y: np.ndarray, corner: float, height: float, far: float) -> np.ndarray:
    """Distance from (x, y), moved in from the side y = 0, to the corner arc and the side x = 0 beyond."""
    side = np.hypot(x, y - np.clip(y, corner, height - far))
    if corner == 0:
        return side
    from_centre = np.hypot(x - corner, y - corner)
    on_arc = np.abs(corner - from_centre)
    at_ends = np.minimum(np.hypot(x - corner, y), np.hypot(x, y - corner))
    facing = (x <= corner) & (y <= corner)
    return np.minimum(side, np.where(facing, on_arc, at_ends))


def kept_from(
    d: np.ndarray, corner: float, length: float, other: float, height: float, far: float
) -> np.ndarray:
    """Where along a side (from the corner at 0) its points moved in by d start to be nearest to it."""
    slack = 8 * np.finfo(float).eps * corner  # rounding where the arc meets the side
    low, high = np.full_like(d, corner), np.full_like(d, length - other)
    fine = neighbour_distance(low, d, corner, height, far) >= d - slack
    for _ in range(60):
        middle = (low + high) / 2
        inside = neighbour_distance(middle, d, corner, height, far) >= d - slack
        low, high = np.where(inside, low, middle), np.where(inside, middle, high)
    return np.where(fine, corner, high)


def section(
    length: float, width: float, radii: tuple[float, ...], d: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Length and area of the section at insets d, by walking what is left of the moved outline."""
    perimeter, area = np.zeros_like(d), np.zeros_like(d)
    sides = [(length, width), (width, length), (length, width), (width, length)]
    for at, (along, across) in enumerate(sides):
        corner, other, beyond, before = (radii[(at + step) % 4] for step in range(4))
        begin = kept_from(d, corner, along, other, across, before)
        end = along - kept_from(d, other, along, corner, across, beyond)
        assert np.all(end >= begin - 1e-9)
        perimeter += end - begin
        area += (end - begin) * (across / 2 - d) / 2  # triangle to the middle of the rectangle
        if corner:
            # middle of the arc moved in: kept only if the two sides are not nearer
            place = corner - (corner - d) * math.sqrt(0.5)
            kept = place >= d - 1e-12 * corner
            rho = np.where(kept, corner - d, 0.0)
            perimeter += rho * math.pi / 2
            turn, weight = gauss(math.pi, 1.5 * math.pi)
            for angle, share in zip(turn, weight, strict=True):
                # (x dy - y dx)/2 about the middle of the rectangle
                x = corner - along / 2 + rho * math.cos(angle)
                y = corner - across / 2 + rho * math.sin(angle)
                area += share * (x * rho * math.cos(angle) + y * rho * math.sin(angle)) / 2
    return perimeter, area


def by_section(length, width, radii, r):
    """Surface and removed volume of one round-over, from sections at each depth."""
    if r == 0:
        return 0.0, 0.0
    _, (whole,) = section(length, width, radii, np.zeros(1))
    bends = sorted({0.0, math.pi / 2, *(math.acos(1 - radius / r) for radius in radii if 0 < radius < r)})
    surface = removed = 0.0
    for low, high in pairwise(bends):
        phi, weight = gauss(low, high)
        perimeter, area = section(length, width, radii, r * (1 - np.cos(phi)))
        surface += float(np.sum(weight * perimeter * r))
        removed += float(np.sum(weight * (whole - area) * r * np.cos(phi)))
    return surface, removed


# ---- by patch -------------------------------------------------------------------------------------------


def mitred_end(corner: float, r: float) -> tuple[float, float]:
    """Surface and removed wood beside a side, from the arc's end (x = corner) to x = r: reach min(x, r)."""
    if corner >= r:
        return 0.0, 0.0
    surface = removed = 0.0
    root, weight = gauss(math.sqrt(corner), math.sqrt(r))  # x = root² takes the square root out of arccos
    for u, share in zip(root, weight, strict=True):
        reach = u * u
        surface += 2 * u * share * r * math.acos(1 - reach / r)
        removed += 2 * u * share * wood(r, reach)
    return surface, removed


def wood(r: float, reach: float) -> float:
    """Sectional area removed by the round-over from the edge inward as far as ``reach``."""
    v, weight = gauss(0.0, math.sqrt(reach))
    return float(np.sum(weight * 2 * v * (r - v * np.sqrt(2 * r - v * v))))


def torus_corner(corner: float, r: float) -> tuple[float, float]:
    """Surface and removed wood over the quarter disc of a corner arc."""
    reach = min(corner, r)
    if reach == 0:
        return 0.0, 0.0
    theta, theta_weight = gauss(0.0, math.pi / 2)
    phi, phi_weight = gauss(0.0, math.acos(1 - reach / r))
    t, p = np.meshgrid(theta, phi, indexing="ij")
    rho = corner - r + r * np.cos(p)
    along = np.stack([-rho * np.sin(t), rho * np.cos(t), np.zeros_like(t)], axis=-1)
    down = np.stack([-r * np.sin(p) * np.cos(t), -r * np.sin(p) * np.sin(t), r * np.cos(p)], axis=-1)
    element = np.linalg.norm(np.cross(along, down), axis=-1)
    surface = float(theta_weight @ element @ phi_weight)
    v, weight = gauss(0.0, math.sqrt(reach))
    depth = r - v * np.sqrt(2 * r - v * v)
    removed = math.pi / 2 * float(np.sum(weight * 2 * v * depth * (corner - v * v)))
    return surface, removed


def by_patch(length, width, radii, r):
    """Surface and removed volume of one round-over, from patches in plan."""
    if r == 0:
        return 0.0, 0.0
    surface = removed = 0.0
    for at, along in enumerate((length, width, length, width)):
        corner, other = radii[at], radii[(at + 1) % 4]
        full = along - max(corner, r) - max(other, r)
        assert full > -1e-9
        pieces = [mitred_end(corner, r), mitred_end(other, r), torus_corner(corner, r)]
        surface += full * r * math.pi / 2 + sum(piece[0] for piece in pieces)
        removed += full * wood(r, r) + sum(piece[1] for piece in pieces)
    return surface, removed


# ---- the checks -----------------------------------------------------------------------------------------


@st.composite
def edges(draw):
    """A top and a profile; corners sharp, smaller than, equal to or larger than a round-over."""
    length, width = draw(st.floats(100, 3000)), draw(st.floats(100, 1500))
    top, bottom = draw(st.floats(0.5, 40)), draw(st.one_of(st.just(0.0), st.floats(0.5, 40)))
    half = min(length, width) / 2
    corner = st.one_of(
        st.just(0.0),
        st.just(top),
        st.just(bottom),
        st.floats(0.01, 1).map(lambda share: share * top),
        st.floats(max(top, bottom), half),
    )
    radii = draw(st.tuples(corner, corner, corner, corner))
    flat = draw(st.one_of(st.just(0.0), st.floats(0, 40)))
    return length, width, radii, EdgeProfile.round_overs(top + bottom + flat, top, bottom)


def check(length, width, radii, profile, quadrature):
    found = edge_metrics(rectangle_levels(length, width, radii), profile)
    top, removed_top = quadrature(length, width, radii, profile.top_radius)
    bottom, removed_bottom = quadrature(length, width, radii, profile.bottom_radius)

    assert found.top_round_over_mm2 == pytest.approx(top, rel=TIGHT)
    assert found.bottom_round_over_mm2 == pytest.approx(bottom, rel=TIGHT)
    assert found.removed_top_mm3 == pytest.approx(removed_top, rel=TIGHT)
    assert found.removed_bottom_mm3 == pytest.approx(removed_bottom, rel=TIGHT)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=50)
@given(edges())
def test_closed_forms_match_quadrature_by_section(edge):
    check(*edge, by_section)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=80)
@given(edges())
def test_closed_forms_match_quadrature_by_patch(edge):
    check(*edge, by_patch)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(edges())
def test_faces_match_the_sections_at_the_round_overs(edge):
    length, width, radii, profile = edge
    found = edge_metrics(rectangle_levels(length, width, radii), profile)
    perimeter, area = section(
        length, width, radii, np.array([0.0, profile.top_radius, profile.bottom_radius])
    )

    assert found.perimeter_mm == pytest.approx(perimeter[0], rel=TIGHT)
    assert found.top_face_outline_area_mm2 == pytest.approx(area[0], rel=TIGHT)
    assert found.flat_top_mm2 == pytest.approx(area[1], rel=TIGHT, abs=1e-9 * length * width)
    assert found.flat_underside_mm2 == pytest.approx(area[2], rel=TIGHT, abs=1e-9 * length * width)
    assert found.flat_mm2 == pytest.approx(perimeter[0] * profile.flat, rel=TIGHT)


@pytest.mark.example
@pytest.mark.parametrize("quadrature", [by_section, by_patch])
@pytest.mark.parametrize(
    ("length", "width", "radii", "r"),
    [
        (1200, 800, (0, 0, 0, 0), 12),
        (1200, 800, (12, 12, 12, 12), 12),
        (1200, 800, (3, 5, 7, 11), 12),
        (1200, 800, (0, 5, 12, 100), 12),
        (400, 400, (200, 200, 200, 200), 12),  # a disc
        (900, 300, (200, 40, 0, 5), 12),  # one radius longer than half its side
        (100, 60, (4, 9, 14, 0), 30),  # a round-over as far as the ridge
    ],
)
def test_closed_forms_match_quadrature_in_named_cases(length, width, radii, r, quadrature):
    check(length, width, radii, EdgeProfile.round_overs(2 * r, r, r), quadrature)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(edges())
def test_zones_and_volumes_add_up(edge):
    length, width, radii, profile = edge
    levels = rectangle_levels(length, width, radii)
    found = edge_metrics(levels, profile)
    upside_down = EdgeProfile.round_overs(profile.thickness, profile.bottom_radius, profile.top_radius)
    turned = edge_metrics(levels, upside_down)

    zones = found.top_round_over_mm2 + found.flat_mm2 + found.bottom_round_over_mm2
    assert found.edge_mm2 == pytest.approx(zones, rel=1e-14)
    whole = found.top_face_outline_area_mm2 * profile.thickness
    kept = found.solid_volume_mm3 + found.removed_top_mm3 + found.removed_bottom_mm3
    assert kept == pytest.approx(whole, rel=1e-14)
    assert turned.edge_mm2 == pytest.approx(found.edge_mm2, rel=1e-14)
    assert turned.removed_top_mm3 == found.removed_bottom_mm3
    # the straightened edge, profile length times perimeter, is never less than the true one
    assert found.edge_mm2 <= found.profile_length_mm * found.perimeter_mm * (1 + 1e-14)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(edges(), st.floats(0, 1))
def test_underside_band_is_what_lies_between_two_sections(edge, share):
    length, width, radii, profile = edge
    levels = rectangle_levels(length, width, radii)
    width_of_band = share * (min(length, width) / 2 - profile.bottom_radius)
    d = np.array([profile.bottom_radius, profile.bottom_radius + width_of_band])
    _, (outer, inner) = section(length, width, radii, np.minimum(d, min(length, width) / 2))

    band = underside_band(levels, profile.bottom_radius, width_of_band)

    assert band == pytest.approx(outer - inner, abs=1e-10 * length * width)


@pytest.mark.example
def test_a_sharp_edge_loses_nothing():
    levels = rectangle_levels(1200, 800, (0, 20, 30, 40))
    found = edge_metrics(levels, EdgeProfile.round_overs(36, 0, 0))

    assert found.edge_mm2 == pytest.approx(36 * found.perimeter_mm, rel=1e-15)
    assert found.flat_top_mm2 == found.flat_underside_mm2 == area_at(levels, 0)
    assert found.removed_top_mm3 == found.removed_bottom_mm3 == 0
    assert all(math.isfinite(getattr(found, field.name)) for field in fields(found))


@pytest.mark.example
def test_a_round_over_beyond_the_middle_is_refused():
    levels = rectangle_levels(100, 30, (0, 0, 0, 0))

    with pytest.raises(GeometryError, match="inset is 16 mm; it must lie between 0 mm and 15 mm"):
        edge_metrics(levels, EdgeProfile.round_overs(40, 16, 0))
    with pytest.raises(GeometryError, match="inset is 16 mm"):
        underside_band(levels, 6, 10)
    with pytest.raises(GeometryError, match="inner inset is 4 mm"):
        underside_band(levels, 6, -2)
