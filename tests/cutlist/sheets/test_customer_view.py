"""The customer's drawings: both tops at one scale and in one place of the room, chairs clear, the edge true to size."""

from __future__ import annotations

import pytest
from paper_checks import paper_faults

from edgewright.compass import PerSide
from edgewright.cutlist.sheets.customer_view import LEAST_MM, TopInRoom, customer_edge, customer_tops
from edgewright.design.outline import rectangle
from edgewright.design.profile import EdgeProfile
from edgewright.design.seat_places import Chair, seat_places
from edgewright.drawing.arcs import shape_box
from edgewright.drawing.paper import HIDDEN, KEEP, PANEL, THIN
from edgewright.drawing.view import Hatch, Loop, Note, View

CHAIR = Chair(457.2, 508.0, 25.4)
NO_WALLS = PerSide(None, None, None, None)
BOX = (180.0, 80.0)


def tops(size, trim, ghost=True):
    before = rectangle(*size)
    after = rectangle(size[0], size[1] - trim)
    return [
        TopInRoom("Before", before, places=seat_places(before, 762.0, CHAIR)),
        TopInRoom("After", after, places=seat_places(after, 762.0, CHAIR), ghost=before if ghost else None),
    ]


def panels(view: View) -> list[tuple[float, float, float, float]]:
    return [shape_box(shape) for shape in view.on(PANEL.name) if isinstance(shape, Loop)]


@pytest.mark.parametrize("size", [(1829, 1067), (300, 200), (6000, 1200), (500, 3000), (6096, 6096)])
@pytest.mark.parametrize("trim", [0.0, 30.0])
@pytest.mark.parametrize("walls", [NO_WALLS, PerSide(5000.0, None, None, -900.0)])
@pytest.mark.parametrize("high", [80.0, 36.0])
def test_both_tops_have_one_scale_and_fit_the_box(size, trim, walls, high):
    view = customer_tops(tops(size, trim), CHAIR, walls, (180.0, high))
    assert paper_faults(view, 180.0, high) == []
    before, after = panels(view)
    scale = size[0] / (before[2] - before[0])
    assert (before[3] - before[1]) * scale == pytest.approx(size[1])
    assert (after[2] - after[0]) * scale == pytest.approx(size[0])
    assert (after[3] - after[1]) * scale == pytest.approx(size[1] - trim)
    # the same place of the room: only moved to the right on the page
    assert before[1] == pytest.approx(after[1])
    (said,) = [note.text for _, note in view.shapes if isinstance(note, Note) and "Scale" in note.text]
    assert said.startswith(f"Scale 1:{scale:g},")
    assert ("dashed" in said, "walls" in said) == (True, walls.north is not None)


def test_what_comes_off_is_dashed_and_chairs_stand_beside_it():
    before, after = tops((1829, 1067), 150.0)
    view = customer_tops([before, after], CHAIR, NO_WALLS, BOX)
    (ghost,) = view.on(HIDDEN.name)
    old = panels(view)[0]
    box = shape_box(ghost)
    assert (box[2] - box[0], box[3] - box[1]) == pytest.approx((old[2] - old[0], old[3] - old[1]))
    seats = [shape for shape in view.on(THIN.name) if isinstance(shape, Loop)]
    assert len(seats) == len(before.places) + len(after.places) == 12
    scale = 1829 / (old[2] - old[0])
    for seat in seats:
        x0, y0, x1, y1 = shape_box(seat)
        assert sorted(((x1 - x0) * scale, (y1 - y0) * scale)) == pytest.approx([CHAIR.width, CHAIR.depth])


def test_walls_are_hatched_outside_the_room():
    """South at 300 mm from the edge, east at 400 mm."""
    walls = PerSide(None, 1400.0, -300.0, None)
    view = customer_tops([TopInRoom("New top", rectangle(1000, 600))], CHAIR, walls, BOX)
    (top,) = panels(view)
    scale = 1000 / (top[2] - top[0])
    east, south = sorted(
        (shape_box(shape) for _, shape in view.shapes if isinstance(shape, Hatch)),
        key=lambda box: box[2] - box[0],
    )
    assert (east[0] - top[2]) * scale == pytest.approx(400)
    assert (top[1] - south[3]) * scale == pytest.approx(300)
    assert len(view.on(KEEP.name)) == 2


@pytest.mark.parametrize("thickness", [18.0, 36.5, 101.6, 600.0])
def test_the_edge_in_section_has_the_size_it_says(thickness):
    """Full size where it fits; its height on paper times the scale is the thickness."""
    view = customer_edge(
        EdgeProfile.round_overs(thickness, 6.0, 3.0), thickness / 2, 40.0, "as thick as it is"
    )
    assert paper_faults(view, 90.0, 48.0) == []
    (note,) = [shape for _, shape in view.shapes if isinstance(shape, Note) and "section" in shape.text]
    scale = 1.0 if "full size" in note.text else float(note.text.rpartition("1:")[2])
    box = shape_box(view.on(PANEL.name)[0])
    assert (box[3] - box[1]) * scale == pytest.approx(thickness)
    assert (scale == 1.0) == (thickness < 40)


def test_lettering_is_at_least_ten_points():
    view = customer_tops(tops((1829, 1067), 150.0), CHAIR, NO_WALLS, BOX)
    assert min(shape.height_mm for _, shape in view.shapes if isinstance(shape, Note)) == LEAST_MM
    assert LEAST_MM * 72 / 25.4 >= 10
