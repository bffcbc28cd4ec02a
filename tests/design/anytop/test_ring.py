"""What a job asks of its build-up: width of strips, grain, settings."""

from __future__ import annotations

import math

import pytest
from anytop_jobs import BOARD, job

from edgewright.design.anytop.measured import measured_shape
from edgewright.design.anytop.ring import (
    USUAL_WIDTH_MM,
    grain_direction,
    ring_settings,
    skirt_settings,
    strip_floor_mm,
    strip_width_mm,
)
from edgewright.design.shapes.model import Shape
from edgewright.job_shaped import ShapedJob

FLAT = 'build_up = "flat"\n'


def shape(asked: ShapedJob) -> Shape:
    return measured_shape(asked.top.outline, 3.0, "mm")[0]


@pytest.mark.example
def test_strips_are_as_wide_as_given_else_as_usual_else_what_the_job_allows() -> None:
    assert strip_width_mm(job(edge=FLAT + "strip_width = 65")) == pytest.approx(65)
    usual = job(edge=FLAT)
    assert strip_floor_mm(usual) < USUAL_WIDTH_MM["mm"] == 50
    assert strip_width_mm(usual) == pytest.approx(50)
    # 45.3 mm snapped down to the bench grid of half a millimetre
    assert strip_width_mm(job(edge=FLAT + "max_strip_width = 45.3")) == pytest.approx(45)


@pytest.mark.example
def test_floor_grows_with_what_the_lower_form_takes_and_with_the_proud_edge() -> None:
    base, deep = job(edge=FLAT + "bottom_round_over = 5"), job(edge=FLAT + "bottom_round_over = 9")
    assert strip_floor_mm(deep) - strip_floor_mm(base) == pytest.approx(4, abs=0.51)
    proud = job(edge=FLAT + "bottom_round_over = 5\nproud = 2")
    # proud stands for the 1/16 in that is always flush-trimmed: 2 - 1.5875 mm, on the grid
    assert strip_floor_mm(proud) - strip_floor_mm(base) == pytest.approx(0.41, abs=0.5)


@pytest.mark.example
def test_grain_runs_along_the_longer_side_unless_told() -> None:
    solid = job(material="solid wood")
    assert grain_direction(solid, shape(solid)) == 0
    upright = job('shape = "rectangle"\nlength = 600\nwidth = 1000', material="solid wood")
    assert grain_direction(upright, shape(upright)) == math.pi / 2
    sheet = job()
    assert grain_direction(sheet, shape(sheet)) is None


@pytest.mark.example
def test_ring_is_as_wide_as_the_strips_but_inside_rounded_corners() -> None:
    curved = job('shape = "round"\ndiameters = [1000]', FLAT + "strip_width = 80\nproud = 2")
    straight = job(BOARD, FLAT + "strip_width = 80\nproud = 2")
    wide = ring_settings(curved, shape(curved))
    assert wide.ring_width == pytest.approx(78)
    assert ring_settings(curved, shape(curved), narrow=True).ring_width == pytest.approx(
        strip_floor_mm(curved)
    )
    settings = ring_settings(straight, shape(straight))
    assert (settings.ring_width, settings.corner_width) == pytest.approx((78, strip_floor_mm(straight)))
    assert (settings.strip_width, settings.proud, settings.layers) == pytest.approx((80, 2, 1))
    assert settings.strip_thickness == pytest.approx(20)


@pytest.mark.example
@pytest.mark.parametrize(("way", "mount"), [("skirt_under", "under"), ("skirt_on_edge", "on")])
def test_skirt_is_told_from_the_top_face(way: str, mount: str) -> None:
    """20 mm of top and 60 mm below it."""
    settings = skirt_settings(job(edge=f'build_up = "{way}"\nskirt_drop = 60'))
    assert (settings.drop, settings.top_thickness, settings.thickness) == pytest.approx((80, 20, 20))
    assert settings.mount == mount
