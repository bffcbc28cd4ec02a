"""One inset of a large outline: 200 lines and arcs, inside and outside corners, some of them rounded."""

import math
import random

import pytest
from region_cases import rounded

from edgewright.design.inset import inset
from edgewright.design.region import Region


def top(segments=200):
    """Wavy ring of 100 sides of random reach with an arc at every corner."""
    draw = random.Random(5)
    corners = segments // 2
    points, radii = [], []
    for at in range(corners):
        reach = draw.uniform(1400, 1500)
        angle = 2 * math.pi * (at + draw.uniform(-0.2, 0.2)) / corners
        points.append((reach * math.cos(angle), reach * math.sin(angle)))
        radii.append(draw.uniform(2, 14))
    return Region(rounded(points, radii))


@pytest.mark.parametrize("d", [3, 12, 60])
def test_inset_of_two_hundred_segments(benchmark, d):
    region = top()
    assert len(region.segments) == 200
    parts = benchmark(inset, region, d)
    assert sum(part.area for part in parts) < region.area
