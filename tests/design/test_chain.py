"""Loose edges put together: order, doubles, dead ends, and edges that must not get lost."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from region_cases import HOLED, NAMED, circle, polygon

from edgewright.design.chain import regions_of
from edgewright.design.outline import Line
from edgewright.errors import GeometryError

SQUARE = polygon((0, 0), (10, 0), (10, 10), (0, 10)).segments


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=40)
@given(st.sampled_from(sorted(NAMED)), st.data())
def test_a_top_comes_back_from_its_edges_in_any_order(name, data):
    top = NAMED[name]
    (found,) = regions_of(data.draw(st.permutations(top.segments)))

    assert found.area == pytest.approx(top.area, rel=1e-14)
    assert found.perimeter == pytest.approx(top.perimeter, rel=1e-14)
    assert len(found.holes) == len(top.holes)


@pytest.mark.example
def test_parts_come_largest_first_and_holes_go_where_they_belong():
    far = polygon((20, 0), (50, 0), (50, 30), (20, 30)).segments
    small, large = regions_of((*SQUARE, *far, *circle(5, 5, 2).segments))[::-1]

    assert (len(small.holes), len(large.holes)) == (1, 0)


@pytest.mark.example
def test_edges_on_one_another_count_once_or_not_at_all():
    (once,) = regions_of((*SQUARE, SQUARE[0]))
    # two squares side by side, the wall between them run both ways, with the rest of each loop elsewhere
    line = Line((40, 0), (40, 10))

    assert once.area == pytest.approx(100)
    assert len(regions_of((*SQUARE, line, Line(line.end, line.start)))) == 1


@pytest.mark.example
def test_a_hair_that_joins_nothing_is_left_out_and_a_whole_edge_is_not():
    assert len(regions_of((*SQUARE, Line((10, 10), (10.01, 10))))) == 1
    for broken in (SQUARE[:3], (*SQUARE, Line((20, 0), (21, 0))), HOLED.segments[:-1]):
        with pytest.raises(GeometryError, match="joins no other within 1e-07 mm"):
            regions_of(broken)


@pytest.mark.example
def test_no_edges_make_no_region():
    assert regions_of(()) == ()
