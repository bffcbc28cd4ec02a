"""Settings that cannot be, and pieces between two cuts."""

import math

import pytest
from ring_cases import rules

from edgewright.design.buildup.ring_model import Cut, quad, under_rim
from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.outline import rectangle
from edgewright.design.region import Region
from edgewright.errors import GeometryError


@pytest.mark.example
@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"strip_width": 0}, "strip width is 0 mm; it must be greater than 0 mm"),
        ({"strip_thickness": math.nan}, "strip thickness is nan mm"),
        ({"proud": -1}, "proud is -1 mm; it must be at least 0 mm"),
        ({"ring_width": 39}, "ring width 39 mm and proud 1.5 mm are more than the strip width 40 mm"),
        ({"layers": 0}, "layers is 0; it must be at least 1"),
        ({"largest_blank": 31}, "widest segment blank is 31 mm; it must be more than .* 31.5 mm"),
        ({"segments_per_circle": 3}, "segments per circle is 3; it must be 4 to 360"),
    ],
)
def test_settings_that_cannot_be(changes, says):
    with pytest.raises(GeometryError, match=says):
        rules(**changes)


@pytest.mark.example
def test_a_mitred_piece_by_hand():
    """Along x from 0 to 100, 10 wide: 45° at the start shortens the inside by 10, 30° the wrong way adds 5.77."""
    start = Cut((0, 0), (1, 1), (0, 0))
    end = Cut((100, 0), (math.tan(math.radians(30)), 1), (100, 0))
    corners, length, first, second = quad((0, 0), (1, 0), 0, 10, start, end, "south")
    assert [c for xy in corners for c in xy] == pytest.approx([0, 0, 100, 0, 105.7735, 10, 10, 10], abs=1e-4)
    assert length == pytest.approx(105.7735, abs=1e-4)
    assert (first, second) == pytest.approx((45, -30))


@pytest.mark.example
def test_cuts_that_leave_nothing():
    start, end = Cut((0, 0), (1, 1), (0, 0)), Cut((15, 0), (-1, 1), (15, 0))
    with pytest.raises(GeometryError, match=r"south: between its ends -5 mm are left for a piece 10 mm wide"):
        quad((0, 0), (1, 0), 0, 10, start, end, "south")
    with pytest.raises(GeometryError, match=r"south: an end would be cut along the piece"):
        quad((0, 0), (1, 0), 0, 10, Cut((0, 5), (1, 0), (0, 0)), end, "south")


@pytest.mark.example
def test_a_strip_trimmed_flush_at_a_rounded_corner():
    """Strip 1200 long, 38.5 wide inside the edge; the roundings of 30 at both ends take (1 - π/4) 900 each."""
    outline = rectangle(1200, 800, (30, 30, 0, 0))
    rule = rules(layers=1)
    south = ring_pieces(outline, ("south", "se", "east", "north", "west", "sw"), rule)[0]
    (loop,) = under_rim(south, Region(outline))
    assert south.edges == ("south",)
    assert loop.area == pytest.approx(1200 * 38.5 - 2 * (1 - math.pi / 4) * 900, rel=1e-9)
