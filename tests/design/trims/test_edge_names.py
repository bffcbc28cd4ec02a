"""Names that edges keep when a top is cut to another."""

from __future__ import annotations

import math

import pytest
from region_cases import polygon, rounded

from edgewright.design.outline import rectangle
from edgewright.design.shapes.boxed import rectangle_shape
from edgewright.design.shapes.model import Shape
from edgewright.design.trims.edge_names import edge_number, inherited_names

OLD = rectangle_shape(1000, 600, (0.0, 0.0, 0.0, 0.0), [None] * 4)


@pytest.mark.example
def test_a_smaller_rectangle_keeps_all_names():
    new = rectangle(900, 540, origin=(40, 30))

    assert inherited_names(OLD, new) == OLD.names


@pytest.mark.example
def test_it_does_not_matter_where_the_new_loop_begins():
    new = polygon((940, 570), (40, 570), (40, 30), (940, 30))
    south, east, north, west = OLD.names

    assert inherited_names(OLD, new) == (north, west, south, east)


@pytest.mark.example
def test_a_slanted_cut_is_called_by_the_edge_it_runs_like():
    # the east side cut at 10°: still the east side; a corner cut at 45° runs like no side
    lean = 600 * math.tan(math.radians(10))
    south, east, north, west = OLD.names

    assert inherited_names(OLD, polygon((0, 0), (990, 0), (990 - lean, 600), (0, 600))) == (
        south,
        east,
        north,
        west,
    )
    clipped = polygon((0, 0), (900, 0), (1000, 100), (1000, 600), (0, 600))
    assert inherited_names(OLD, clipped) == (south, "edge 2", east, north, west)


@pytest.mark.example
def test_lines_are_not_named_after_arcs():
    old = Shape(
        rounded([(0, 0), (400, 0), (400, 300), (0, 300)], [0, 50, 0, 0]), ("s", "corner", "e", "n", "w")
    )
    new = rounded([(0, 0), (380, 0), (380, 300), (0, 300)], [0, 30, 0, 0])

    assert inherited_names(old, new) == ("s", "corner", "e", "n", "w")
    assert (
        inherited_names(old, rounded([(0, 0), (380, 0), (380, 300), (0, 300)], [0, 0, 30, 0]))[2] == "edge 3"
    )


@pytest.mark.example
def test_of_two_parallel_edges_the_nearest_counts():
    # both arms of an L end in the east
    old = Shape(polygon((0, 0), (900, 0), (900, 300), (400, 300), (400, 700), (0, 700)), tuple("abcdef"))
    new = polygon((0, 0), (890, 0), (890, 300), (390, 300), (390, 700), (0, 700))

    assert inherited_names(old, new) == tuple("abcdef")


@pytest.mark.example
def test_number_of_a_name_is_that_of_its_longest_edge():
    outline = polygon((0, 0), (300, 0), (900, 0), (900, 500), (0, 500))
    shape = Shape(outline, ("south", "south", "east", "north", "west"))

    assert edge_number(shape, "south") == 1
    assert edge_number(shape, "west") == 4
    assert edge_number(shape, "up") is None
