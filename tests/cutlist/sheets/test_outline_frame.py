"""Wood on the page: mirrored, with labels clear of every line."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shape_cases import shapes

from edgewright.cutlist.sheets.outline_frame import OutlineFrame, edge_labels, framed, put_labels
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.model import Shape
from edgewright.drawing.arcs import chords


@pytest.mark.example
def test_a_point_in_the_east_is_left_on_the_page():
    frame = OutlineFrame((100.0, 50.0, 1100.0, 450.0), 20.0, 30.0, 10.0)
    assert frame.at((1100.0, 50.0)) == (20.0, 30.0)
    assert frame.at((100.0, 450.0)) == (120.0, 70.0)
    assert frame.size == (100.0, 40.0)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(shape=shapes(), width=st.floats(120, 200), height=st.floats(60, 200))
def test_wood_and_labels_stay_in_the_room_and_no_label_lies_on_a_line(
    shape: Shape, width: float, height: float
):
    labels = edge_labels(shape.outline, shape.names)
    frame, places = framed(shape.outline.bounds, [shape.outline], labels, (width, height), (5.0, 7.0))
    boxes = put_labels(None, frame, places, labels)
    room = shapely.box(5.0 - 1e-6, 7.0 - 1e-6, 5.0 + width + 1e-6, 7.0 + height + 1e-6)
    rim = shapely.LinearRing(chords(frame.loop(shape.outline), 0.01))
    assert room.contains(rim)
    drawn = [shapely.box(*box) for box in boxes]
    for number, box in enumerate(drawn):
        assert room.contains(box)
        assert not box.intersects(rim)
        assert not any(box.intersects(other) for other in drawn[:number])


@pytest.mark.example
def test_stations_of_one_edge_have_one_name():
    shape = rectangle_shape(600.0, 300.0)
    names = ("south, station 1 to 2", "east", "north", "west")
    assert edge_labels(shape.outline, names)[0].lines == ("south",)


@pytest.mark.example
def test_lettering_takes_the_first_free_place():
    places = Places()
    places.keep_clear(((0.0, -50.0), (0.0, 50.0)))
    wide, high = block_size(("12",), 4.0)
    assert places.put(None, ("12",), 4.0, [(0.0, 0.0)]) is None
    assert places.put(None, ("12",), 4.0, [(0.0, 0.0), (9.0, 0.0)]) == pytest.approx(
        (9 - wide / 2, -high / 2, 9 + wide / 2, high / 2)
    )
    assert places.put(None, ("12",), 4.0, [(9.0, 1.0)], over_lines=True) is None
    assert places.put(None, ("12",), 4.0, [(0.0, 20.0)], over_lines=True) is not None
