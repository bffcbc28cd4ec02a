"""Findings 310 to 313, 316 and 321, figures worked by hand."""

import math

import pytest
from region_cases import BITTEN, L_POINTS, circle, rounded
from ring_cases import numbered, rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.check_ring import cross_grain_findings, long_piece_findings, ring_findings
from edgewright.design.outline import Line, rectangle


def findings(outline, rule, seams=(), names=None):
    names = names or numbered(outline)
    return ring_findings(outline, names, rule, ring_pieces(outline, names, rule, seams), seams, "mm")


@pytest.mark.example
def test_nothing_to_find_on_a_plain_top():
    outline = rectangle(1200, 800, (50, 0, 0, 50))
    assert findings(outline, rules(), (Line((600, 0), (600, 800)),)) == ()


@pytest.mark.example
def test_310_a_corner_block_with_its_sizes():
    """Strip 40 less 1.5 proud covers (38.5 - 30/√2) / 0.2929 = 59.0; block 100 + 40, and 1.5 on both outer edges."""
    outline = rectangle(1200, 800, (0, 100, 0, 0))
    names = ("south", "south-east corner", "east", "north", "west")
    (found,) = findings(outline, rules(), names=names)
    assert (found.number, found.severity, found.place) == (310, "note", "south-east corner")
    assert found.figures == "south-east corner: radius 100 mm, strip 40 mm covers up to 59 mm"
    assert "141.5 mm × 141.5 mm" in found.change


@pytest.mark.example
def test_311_an_inside_corner():
    for radius, severity in ((12, "warn"), (50, "note")):
        (found,) = findings(rounded(list(L_POINTS), [0, 0, 0, radius, 0, 0]), rules())
        assert (found.number, found.severity) == (311, severity)
        # strips begin R + 40 from the corner
        assert f"radius {radius} mm; strips begin {radius + 40} mm from the corner" in found.figures
        assert ("12.7 mm" in found.change) == (severity == "warn")


@pytest.mark.example
def test_311_an_inside_corner_of_a_curve_is_mitred():
    found, short = findings(BITTEN.outer, rules(strip_width=20, ring_width=15))
    assert (found.number, found.severity, found.place) == (311, "warn", "corners")
    assert short.number == 316
    assert found.figures.count("turns 90.0°") == 2


@pytest.mark.example
def test_312_joints_at_a_seam():
    """Two crossing pairs of seams leave 12 joints of 2 layers nowhere to go; one seam does."""
    outline = circle(0, 0, 600, hole=False)
    one = (Line((-700, 0), (700, 0)),)
    assert findings(outline, rules(segments_per_circle=12), one) == ()
    many = tuple(
        Line((-700 * math.cos(a), -700 * math.sin(a)), (700 * math.cos(a), 700 * math.sin(a)))
        for a in (math.radians(5 * k) for k in range(3))
    )
    (found,) = findings(outline, rules(segments_per_circle=12), many)
    assert (found.number, found.severity) == (312, "warn")
    # joints 15° apart, seams at 0°, 5° and 10°: at best 2.5° off, at the ring's inner edge of radius 570
    assert "24.8 mm from the seam, at least 40 mm" in found.figures
    assert 570 * math.sin(math.radians(2.5)) == pytest.approx(24.86, abs=0.01)


@pytest.mark.example
def test_313_grain_across():
    made = ring_pieces(rectangle(1200, 800), ("south", "east", "north", "west"), rules(layers=1, grain=0.0))
    (found,) = cross_grain_findings(made, 0.0, "mm")
    assert (found.number, found.severity, found.place) == (313, "stop", "east, west")
    # the end strips lie between the others: 800 + 3 - 80
    assert found.figures == "1.2, 1.4: grain along the blank would lie 90° to the top's, over up to 723 mm"
    assert "offcut of an end" in found.change
    assert cross_grain_findings(made, 0.0, "mm", ("1.2", "1.4")) == ()


@pytest.mark.example
def test_313_slanting_segments_are_told_apart():
    made = ring_pieces(
        circle(0, 0, 600, hole=False), ("a", "b"), rules(layers=1, grain=0.0, segments_per_circle=12)
    )
    across, slanting = cross_grain_findings(made, math.radians(15), "in")
    assert "90° to the top's" in across.figures
    assert "30° to 60° to the top's" in slanting.figures
    assert "wide stock" in slanting.change


@pytest.mark.example
def test_316_a_short_piece():
    """Sixteen segments of a 400 round: 2 (200 + 1.5) tan(11.25°) = 80.2, and 8 in wanted."""
    (found,) = findings(circle(0, 0, 200, hole=False), rules(segments_per_circle=16, layers=1))
    assert (found.number, found.severity) == (316, "warn")
    assert found.figures.endswith("and 4 more: shortest 80.1 mm, at least 203.2 mm")


@pytest.mark.example
def test_321_a_piece_longer_than_a_sheet():
    """A top of 2440 less what stands proud on both ends is the longest whose through strips a sheet gives."""
    names = ("south", "east", "north", "west")
    for length, longer in ((2437.0, False), (2437.1, True)):
        made = ring_pieces(rectangle(length, 800), names, rules(layers=1, proud=1.5), ())
        found = long_piece_findings(made, "mm")
        assert bool(found) == longer
    (one,) = found
    assert (one.number, one.severity, one.place) == (321, "note", "south, north")
    assert one.figures == "1.1, 1.3: longest 2440.1 mm, a sheet gives 2440 mm"
    assert "[splice]" in one.change
    # 8 ft are 2438.4 mm
    made = ring_pieces(rectangle(2436, 800), names, rules(layers=1, proud=1.5), ())
    assert long_piece_findings(made, "in")[0].figures.endswith("a sheet gives 96 in")
