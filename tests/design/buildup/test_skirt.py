"""Skirts: lengths by hand, plan against the offset of polygons."""

import math

import pytest
import shapely
from region_cases import RACETRACK, SHARP_L, circle, fine, polygon
from ring_cases import numbered

from edgewright.design.buildup.skirt import SkirtSettings, skirt_bends, skirt_height, skirt_pieces, skirt_size
from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.errors import GeometryError

UNDER = SkirtSettings(18, 60, 20)
ON = SkirtSettings(18, 60, 20, mount="on")
NAMES = ("south", "east", "north", "west")


@pytest.mark.example
def test_under_the_edge_the_size_stays():
    made = skirt_pieces(rectangle(1200, 800), NAMES, UNDER)
    assert [p.blank_length for p in made] == pytest.approx([1200, 800, 1200, 800])
    assert {(p.kind, p.blank_width, p.thickness) for p in made} == {("skirt", 40, 18)}
    assert {(round(p.start_angle, 9), round(p.end_angle, 9)) for p in made} == {(45, 45)}
    assert skirt_size(rectangle(1200, 800), UNDER) == (1200, 800)
    assert [p.id for p in made] == ["S1", "S2", "S3", "S4"]


@pytest.mark.example
def test_on_the_edge_it_covers_the_top_and_adds_twice_its_thickness():
    made = skirt_pieces(rectangle(1200, 800), NAMES, ON)
    assert [p.blank_length for p in made] == pytest.approx([1236, 836, 1236, 836])
    assert {p.blank_width for p in made} == {60} == {skirt_height(ON)}
    assert skirt_size(rectangle(1200, 800), ON) == (1236, 836)


@pytest.mark.example
@pytest.mark.parametrize(
    "outline", [rectangle(1200, 800), SHARP_L.outer, RACETRACK.outer, circle(0, 0, 400, hole=False)]
)
@pytest.mark.parametrize("rule", [UNDER, ON])
def test_a_skirt_fills_its_band_once(outline, rule):
    """Band of the skirt's thickness inside or outside the edge, mitred at sharp corners."""
    top = fine(Region(outline))
    if rule is UNDER:
        band = top.difference(top.buffer(-18, join_style="mitre"))
    else:
        band = top.buffer(18, join_style="mitre").difference(top)
    plans = [shapely.Polygon(p.plan) for p in skirt_pieces(outline, numbered(outline), rule)]
    whole = shapely.unary_union(plans, grid_size=1e-6)
    assert whole.symmetric_difference(band).area < 2e-3 * band.area
    assert sum(plan.area for plan in plans) == pytest.approx(whole.area, rel=1e-6)


@pytest.mark.example
def test_bent_pieces_are_as_long_as_their_show_face():
    """Racetrack of radius 300: half a circle at each end, 18 further out with the skirt on the edge."""
    names = numbered(RACETRACK.outer)
    for rule, radius in ((UNDER, 300), (ON, 318)):
        lengths = sorted(p.blank_length for p in skirt_pieces(RACETRACK.outer, names, rule))
        assert lengths == pytest.approx(sorted([600, 600, math.pi * radius, math.pi * radius]))
        bends = skirt_bends(RACETRACK.outer, names, rule, 3)
        assert {round(bend.radius, 6) for _, bend in bends} == {radius}
        assert sum(bend.sweep for _, bend in bends) == pytest.approx(2 * math.pi)


@pytest.mark.example
def test_a_small_rounding_is_mitred_and_worked_afterwards():
    """Half of 18 stays behind the mitre up to (18 - 9 / √2) / 0.2929 = 39.7."""
    small, large = (rectangle(1200, 800, (r, r, r, r)) for r in (39, 41))
    assert len(skirt_pieces(small, numbered(small), UNDER)) == 4
    made = skirt_pieces(large, numbered(large), UNDER)
    assert len(made) == 8
    assert [p.blank_length for p in made if p.edges == ("edge 1",)] == pytest.approx([1200 - 82])
    assert [p.end_angle for p in made] == pytest.approx([0] * 8, abs=1e-9)


@pytest.mark.example
def test_skirts_that_cannot_be():
    with pytest.raises(
        GeometryError, match="visible edge is 20 mm; with a skirt it must be more than the top's 20"
    ):
        SkirtSettings(18, 20, 20)
    with pytest.raises(GeometryError, match="skirt thickness is 0 mm"):
        SkirtSettings(0, 60, 20)
    tiny = polygon((0, 0), (1000, 0), (1000, 30), (970, 30), (970, 45), (955, 45), (955, 700), (0, 700))
    with pytest.raises(GeometryError, match="between its ends"):
        skirt_pieces(tiny, numbered(tiny), UNDER)
