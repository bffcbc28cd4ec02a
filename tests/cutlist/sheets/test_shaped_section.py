"""The section of a shaped edge: legible, as thick as the edge; none where a skirt covers the edge."""

from __future__ import annotations

import pytest
from paper_checks import paper_faults
from shaped_jobs import FOLDER, SHAPES, shaped_plan, texts

from edgewright.cutlist.sheets.shaped_section import shaped_section


@pytest.mark.example
@pytest.mark.parametrize("name", SHAPES)
def test_every_text_is_legible_and_stays_in_the_box(name: str):
    for width, height in ((180.0, 150.0), (150.0, 100.0)):
        for view in shaped_section(shaped_plan(name).design, (width, height), "ABCD-EFGH"):
            assert paper_faults(view, width, height) == []


@pytest.mark.example
def test_thickness_of_the_edge_and_of_its_parts():
    # a top of 25 mm with a skirt of 40 mm under it
    (view,) = shaped_section(shaped_plan("round_wrap").design, (180.0, 150.0), "")
    assert {"25 mm", "40 mm", "thickness 65 mm", "glue seam 40 mm up"} <= set(texts(view))
    (view,) = shaped_section(shaped_plan("octagon").design, (180.0, 150.0), "")
    assert texts(view).count("23/32 in") == 2
    assert "thickness 1 7/16 in" in texts(view)


@pytest.mark.example
def test_a_skirt_on_the_edge_has_no_section():
    text = (FOLDER / "round_wrap.toml").read_text(encoding="utf-8").replace("skirt_under", "skirt_on_edge")
    assert shaped_section(shaped_plan(text).design, (180.0, 150.0), "") == ()
