"""The trim sheet: legible in every job, and its lines at the plan's positions, measured on the page."""

from __future__ import annotations

import dataclasses
import math

import pytest
from fontTools.ttLib import TTFont
from paper_checks import paper_faults, ruled_faults
from sheet_jobs import FOUR_SIDES, JOBS, job_text, sheet_plan

import edgewright
from edgewright.cli import packet
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.cut_table import datum_words
from edgewright.cutlist.sheets.panel import after_cut, line_position
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.display import show_ticks
from edgewright.drawing.lettering import note_box
from edgewright.drawing.paper import DATUM, KEEP, PANEL
from edgewright.drawing.svg import svg_text
from edgewright.drawing.view import Hatch, Loop, Note, Segment, View
from edgewright.errors import GeometryError
from edgewright.jobfile import parse_job

BOXES = ((180.0, 250.0), (180.0, 233.0), (150.0, 200.0))
EVERY = pytest.mark.parametrize("name", JOBS)


def texts(view: View) -> list[str]:
    return [shape.text for _, shape in view.shapes if isinstance(shape, Note)]


def segments(view: View, layer: str) -> list[Segment]:
    return [shape for shape in view.on(layer) if isinstance(shape, Segment)]


def scale_of(view: View) -> float:
    line = next(text for text in texts(view) if text.startswith("Scale 1:"))
    return float(line.removeprefix("Scale 1:").split(". ")[0])


@pytest.mark.example
@EVERY
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in BOXES:
        for view in trim_figures(sheet_plan(name), (width, height)):
            assert paper_faults(view, width, height) == []
            assert ruled_faults(view) == []


@pytest.mark.example
@EVERY
def test_every_cut_stands_on_one_figure_with_its_tick_box(name: str):
    plan = sheet_plan(name)
    views = trim_figures(plan)
    for cut in plan.cut_plan.cuts:
        # a row of the table, a label and a guide each carry the number
        assert sum(texts(view).count(str(cut.number)) for view in views) == 3
    words = " ".join(text for view in views for text in texts(view))
    assert words.count("MEASURE FROM HERE") >= 1
    assert "Top face DOWN" in words


@pytest.mark.example
def test_rips_and_crosscuts_have_their_own_figures():
    titles = [view.title for view in trim_figures(sheet_plan("four sides, two layers"))]
    assert titles == ["Rips: cuts 1 to 4", "Crosscuts: cuts 5 to 6"]


@pytest.mark.example
def test_keep_lines_of_the_reference_job_are_at_40_38_and_36_in():
    (view,) = trim_figures(sheet_plan("one side"))
    scale = scale_of(view)
    panel = next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))
    ys = [y for _, y, _ in panel.vertices]
    xs = [x for x, _, _ in panel.vertices]
    assert (max(xs) - min(xs)) * scale == pytest.approx(72 * 25.4)
    assert (max(ys) - min(ys)) * scale == pytest.approx(42 * 25.4)
    # south, the datum, is at the bottom
    keeps = sorted((line.y0 - min(ys)) * scale / 25.4 for line in segments(view, KEEP.name))
    assert keeps == pytest.approx([36, 38, 40])
    # the thick edge lies on the wood with its outer side on the edge
    (datum,) = segments(view, DATUM.name)
    assert datum.y0 - DATUM.line_width_mm / 2 == pytest.approx(min(ys))
    for position in ("40 in", "38 in", "36 in", "40", "38", "36", "35 1/2", "33 1/2", "31 1/2"):
        assert position in texts(view)


@pytest.mark.example
def test_the_page_is_mirrored_east_is_on_the_left():
    for name in ("one side", "four sides, two layers", "small, upright"):
        for view in trim_figures(sheet_plan(name), (180, 205)):
            at = {
                shape.text: note_box(shape)
                for _, shape in view.shapes
                if isinstance(shape, Note) and shape.text in ("N", "E", "S", "W")
            }
            assert at["E"][2] < at["W"][0]
            assert at["S"][3] < at["N"][1]


@pytest.mark.example
def test_an_east_crosscut_is_on_the_left_measured_from_the_west_edge():
    plan = sheet_plan("many lanes on both ends")
    view = trim_figures(plan, (180, 205))[0]
    panel = next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))
    right = max(x for x, _, _ in panel.vertices)
    first = plan.cut_plan.cuts[0]
    assert first.side == "east"
    assert (right - segments(view, KEEP.name)[0].x0) * scale_of(view) == pytest.approx(first.keep_ticks / 320)


