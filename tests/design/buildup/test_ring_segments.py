"""Blanks of ring segments against tight rectangles round sampled sectors of a ring."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle
from ring_cases import bowed, rules

from edgewright.design.buildup.curve_path import CurvePath
from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.ring_segments import segment_blank, segment_count
from edgewright.errors import GeometryError

# Segments of round tops with a ring 1-1/2 in wide: diameter, N, width, length (in), yield in percent. Computed,
# rounded as printed.
TABLE = [
    (36, 8, 2.76, 14.9, 49),
    (36, 12, 2.06, 9.6, 68),
    (36, 16, 1.82, 7.2, 78),
    (48, 8, 3.21, 19.9, 43),
    (48, 12, 2.27, 12.9, 63),
    (48, 16, 1.93, 9.5, 74),
    (60, 8, 3.67, 24.9, 38),
    (60, 12, 2.47, 16.1, 58),
    (60, 16, 2.05, 11.9, 71),
]


def sector(inner, outer, half):
    """Sector of a ring about the y axis, arcs cut finely."""
    angles = [half * (2 * step / 400 - 1) for step in range(401)]
    points = [(outer * math.sin(a), outer * math.cos(a)) for a in angles]
    return shapely.Polygon(points + [(inner * math.sin(a), inner * math.cos(a)) for a in reversed(angles)])


def tight_rectangle(polygon):
    """Sides of the smallest rectangle at any angle, the shorter first."""
    corners = list(shapely.oriented_envelope(polygon).exterior.coords)
    return sorted((math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2])))


@pytest.mark.reference
@pytest.mark.parametrize(("diameter", "count", "width", "length", "share"), TABLE)
def test_table_of_round_tops(diameter, count, width, length, share):
    blank = segment_blank(diameter / 2, 1.5, math.pi / count)
    assert blank.width == pytest.approx(width, abs=0.0051)
    assert blank.length == pytest.approx(length, abs=0.051)
    assert 100 * blank.ring_share == pytest.approx(share, abs=0.51)
    # yield once more from areas alone: the whole ring out of all blanks
    ring = math.pi * ((diameter / 2) ** 2 - (diameter / 2 - 1.5) ** 2)
    assert blank.ring_share == pytest.approx(ring / (count * blank.width * blank.length), rel=1e-12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.floats(200, 2000), st.floats(10, 120), st.floats(math.pi / 40, math.pi / 5), st.booleans())
def test_a_blank_is_the_tight_rectangle_of_its_sector(radius, ring, half, inside):
    blank = segment_blank(radius, ring, half, inside=inside)
    inner, outer = (radius, radius + ring) if inside else (radius - ring, radius)
    width, length = tight_rectangle(sector(inner, outer, half))
    # a square-ish sector may fit tighter at another angle: then only the area is less
    if blank.least_length > 1.3 * blank.width:
        assert blank.width == pytest.approx(width, rel=1e-3)
        assert blank.least_length == pytest.approx(length, rel=1e-3)
    assert width * length <= blank.width * blank.least_length * (1 + 1e-9)
    assert blank.length > blank.least_length


@pytest.mark.example
@pytest.mark.parametrize("count", [8, 12, 16])
def test_pieces_of_a_circle_are_the_blanks_of_the_table(count):
    """48 in round, ring 1-1/2 in, nothing proud."""
    inch = 25.4
    outline = circle(0, 0, 24 * inch, hole=False)
    made = ring_pieces(
        outline,
        ("edge", "edge"),
        rules(strip_width=1.5 * inch, ring_width=1.5 * inch, proud=0, layers=1, segments_per_circle=count),
    )
    blank = segment_blank(24 * inch, 1.5 * inch, math.pi / count)
    assert len(made) == count
    for piece in made:
        assert piece.blank_width == pytest.approx(blank.width, rel=1e-9)
        assert piece.blank_length == pytest.approx(blank.length, rel=1e-9)
        assert piece.start_angle == pytest.approx(180 / count)
        assert piece.end_angle == pytest.approx(180 / count)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(0.05, 1.0), st.floats(300, 3000), st.floats(35, 90))
def test_the_fewest_segments_keep_the_blank_limit(bulge, chord, limit):
    """The count found keeps to the limit; one fewer would not, or would turn more than a right angle."""
    arc = bowed((0, 0), (chord, 0), bulge)
    if arc.radius <= 40:
        return
    rule = rules(largest_blank=limit, proud=0)
    count = segment_count(CurvePath((arc,), ("arc",)), rule)
    assert segment_blank(arc.radius, 30, arc.sweep / 2 / count).width <= limit + 1e-6
    if count > 1:
        half = arc.sweep / 2 / (count - 1)
        assert 2 * half > math.pi / 2 - 1e-5 or segment_blank(arc.radius, 30, half).width > limit - 1e-6


@pytest.mark.example
def test_a_ring_over_the_centre_is_refused():
    with pytest.raises(GeometryError, match=r"ring width is 50 mm; on a curve of radius 50 mm"):
        segment_blank(50, 50, 0.3)
    half = CurvePath((bowed((0, 0), (40, 0), 1.0),), ("west end",))
    with pytest.raises(GeometryError, match=r"west end: ring width is 30 mm"):
        segment_count(half, rules())
    # a hollow curve may be as tight as it likes
    assert segment_count(CurvePath((bowed((0, 0), (40, 0), -1.0),), ("hollow",)), rules()) >= 2
