"""Rings under whole tops: covered everywhere, nothing twice, joints staggered and clear of seams."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import (
    BITTEN,
    D_END,
    DUMBBELL,
    LENS,
    RACETRACK,
    ROUNDED_L,
    SHARP_L,
    circle,
    fine,
    lattice_tops,
    polygon,
    rounded,
    tops,
)
from ring_cases import assert_covers, bowed_tops, numbered, plans, rules

from edgewright.design.buildup.ring_model import under_rim
from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.design.ring import ring_spans
from edgewright.errors import GeometryError

HEXAGON = [(600 * math.cos(k * math.pi / 3), 600 * math.sin(k * math.pi / 3)) for k in range(6)]
SPECIMENS = {
    "rectangle": rectangle(1200, 800),
    "rounded rectangle": rectangle(1200, 800, (50, 0, 120, 300)),
    "circle": circle(10, 20, 600, hole=False),
    "racetrack": RACETRACK.outer,
    "d-end": D_END.outer,
    "sharp L": SHARP_L.outer,
    "rounded L": ROUNDED_L.outer,
    "L with a large inside radius": rounded(
        [(0, 0), (1800, 0), (1800, 600), (600, 600), (600, 1500), (0, 1500)], [40, 60, 0, 300, 300, 0]
    ),
    "lens": LENS.outer,
    "bitten": BITTEN.outer,
    "hexagon": polygon(*HEXAGON),
    "rounded hexagon": rounded(HEXAGON, [0, 50, 150, 250, 300, 400]),
}
styles = st.sampled_from(["butt", "pinwheel", "mitre"])


@pytest.mark.example
@pytest.mark.parametrize("name", SPECIMENS)
@pytest.mark.parametrize("corners", ["butt", "pinwheel", "mitre"])
def test_specimens_are_covered(name, corners):
    outline, rule = SPECIMENS[name], rules(corners=corners)
    assert_covers(outline, ring_pieces(outline, numbered(outline), rule), rule)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(bowed_tops(), styles, st.sampled_from([0.0, 1.5]))
def test_bowed_tops_are_covered(outline, corners, proud):
    rule = rules(strip_width=30, ring_width=24, corners=corners, proud=proud)
    try:
        made = ring_pieces(outline, numbered(outline), rule)
    except GeometryError as error:
        assert "narrower" in str(error)  # noqa: PT017  both causes are real: a neck, a short edge
        return
    assert_covers(outline, made, rule)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(tops(), styles)
def test_rounded_polygons_are_covered(region, corners):
    rule = rules(strip_width=30, ring_width=24, corners=corners)
    try:
        made = ring_pieces(region.outer, numbered(region.outer), rule)
    except GeometryError as error:
        assert "narrower" in str(error)  # noqa: PT017
        return
    assert_covers(region.outer, made, rule)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(lattice_tops())
def test_boxes_on_a_lattice_are_covered(region):
    """Steps of 20 leave room for blocks and strips of 4."""
    rule = rules(strip_width=4, ring_width=3, proud=0.5, largest_block=40)
    made = ring_pieces(region.outer, numbered(region.outer), rule)
    assert_covers(region.outer, made, rule)


@st.composite
def live_edges(draw):
    """Stations 90 to 200 apart on both sides of a line, offsets that wander by 15; corners perhaps rounded."""
    at = [0.0]
    for _ in range(draw(st.integers(2, 14))):
        at.append(at[-1] + draw(st.floats(90, 200)))
    sides = [[300 + draw(st.floats(-15, 15)) for _ in at] for _ in range(2)]
    points = [(x, -y) for x, y in zip(at, sides[0], strict=True)]
    points += [(x, y) for x, y in zip(reversed(at), reversed(sides[1]), strict=True)]
    radius, ends = draw(st.sampled_from([0.0, 20.0, 60.0])), {0, len(at) - 1, len(at), 2 * len(at) - 1}
    return rounded(points, [radius if number in ends else 0.0 for number in range(len(points))])


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(live_edges(), styles)
def test_live_edges_are_covered(outline, corners):
    rule = rules(corners=corners)
    assert_covers(outline, ring_pieces(outline, numbered(outline), rule), rule)


@pytest.mark.example
def test_facets_share_their_strips():
    """Sixty-four chords of a circle of 600 take as many pieces as the circle, not one each."""
    points = [(600 * math.cos(k * math.pi / 32), 600 * math.sin(k * math.pi / 32)) for k in range(64)]
    chords, smooth = polygon(*points), SPECIMENS["circle"]
    rule = rules(layers=1)
    made = ring_pieces(chords, numbered(chords), rule)
    assert len(made) == len(ring_pieces(smooth, numbered(smooth), rule))
    assert_covers(chords, made, rule)
    # a twelve-sided top with sides of 310 is mitred at each corner
    sides = polygon(*[(600 * math.cos(k * math.pi / 6), 600 * math.sin(k * math.pi / 6)) for k in range(12)])
    assert {p.kind for p in ring_pieces(sides, numbered(sides), rule)} == {"strip"}


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(
    st.tuples(st.integers(30000, 900000), st.integers(30000, 900000)),
    styles,
    st.sampled_from(["long", "short"]),
    st.integers(0, 640),
    st.booleans(),
)
def test_rectangles_agree_with_the_spans_of_whole_ticks(size, corners, through, proud, alternate):
    length, width = (n / 320 for n in size)
    rule = rules(
        corners=corners, through=through, proud=proud / 320, ring_width=20, alternate=alternate, layers=3
    )
    made = ring_pieces(rectangle(length, width), ("south", "east", "north", "west"), rule)
    spans = ring_spans(
        size, 12800, corners=corners, through=through, proud=proud, layers=3, alternate=alternate
    )
    expected = {(span.side, span.layer): span.length / 320 for span in spans}
    assert {(p.edges[0], p.layer): pytest.approx(p.blank_length, abs=1e-6) for p in made} == expected
    angle = 45 if corners == "mitre" else 0
    for piece in made:
        assert (piece.start_angle, piece.end_angle) == pytest.approx((angle, angle))


@pytest.mark.example
def test_oval_blanks_are_of_one_width():
    """Two curves of radius 300 and 1100 that run on into each other: equal shares of ∫√κ ds give one rip."""
    sweep = math.radians(50)
    oval = _four_arcs(300, 1100, sweep)
    rule = rules(layers=1, segments_per_circle=24)
    made = ring_pieces(oval, numbered(oval), rule)
    assert_covers(oval, made, rule)
    widths = [piece.blank_width for piece in made]
    assert max(widths) - min(widths) < 3
    assert max(p.blank_length for p in made) > 1.4 * min(p.blank_length for p in made)


def _four_arcs(small, large, sweep):
    """Oval of four tangent arcs, the large ones south and north."""
    from edgewright.design.outline import Arc, Outline

    half = large - small
    east = (half * math.sin(sweep / 2), 0.0)
    south = (0.0, half * math.cos(sweep / 2))

    def at(centre, radius, angle):
        return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)

    a, b = -math.pi / 2 - sweep / 2, -math.pi / 2 + sweep / 2
    north, west = (0.0, -south[1]), (-east[0], 0.0)
    p = [at(south, large, a), at(south, large, b), at(north, large, -b), at(north, large, -a)]
    return Outline(
        (
            Arc(p[0], p[1], south, large, sweep),
            Arc(p[1], p[2], east, small, math.pi - sweep),
            Arc(p[2], p[3], north, large, sweep),
            Arc(p[3], p[0], west, small, math.pi - sweep),
        )
    )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(tops())
def test_pieces_trimmed_flush(region):
    """What is left of each piece after trimming, exact, has the area the fine polygons give."""
    outline, rule = region.outer, rules(strip_width=30, ring_width=24, layers=1)
    try:
        made = ring_pieces(outline, numbered(outline), rule)
    except GeometryError:
        return
    finished = Region(outline)
    top = fine(finished)
    for piece, plan in zip(made, plans(made, 1), strict=True):
        exact = sum(loop.area for loop in under_rim(piece, finished))
        assert exact == pytest.approx(shapely.intersection(top, plan).area, rel=1e-3, abs=1)


@pytest.mark.example
def test_ids_count_round_each_layer():
    made = ring_pieces(SPECIMENS["rectangle"], ("south", "east", "north", "west"), rules())
    assert [p.id for p in made] == ["1.1", "1.2", "1.3", "1.4", "2.1", "2.2", "2.3", "2.4"]
    assert [p.edges for p in made[:4]] == [("south",), ("east",), ("north",), ("west",)]


@pytest.mark.example
def test_a_top_too_narrow_for_two_strips_is_refused():
    with pytest.raises(GeometryError, match=r"leaves 0 open areas inside it; it must leave 1"):
        ring_pieces(rectangle(1000, 76), numbered(rectangle(1000, 76)), rules())
    neck = DUMBBELL.outer
    with pytest.raises(GeometryError, match=r"leaves 2 open areas"):
        ring_pieces(neck, numbered(neck), rules())


@pytest.mark.example
def test_an_edge_with_no_room_between_its_blocks_is_named():
    stairs = polygon((0, 0), (900, 0), (900, 300), (840, 300), (840, 360), (780, 360), (780, 900), (0, 900))
    with pytest.raises(GeometryError, match=r"edge 3: between its ends -?[0-9.]+ mm are left"):
        ring_pieces(stairs, numbered(stairs), rules())