@pytest.mark.example
def test_where_the_datum_hands_over_is_said():
    words = [text for view in trim_figures(sheet_plan("both sides")) for text in texts(view)]
    assert "From here measure from the fresh north edge: the old one is cut off." in words


@pytest.mark.example
def test_a_plan_that_is_not_ready_has_no_sheet():
    plan = sheet_plan("one side")
    impossible = dataclasses.replace(plan, cut_plan=dataclasses.replace(plan.cut_plan, status="impossible"))
    assert trim_figures(impossible) == ()


@pytest.mark.example
def test_a_box_that_is_too_small_is_refused():
    with pytest.raises(GeometryError, match="at least 150 x 200 mm"):
        trim_figures(sheet_plan("one side"), (149, 200))


@pytest.mark.example
def test_same_plan_same_bytes():
    first, second = (
        [svg_text(v, title=v.title, description="d") for v in trim_figures(sheet_plan("metric"))]
        for _ in "ab"
    )
    assert first == second


def hatched(view: View) -> list[tuple[float, float, float, float]]:
    """Boxes of the hatched bands, on paper."""
    found = []
    for _, shape in view.shapes:
        if isinstance(shape, Hatch):
            xs, ys = ([v[axis] for v in shape.loop.vertices] for axis in (0, 1))
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


@pytest.mark.example
@pytest.mark.parametrize("guide", ["keep", "waste"])
@pytest.mark.parametrize("shoe", ["wide", "narrow"])
def test_each_kerf_is_hatched_to_scale_on_the_waste_side_whichever_side_the_guide_is_on(
    guide: str, shoe: str
):
    job = parse_job(
        job_text(
            trim=FOUR_SIDES,
            saw=f'guide_side = "{guide}"\nshoe_side = "{shoe}"',
            edge='strip_width = "1 1/4 in"',
        ),
        "kerf.toml",
    )
    plan = dataclasses.replace(edgewright.plan(job), findings=())
    assert isinstance(plan, Plan)
    edges, bands = plan.cut_plan.first_edges, []
    for view in trim_figures(plan):
        scale = scale_of(view)
        panel = next(shape for shape in view.on(PANEL.name) if isinstance(shape, Loop))
        west = max(x for x, _, _ in panel.vertices)
        south = min(y for _, y, _ in panel.vertices)
        # the page is mirrored: wood runs from the west edge on the right
        first = int(view.title.split()[2])
        here = edges
        for cut in plan.cut_plan.cuts:
            if cut.number < first:
                here = after_cut(here, cut)
        for x0, y0, x1, y1 in hatched(view):
            low_x, high_x = ((west - x) * scale + here["west"] / 320 for x in (x1, x0))
            low_y, high_y = ((y - south) * scale + here["south"] / 320 for y in (y0, y1))
            flat = x1 - x0 > y1 - y0
            bands.append((flat, *((low_y, high_y) if flat else (low_x, high_x))))
    expected, now = [], plan.cut_plan.first_edges
    for cut in plan.cut_plan.cuts:
        ends = (cut.keep_ticks, min(cut.kerf_end_ticks, cut.panel_before_ticks))
        low, high = sorted(line_position(now, cut, at) / 320 for at in ends)
        if high > low:
            expected.append((cut.side in ("north", "south"), low, high))
        now = after_cut(now, cut)
    assert len(bands) == len(expected) > 4
    for band, wanted in zip(sorted(bands), sorted(expected), strict=True):
        assert band == pytest.approx(wanted, abs=1e-6)


@pytest.mark.example
@EVERY
def test_main_figures_are_read_from_two_metres(name: str):
    # capitals of 10 minutes of arc, the limit of 20/40 sight at 2 m, are 5.8 mm high: computed
    limit = 2000 * math.tan(math.radians(10 / 60))
    assert limit < 7.0
    font = TTFont(packet._HERE / "fonts" / "DejaVuSansCondensed.ttf")
    capital = font["glyf"]["H"].yMax / font["head"].unitsPerEm
    plan = sheet_plan(name)
    notes = [s for view in trim_figures(plan) for _, s in view.shapes if isinstance(s, Note)]
    for cut in plan.cut_plan.cuts:
        words = [show_ticks(at, plan.job.units, unit=False) for at in (cut.keep_ticks, cut.guide_ticks)]
        for text in (*words, datum_words(cut), "CUT SHEET: FACE DOWN"):
            heights = [note.height_mm * capital for note in notes if note.text == text]
            assert max(heights) >= 7.0
