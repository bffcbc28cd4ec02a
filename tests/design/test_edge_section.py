"""The section of the edge: full size, its outline of the right area, legible in every job."""

from __future__ import annotations

import dataclasses
import math

import pytest
import shapely
from paper_checks import paper_faults
from sheet_jobs import JOBS, job_text, sheet_plan

from edgewright.design.build import build_design
from edgewright.design.edge_section import edge_section
from edgewright.drawing.arcs import chords
from edgewright.drawing.paper import PANEL, PINS
from edgewright.drawing.view import Hatch, Loop, Note, Segment, View
from edgewright.errors import GeometryError
from edgewright.jobfile import parse_job

INCH = 25.4


def outline(view: View) -> shapely.Polygon:
    loop = next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))
    return shapely.Polygon(chords(loop, 1e-5))


def texts(view: View) -> list[str]:
    return [shape.text for _, shape in view.shapes if isinstance(shape, Note)]


@pytest.mark.example
@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("box", [(180.0, 110.0), (180.0, 165.0), (150.0, 90.0)])
def test_every_text_is_legible_and_stays_in_the_box(name: str, box: tuple[float, float]):
    plan = sheet_plan(name)
    for view in edge_section(plan.design, plan.cut_plan.strip_width_ticks, box, code=plan.code):
        assert paper_faults(view, *box) == []


@pytest.mark.example
def test_a_metric_pin_row_is_shown_on_its_safe_side():
    plan = sheet_plan("metric")
    (view,) = edge_section(plan.design, plan.cut_plan.strip_width_ticks)
    # 9.525 + 1.5875 + 6.35 = 17.4625 mm
    assert "17.5 mm pin row, at least" in texts(view)


@pytest.mark.example
def test_the_reference_edge_is_drawn_at_full_size():
    plan = sheet_plan("one side")
    (view,) = edge_section(plan.design, plan.cut_plan.strip_width_ticks)
    shape = outline(view)
    x0, y0, x1, y1 = shape.bounds
    # 2 x 23/32 in
    assert y1 - y0 == pytest.approx(36.5125, abs=1e-4)
    # the top as far as the page goes (its broken end jogs 1.4 mm to both sides), a strip of 1 7/8 in below,
    # less two round-overs of 3/8 in
    r = 9.525
    area = (x1 - x0 - 1.4) * 18.25625 + 47.625 * 18.25625 - 2 * (1 - math.pi / 4) * r**2
    assert shape.area == pytest.approx(area, abs=0.05)
    assert any("full size" in text for text in texts(view))
    (pin,) = [shape for shape in view.on(PINS.name) if isinstance(shape, Segment)]
    # 1 1/4 in long, 11/16 in from the edge
    assert abs(pin.y1 - pin.y0) == pytest.approx(31.75)
    assert x1 - pin.x0 == pytest.approx(11 / 16 * 25.4)
    bar = [shape for _, shape in view.shapes if isinstance(shape, Hatch) and shape.spacing_mm == 0.3]
    # every second of four half inches is dark
    assert [max(v[0] for v in h.loop.vertices) - min(v[0] for v in h.loop.vertices) for h in bar] == (
        pytest.approx([12.7, 12.7])
    )


@pytest.mark.example
def test_a_seam_that_the_bearing_rides_on_is_filled_first():
    # seam 18.26 mm up, band of the bottom bit 15.9 to 20.6 mm up
    design = build_design(parse_job(job_text(edge='bottom_round_over = "5/8 in"'), "edge.toml"))
    (view,) = edge_section(design, 15240)
    assert any("fill first" in text for text in texts(view))
    (plain,) = edge_section(sheet_plan("one side").design, 15240)
    assert not any("fill first" in text for text in texts(plain))


