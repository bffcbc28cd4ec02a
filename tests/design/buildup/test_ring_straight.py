"""Ends of straight strips at corners that are not square, at blocks and beside curves."""

import math

import pytest
from region_cases import D_END, polygon, rounded
from ring_cases import numbered, rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.outline import rectangle


@pytest.mark.example
def test_a_lean_corner_is_butted_at_its_angle():
    """East side leans out by 5°: angles of 85° south-east and 95° north-east, ends 5° off square."""
    lean = polygon((0, 0), (1000, 0), (1000 + 800 * math.tan(math.radians(5)), 800), (0, 800))
    south, east, north, west = ring_pieces(lean, numbered(lean), rules(layers=1, proud=0))
    # on the longer side the strip runs through to the outer edge of its neighbour
    assert (south.start_angle, south.end_angle) == pytest.approx((0, -5))
    assert (north.start_angle, north.end_angle) == pytest.approx((5, 0))
    assert south.blank_length == pytest.approx(1000 + 40 * math.tan(math.radians(5)))
    assert (east.start_angle, east.end_angle) == pytest.approx((-5, 5))
    assert west.blank_length == pytest.approx(800 - 80)


@pytest.mark.example
def test_a_hexagon_is_mitred_at_30_degrees():
    """Side 600: the long edge 600 + 2 × 1.5 tan 30° with 1.5 proud."""
    points = [(600 * math.cos(k * math.pi / 3), 600 * math.sin(k * math.pi / 3)) for k in range(6)]
    for piece in ring_pieces(polygon(*points), numbered(polygon(*points)), rules(corners="butt")):
        assert (piece.start_angle, piece.end_angle) == pytest.approx((30, 30))
        assert piece.blank_length == pytest.approx(600 + 3 * math.tan(math.pi / 6))


@pytest.mark.example
def test_strips_butt_into_blocks():
    """Radius 100 needs a block of side 100 + 40; the strips lie between those."""
    outline = rectangle(1200, 800, (100, 100, 0, 0))
    names = ("south", "se", "east", "north", "west", "sw")
    made = {p.edges[0]: p for p in ring_pieces(outline, names, rules(layers=1, proud=0))}
    assert made["south"].blank_length == pytest.approx(1200 - 2 * 140)
    # east begins at the block and butts into the strip on the longer north side
    assert made["east"].blank_length == pytest.approx(800 - 140 - 40)
    assert made["se"].kind == "corner block"


@pytest.mark.example
def test_a_strip_beside_a_curve_gives_way_in_the_second_layer():
    """D-end of radius 350: the strip ends at the curve in layer 1, half a segment before it in layer 2."""
    made = ring_pieces(D_END.outer, ("south", "end", "north", "west"), rules(segments_per_circle=12))
    south = {p.layer: p for p in made if p.edges[0] == "south" and p.kind == "strip"}
    half = 350 * math.pi / 12
    assert south[1].joints[1] == pytest.approx((900, 0))
    assert south[2].joints[1] == pytest.approx((900 - half, 0))
    assert [p.kind for p in made if p.layer == 1].count("segment") == 6
    assert [p.kind for p in made if p.layer == 2].count("segment") == 7


@pytest.mark.example
def test_which_strip_runs_through_turns_from_layer_to_layer():
    """On a square the pair along the length counts as the long one."""
    square = rectangle(800, 800)
    made = ring_pieces(square, ("south", "east", "north", "west"), rules(proud=0, layers=3))
    lengths = {(p.layer, p.edges[0]): p.blank_length for p in made}
    assert [lengths[layer, "south"] for layer in (1, 2, 3)] == pytest.approx([800, 720, 800])
    assert [lengths[layer, "west"] for layer in (1, 2, 3)] == pytest.approx([720, 800, 720])


@pytest.mark.example
def test_grain_of_strips_runs_along_them():
    outline = rounded([(0, 0), (1000, 0), (1000, 700), (0, 700)], [0, 0, 100, 0])
    made = ring_pieces(outline, numbered(outline), rules(layers=1, grain=0.0))
    grains = [math.degrees(p.grain) for p in made if p.kind == "strip"]
    assert sorted(grains) == pytest.approx([0, 0, 90, 90], abs=1e-9)
    assert [p.grain for p in made if p.kind == "corner block"] == [0.0]
    assert {p.grain for p in ring_pieces(outline, numbered(outline), rules())} == {None}
