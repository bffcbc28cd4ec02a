"""Cut-outs of a shaped job: places, names, edges."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import design, job

from edgewright.design.anytop.build import build_shaped
from edgewright.errors import GeometryError

TWO = """
[[cut_out]]
name = "basin"
kind = "round"
x = 300
y = 250
diameter = 200
routed = true
[[cut_out]]
kind = "rectangle"
x = 700
y = 300
length = 200
width = 100
corner_radius = 10
"""
ROUND_5 = 'build_up = "none"\ntop_round_over = 5\nbottom_round_over = 5'


@pytest.mark.example
def test_edges_of_cut_outs() -> None:
    """Round, routed by 5 above: (π/2) 5 · 200 π + 2π 25 (π/2 - 1) + 200 π · 15; plain: (600 - 80 + 20 π) · 20."""
    basin, other = design(edge=ROUND_5, more=TWO).cut_outs
    assert (basin.name, basin.routed) == ("basin", True)
    assert basin.perimeter == pytest.approx(200 * math.pi)
    area = math.pi / 2 * 5 * 200 * math.pi + 2 * math.pi * 25 * (math.pi / 2 - 1) + 200 * math.pi * 15
    assert basin.edge_area == pytest.approx(area, rel=1e-12)
    assert (other.name, other.routed) == ("cut-out 2", False)
    assert other.perimeter == pytest.approx(600 - 80 + 20 * math.pi)
    assert other.edge_area == pytest.approx((600 - 80 + 20 * math.pi) * 20)
    assert basin.outline.area == pytest.approx(-math.pi * 100**2)


@pytest.mark.example
def test_places_count_from_the_corner_of_the_old_top_also_after_a_trim() -> None:
    found = design(edge=ROUND_5, more=TWO + "[trim.edges]\nwest = 50\n")
    assert found.region.bounds == pytest.approx((50, 0, 1000, 600))
    assert found.cut_outs[0].outline.centroid == pytest.approx((300, 250))
    assert found.cut_outs[1].outline.centroid == pytest.approx((700, 300))


@pytest.mark.example
def test_turned_rectangle_keeps_its_centre_and_size() -> None:
    text = '[[cut_out]]\nkind = "rectangle"\nx = 500\ny = 300\nlength = 200\nwidth = 100\nturn = 30\n'
    (hole,) = design(more=text).cut_outs
    x0, y0, x1, y1 = hole.outline.bounds
    # the box of a turned rectangle: 200 cos 30° + 100 sin 30°, 200 sin 30° + 100 cos 30°
    assert x1 - x0 == pytest.approx(100 * math.sqrt(3) + 50)
    assert y1 - y0 == pytest.approx(100 + 50 * math.sqrt(3))
    assert hole.outline.centroid == pytest.approx((500, 300))


@pytest.mark.example
@pytest.mark.parametrize(("x", "routed"), [(95, "true"), (100, "true"), (100.9, "false")])
def test_a_cut_out_too_near_to_the_rim_is_refused(x: float, routed: str) -> None:
    """Beside a round-over of 5 at the rim, and another at a routed hole, 6 mm of wood must stay: 11, or 16 mm."""
    text = f'[[cut_out]]\nkind = "round"\nx = {x}\ny = 300\ndiameter = 180\nrouted = {routed}\n'
    asked = job(edge=ROUND_5, more=text)
    with pytest.raises(GeometryError, match="cut-out"):
        build_shaped(asked)


@pytest.mark.example
def test_a_cut_out_with_just_enough_wood_beside_it_is_made() -> None:
    text = '[[cut_out]]\nkind = "round"\nx = {}\ny = 300\ndiameter = 180\nrouted = {}\n'
    for x, routed in ((106, "true"), (101, "false")):
        assert len(design(edge=ROUND_5, more=text.format(x, routed)).cut_outs) == 1