@pytest.mark.example
@pytest.mark.parametrize("layers", [1, 4])
@pytest.mark.parametrize("width", ["1 in", "12 in"])
def test_thick_and_wide_edges_find_their_scale(layers: int, width: str):
    edge = f'layers = {layers}\nstrip_thickness = "4 in"\nstrip_width = "{width}"\nmax_strip_width = "12 in"'
    design = build_design(parse_job(job_text(edge=edge), "edge.toml"))
    strip = 8128 * int(width.split()[0])
    (view,) = edge_section(design, strip)
    assert paper_faults(view, 180, 110) == []
    assert any("scale 1:" in text.lower() for text in texts(view))


@pytest.mark.example
def test_sharp_edges_are_drawn_sharp():
    edge = 'top_round_over = "0 in"\nbottom_round_over = "0 in"'
    design = build_design(parse_job(job_text(edge=edge), "edge.toml"))
    (view,) = edge_section(design, 15240)
    assert paper_faults(view, 180, 110) == []
    assert texts(view).count("sharp") == 2


CHAMFER_AND_OGEE = (
    'top_form = {form = "ogee", radius = "1/8 in", step = "1/16 in"}\n'
    'bottom_form = {form = "chamfer", size = "1/4 in"}'
)
COVE_AND_BEVEL = (
    'top_form = {form = "cove", radius = "3/8 in"}\n'
    'bottom_form = {form = "bevel", inset = "1/2 in", depth = "1/4 in"}'
)
#: What each pair of forms takes off in section, in square inches, by hand.
FORMS = {
    # ogee of radius r and step s: spandrel, quarter disc and the oblongs outside of them; half a square
    CHAMFER_AND_OGEE: (
        ((1 - math.pi / 4) + math.pi / 4) / 64 + 1 / 8 / 16 + 1 / 8 * 3 / 16 + 1 / 16 * 5 / 16 + 1 / 32,
        ["ogee 1/8 in, step 1/16 in", "chamfer 1/4 in", "top ogee bit", "bottom chamfer bit"],
    ),
    COVE_AND_BEVEL: (
        math.pi / 4 * 9 / 64 + 1 / 16,
        ["cove 3/8 in", "bevel 1/2 in x 1/4 in", "top cove bit", "bottom bevel bit"],
    ),
    "bullnose = true": (2 * (1 - math.pi / 4) * (23 / 32) ** 2, ["bullnose 23/32 in"]),
    'top_form = {form = "none"}': ((1 - math.pi / 4) * 9 / 64, ["sharp", "R 3/8 in"]),
}


@pytest.mark.reference
@pytest.mark.parametrize("edge", FORMS)
@pytest.mark.parametrize("box", [(180.0, 110.0), (150.0, 90.0)])
def test_every_form_is_drawn_as_it_is(edge: str, box: tuple[float, float]):
    taken, words = FORMS[edge]
    design = build_design(parse_job(job_text(edge=edge), "edge.toml"))
    (view,) = edge_section(design, 15240, box)
    assert paper_faults(view, *box) == []
    shape = outline(view)
    assert shape.is_valid
    _, y0, x1, y1 = shape.bounds
    assert y1 - y0 == pytest.approx(36.5125, abs=1e-4)
    # only the last 20 mm towards the edge, for the strip may be broken off
    near = shapely.box(x1 - 20, y0, x1, y1)
    assert shape.intersection(near).area == pytest.approx(20 * 36.5125 - taken * INCH**2, abs=0.01)
    # a label may be wrapped
    found = " ".join(texts(view))
    if box == (180.0, 110.0):
        assert all(word in found for word in words), found
    # a hatch stays within the wood
    for _, drawn in view.shapes:
        if isinstance(drawn, Hatch) and drawn.spacing_mm == 3.0:
            layer = shapely.Polygon([vertex[:2] for vertex in drawn.loop.vertices])
            assert layer.is_valid
            # 24 chords to an arc or a layer
            assert layer.intersection(near).difference(shape).area < 0.05


@pytest.mark.example
def test_no_profile_no_section_and_a_small_box_is_refused():
    design = sheet_plan("one side").design
    assert edge_section(dataclasses.replace(design, profile=None), 15240) == ()
    with pytest.raises(GeometryError, match="at least 150 x 90 mm"):
        edge_section(design, 15240, (180, 89))
