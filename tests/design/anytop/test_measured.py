"""From each table of an outline to its shape: the box and the area that its figures must give."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import job

from edgewright.design.anytop.measured import measured_shape, placed_shape

TABLES = {
    "rectangle": ("length = 1000\nwidth = 600", 1000, 600, 600000),
    "racetrack": ("length = 1000\nwidth = 600", 1000, 600, 400 * 600 + math.pi * 300**2),
    "round": ("diameters = [800]", 800, 800, math.pi * 400**2),
    "ellipse": ("length = 1200\nwidth = 800", 1200, 800, math.pi * 600 * 400),
    "oval": ("length = 1200\nwidth = 800\nend_radius = 250", 1200, 800, None),
    "boat": ("length = 2000\nend_width = 800\nmiddle_width = 1000", 2000, 1000, None),
    "d_end": ('length = 1000\nwidth = 600\nends = "east"', 1000, 600, 700 * 600 + math.pi * 300**2 / 2),
    "regular_polygon": ("sides = 6\nside = 500", 1000, 500 * math.sqrt(3), 1.5 * math.sqrt(3) * 500**2),
    "polygon": ("sides = [300, 400, 300, 400]\ndiagonals = [500]", 300, 400, 120000),
    "tapered": (
        'length = 1000\nwest_width = 600\neast_width = 400\nsquare_side = "south"',
        1000,
        600,
        500000,
    ),
    "u_counter": (
        "back_length = 2000\nleft_leg = 1500\nright_leg = 1200\nback_depth = 600\nleft_depth = 600\nright_depth = 600",
        2000,
        1500,
        2000 * 600 + 600 * 900 + 600 * 600,
    ),
    "stations": ("at = [0, 500, 1000]\nsouth = [300, 300, 300]\nnorth = [300, 300, 300]", 1000, 600, 600000),
}


@pytest.mark.example
@pytest.mark.parametrize("name", TABLES)
def test_box_and_area(name: str) -> None:
    keys, length, width, area = TABLES[name]
    shape, holes = measured_shape(job(f'shape = "{name}"\n{keys}').top.outline, 3.0, "mm")
    x0, y0, x1, y1 = shape.outline.bounds
    assert holes == ()
    assert len(shape.names) == len(shape.outline.segments)
    # the arcs of an ellipse lie within 0.05 mm
    close = 0.1 if shape.ellipse else 1e-6
    if length is not None:
        assert x1 - x0 == pytest.approx(length, abs=close)
    if width is not None:
        assert y1 - y0 == pytest.approx(width, abs=close)
    if area is not None:
        assert shape.outline.area == pytest.approx(area, rel=1e-4 if shape.ellipse else 1e-12)


@pytest.mark.example
def test_a_quadrilateral_by_its_diagonals() -> None:
    """A true rectangle of 1200 x 900 has diagonals of 1500."""
    table = 'shape = "quad"\nsouth = 1200\neast = 900\nnorth = 1200\nwest = 900\ndiagonals = [1500, 1500]'
    shape, _ = measured_shape(job(table).top.outline, 3.0, "mm")
    assert shape.outline.area == pytest.approx(1200 * 900)
    assert all(check.agrees for check in shape.checks)


@pytest.mark.example
def test_an_outline_is_set_down_on_the_middle_of_the_old_top_moved_and_turned() -> None:
    old, _ = measured_shape(job().top.outline, 3.0, "mm")
    asked = job(
        more='[trim.to]\nshape = "rectangle"\nlength = 400\nwidth = 200\noffset = [30, -20]\nturn = 90\n'
    )
    assert asked.trim.to is not None
    new = placed_shape(asked.trim.to, old, 3.0, "mm")
    # the middle (500, 300) moved by (30, -20); a quarter turn makes it 200 x 400
    assert new.outline.bounds == pytest.approx((430, 80, 630, 480))
