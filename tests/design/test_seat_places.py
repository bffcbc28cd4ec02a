"""Chairs stand clear of the top, of walls and of one another, and as many as the rules of the trade count."""

import math

import pytest
import shapely
from any_tops import any_tops
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import circle, polygon

from edgewright.compass import PerSide
from edgewright.design.check_seating import places
from edgewright.design.outline import rectangle
from edgewright.design.seat_places import Chair, chair_corners, seat_places, shared_out
from edgewright.design.shapes.boxed import racetrack
from edgewright.drawing.arcs import chords
from edgewright.drawing.view import Loop

IN = 25.4
CLOSE, COMFORT = 24 * IN, 30 * IN
CHAIR = Chair(18 * IN, 20 * IN, 1 * IN)
NO_WALLS = PerSide(None, None, None, None)


def boxes(found, chair=CHAIR):
    return [shapely.Polygon(chair_corners(place, chair)) for place in found]


@pytest.mark.reference
@pytest.mark.parametrize(
    ("outline", "close", "comfort"),
    [
        # "72 in long seats 6 (8 tight)": practice of the trade, no source; here with the ends
        (rectangle(72 * IN, 36 * IN), 8, 6),
        # round tops: floor(pi D / w), w 24 to 30 in: 48 in 5-6, 60 in 6-7, 72 in 7-9 (computed)
        (circle(0, 0, 24 * IN, hole=False), 6, 5),
        (circle(0, 0, 30 * IN, hole=False), 7, 6),
        (circle(0, 0, 36 * IN, hole=False), 9, 7),
        # a stretch of less than a place has none
        (rectangle(23 * IN, 20 * IN), 0, 0),
        (rectangle(72 * IN, 18 * IN), 6, 4),
    ],
)
def test_seats_by_the_rule(outline, close, comfort):
    assert len(seat_places(outline, CLOSE, CHAIR)) == close
    assert len(seat_places(outline, COMFORT, CHAIR)) == comfort


@pytest.mark.property
@settings(max_examples=60)
@given(
    st.integers(12, 200),
    st.integers(12, 80),
    st.sampled_from([CLOSE, COMFORT]),
    st.floats(0, 6),
)
def test_a_rectangle_seats_what_finding_407_counts(length, width, pitch, radius):
    outline = rectangle(length * IN, width * IN, (min(radius, width / 2 - 0.5, length / 2 - 0.5) * IN,) * 4)
    assert len(seat_places(outline, pitch, CHAIR)) == places((length * IN, width * IN), pitch)[1]


@pytest.mark.property
@settings(max_examples=150, deadline=None)
@given(
    any_tops(),
    st.sampled_from([CLOSE, COMFORT]),
    st.floats(10, 48),
    st.floats(10, 48),
    st.one_of(st.none(), st.floats(0, 1200)),
    st.one_of(st.none(), st.integers(1, 12)),
)
def test_chairs_stand_clear_at_any_top(top, pitch, wide, deep, wall, wanted):
    outline, chair = top.shape.outline, Chair(wide * IN, deep * IN, 1 * IN)
    count = len(outline.segments)
    still = {number for number in top.still if number < count}
    x0, _, _, y1 = outline.bounds
    walls = NO_WALLS if wall is None else PerSide(y1 + wall, None, None, x0 - wall)
    found = seat_places(outline, pitch, chair, still, walls, wanted)
    everyone = seat_places(outline, pitch, chair, still, walls)
    assert len(found) == (len(everyone) if wanted is None else min(wanted, len(everyone)))
    wood = shapely.Polygon(chords(Loop(outline.bulge_vertices()), 0.5))
    standing = boxes(found, chair)
    for number, (place, box) in enumerate(zip(found, standing, strict=True)):
        assert box.area == pytest.approx(chair.width * chair.depth)
        # chords cut the corners of a curve by half a millimetre, the chair keeps an inch
        assert shapely.intersection(box, wood).area < 1.0
        assert all(shapely.intersection(box, other).area < 1e-3 for other in standing[:number])
        assert math.hypot(*place.out) == pytest.approx(1)
        assert shapely.Point(place.at).distance(wood.exterior) < 1.0
        if wall is not None:
            assert box.bounds[0] >= x0 - wall - 1e-6
            assert box.bounds[3] <= y1 + wall + 1e-6


@pytest.mark.example
def test_a_wall_that_leaves_no_room_for_a_chair_takes_the_side():
    """Chairs are 20 in deep and stand 1 in off: 21 in hold them, 20.9 do not."""
    outline = rectangle(72 * IN, 36 * IN)
    for away, sides in ((21.0, 6), (20.9, 4)):
        walls = PerSide((36 + away) * IN, None, None, None)
        found = seat_places(outline, COMFORT, CHAIR, walls=walls)
        assert len(found) == sides
        assert any(place.out == pytest.approx((0, 1)) for place in found) == (sides == 6)


@pytest.mark.example
def test_a_wide_chair_takes_its_own_width():
    """Chairs of 36 in: 2 along 72 in, though 3 places of 24 in fit."""
    wide = Chair(36 * IN, 20 * IN, 1 * IN)
    assert len(seat_places(rectangle(72 * IN, 36 * IN), CLOSE, wide)) == 6


@pytest.mark.example
def test_wanted_chairs_are_shared_out_over_the_sides():
    outline = rectangle(72 * IN, 36 * IN)
    four = seat_places(outline, COMFORT, CHAIR, wanted=4)
    assert sorted(round(place.out[1]) for place in four) == [-1, -1, 1, 1]
    six = seat_places(outline, CLOSE, CHAIR, wanted=6)
    assert sorted((round(p.out[0]), round(p.out[1])) for p in six) == [
        (-1, 0), (0, -1), (0, -1), (0, 1), (0, 1), (1, 0)
    ]  # fmt: skip
    assert shared_out([(72.0, 3), (36.0, 1), (72.0, 3), (36.0, 1)], 99) == [3, 1, 3, 1]


@pytest.mark.example
def test_the_same_sides_are_filled_first_wherever_the_outline_begins():
    corners = [(0.0, 0.0), (2400.0, 0.0), (2400.0, 800.0), (0.0, 800.0)]
    seen = {
        tuple(sorted((round(p.at[0]), round(p.at[1])) for p in seat_places(turned, COMFORT, CHAIR, wanted=3)))
        for turned in (polygon(*corners[n:], *corners[:n]) for n in range(4))
    }
    assert len(seen) == 1


@pytest.mark.example
def test_chairs_round_a_racetrack_lie_alike_on_both_sides():
    outline = racetrack(1800.0, 900.0).outline
    x0, _, x1, _ = outline.bounds
    middle = (x0 + x1) / 2
    for wanted in (3, 4, 6):
        xs = [place.at[0] - middle for place in seat_places(outline, CLOSE, CHAIR, wanted=wanted)]
        assert sorted(xs) == pytest.approx(sorted(-x for x in xs), abs=1e-6)
