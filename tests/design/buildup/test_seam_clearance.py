"""Joints and panel seams."""

import math

import pytest
from ring_cases import rules

from edgewright.design.buildup.ring_pieces import ring_pieces
from edgewright.design.buildup.seam_clearance import seam_clearance
from edgewright.design.outline import Line, rectangle


@pytest.mark.example
def test_clearance_by_hand():
    """The through strip south begins at x 0; the strip east at (1000, 0), its start cut along y 40."""
    south, east, *_ = ring_pieces(
        rectangle(1000, 600), ("south", "east", "north", "west"), rules(layers=1, proud=0, corners="mitre")
    )
    # mitre at the south-west corner, from (0, 0) for 30 mm: ends at 21.2, 21.2
    assert seam_clearance(south, (Line((100, 0), (100, 600)),), 30) == pytest.approx(100 - 30 / math.sqrt(2))
    assert seam_clearance(south, (Line((10, -5), (10, 600)),), 30) == 0
    assert seam_clearance(
        east, (Line((0, 300), (1000, 300)), Line((500, 0), (500, 600))), 30
    ) == pytest.approx(300 - 30 / math.sqrt(2))
    assert seam_clearance(east, (), 30) == math.inf
