"""The router card of every kind of top: full size in the PDF, every pass to tick, the work in order."""

from __future__ import annotations

import io

import pdfplumber
import pytest
from shaped_jobs import shaped_plan
from sheet_jobs import sheet_plan

from edgewright.cli.packet import packet_pdf
from edgewright.cli.router_chapter import order_rows, pass_steps, router_chapter
from edgewright.design.passes import router_passes

MM = 72 / 25.4
#: A rectangle; tops with strips, with a skirt of 65 mm in all, and without a build-up.
TOPS = {
    "rectangle": lambda: sheet_plan("one side"),
    "metric": lambda: sheet_plan("metric"),
    "l_counter": lambda: shaped_plan("l_counter"),
    "boat": lambda: shaped_plan("boat"),
    "round_wrap": lambda: shaped_plan("round_wrap"),
}
THICK = """
[job]
title = "Thick skirt"
units = "mm"
[top]
thickness = 40
material = "plywood"
[top.outline]
shape = "round"
diameters = [900]
[edge]
build_up = "skirt_under"
strip_thickness = 25
skirt_drop = {drop}
"""


def card_pages(plan, paper: str):
    """Text of each page of the router card, and the heights of what is drawn on it (mm)."""
    with pdfplumber.open(io.BytesIO(packet_pdf(plan, paper))) as document:
        return [
            (page.extract_text(), [(c["bottom"] - c["top"]) / MM for c in page.curves])
            for page in document.pages
            if "full size" in page.extract_text() and "router card" in page.extract_text()
        ]


@pytest.mark.reference
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("name", TOPS)
def test_the_section_measures_its_true_size(name: str, paper: str):
    """Read by an independent reader of PDF, within 0.1 mm."""
    plan = TOPS[name]()
    ((text, heights),) = card_pages(plan, paper)
    assert "Hold a sample against it" in text
    assert min(abs(high - plan.design.edge_thickness_mm) for high in heights) < 0.1


@pytest.mark.example
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_a_section_that_the_paper_cannot_hold_says_that_it_is_smaller(paper: str):
    plan = shaped_plan(THICK.format(drop=250))
    ((text, heights),) = card_pages(plan, paper)
    assert "NOT full size, 1:2" in text
    assert "hold no sample against it" in text
    assert min(abs(high - 290 / 2) for high in heights) < 0.1
    # one that fits on a page of its own is drawn at full size
    assert "Edge, full size" in card_pages(shaped_plan(THICK.format(drop=100)), paper)[0][0]


@pytest.mark.example
@pytest.mark.parametrize("name", TOPS)
def test_every_pass_has_a_row_to_tick(name: str):
    plan = TOPS[name]()
    profile = plan.design.profile
    grid = plan.job.bench_grid.mm
    rows = pass_steps(plan)
    for where, form in (("top", profile.top), ("bottom", profile.bottom)):
        count = len(router_passes(form, grid=grid))
        mine = [row for row in rows if row[0] == where]
        assert [row[2] for row in mine] == [f"{n} of {count}" for n in range(1, count + 1)]
    (passes,) = [t for c in router_chapter(plan, "a4") for t in c["tables"] if t["title"] == "Router passes"]
    assert passes["ticks"]


@pytest.mark.example
@pytest.mark.parametrize("name", TOPS)
def test_flush_and_filled_before_the_bearing_runs_and_top_before_bottom(name: str):
    steps = [row[0] for row in order_rows(TOPS[name]())]
    assert steps[:4] == ["flush", "fill", "top form", "bottom form"]
    assert ("cut-outs" in steps) == (name == "l_counter")


@pytest.mark.example
def test_findings_about_the_edge_stand_on_the_card():
    chapters = router_chapter(shaped_plan("boat"), "a4")
    (mind,) = [t for c in chapters for t in c["tables"] if t["title"] == "Mind"]
    assert "304" in [row[0] for row in mind["rows"]]
    assert all(row[0][0] in "23" for row in mind["rows"])
