"""Scales, spreading of labels, and the pen."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing.audit import audit_view
from edgewright.drawing.paper import SCALES, THIN, Pen, pick_scale, spread
from edgewright.drawing.view import Face, Segment


@pytest.mark.example
def test_the_largest_scale_that_fits_both_ways_is_picked():
    # 1828.8 / 12 = 152.4 fits 160, 1066.8 / 12 = 88.9 does not fit 80; 1:15 gives 121.92 and 71.12
    assert pick_scale([(1828.8, 160), (1066.8, 80)]) == 15
    assert pick_scale([(152, 152)]) == 1
    assert pick_scale([(152, 0.1)]) is None
    assert pick_scale([(1, 100)], least=2) == 2


items = st.lists(st.tuples(st.floats(-50, 150), st.floats(0.5, 12)), min_size=1, max_size=12)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=150)
@given(items)
def test_spread_labels_never_overlap_nor_leave_the_room(pairs: list[tuple[float, float]]):
    pairs.sort()
    wanted, sizes = [at for at, _ in pairs], [size for _, size in pairs]
    centres = spread(wanted, sizes, 0, 100)
    if sum(sizes) > 100 + 1e-6:
        assert centres is None
        return
    assert centres is not None
    assert centres[0] - sizes[0] / 2 >= -1e-6
    assert centres[-1] + sizes[-1] / 2 <= 100 + 1e-6
    for index in range(1, len(pairs)):
        gap = centres[index] - centres[index - 1] - (sizes[index] + sizes[index - 1]) / 2
        assert gap >= -1e-5


@pytest.mark.example
def test_labels_with_room_stay_where_they_belong():
    assert spread([10, 30, 60], [5, 5, 5], 0, 100) == [10, 30, 60]
    # two that want the same place share it
    assert spread([50, 50], [6, 6], 0, 100) == [47, 53]


@pytest.mark.example
def test_a_line_drawn_twice_or_without_length_is_drawn_once():
    pen = Pen()
    pen.line(THIN, (0, 0), (10, 0))
    pen.line(THIN, (10, 0), (0, 0), (0, 0))
    view = pen.view("v", "v")
    assert [shape for _, shape in view.shapes] == [Segment(0, 0, 10, 0)]
    assert audit_view(view) == ()


@pytest.mark.reference
def test_an_arrowhead_is_three_times_as_long_as_wide():
    # ASME Y14.2: about 3:1
    pen = Pen()
    pen.arrow((10, 0), (0, 0))
    ((_, face),) = pen.view("v", "v").shapes
    assert isinstance(face, Face)
    xs, ys = [v[0] for v in face.loop.vertices], [v[1] for v in face.loop.vertices]
    assert max(xs) == 10
    assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(3)


@pytest.mark.example
def test_scales_are_those_of_the_shop_wall():
    assert {1, 2, 2.5, 5, 8, 10, 12, 15, 20, 25, 50} <= set(SCALES)
    assert sorted(SCALES) == list(SCALES)
