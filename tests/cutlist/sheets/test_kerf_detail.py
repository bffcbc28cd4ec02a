"""The enlarged cut: all four ways to clamp the guide."""

from __future__ import annotations

import dataclasses

import pytest
from paper_checks import paper_faults, ruled_faults
from sheet_jobs import JOBS, job_text, sheet_plan

import edgewright
from edgewright.cutlist.sheets.kerf_detail import kerf_figure
from edgewright.drawing.view import Hatch, Note, View
from edgewright.jobfile import parse_job


def place(view: View, word: str) -> float:
    return next(shape.x for _, shape in view.shapes if isinstance(shape, Note) and shape.text == word)


@pytest.mark.example
@pytest.mark.parametrize("guide", ["keep", "waste"])
@pytest.mark.parametrize(("shoe", "offset"), [("wide", "4 1/2 in"), ("narrow", "1 1/4 in")])
def test_guide_and_offset_are_on_the_side_that_the_job_says(guide: str, shoe: str, offset: str):
    job = parse_job(job_text(saw=f'guide_side = "{guide}"\nshoe_side = "{shoe}"'), "kerf.toml")
    plan = dataclasses.replace(edgewright.plan(job), findings=())
    (view,) = kerf_figure(plan)
    assert paper_faults(view, 180, 170) == []
    kerf = next(shape for _, shape in view.shapes if isinstance(shape, Hatch))
    xs = [x for x, _, _ in kerf.loop.vertices]
    # twice 1/8 in
    assert max(xs) - min(xs) == pytest.approx(2 * 3.175)
    assert place(view, "KEEP") < min(xs) < max(xs) < place(view, "WASTE")
    assert (place(view, "guide") < min(xs)) == (guide == "keep")
    words = " ".join(shape.text for _, shape in view.shapes if isinstance(shape, Note))
    assert f"{offset} (drawn short)" in words
    assert f"the {guide} side" in words
    assert f"the {shoe} side of the shoe" in words


@pytest.mark.example
@pytest.mark.parametrize("name", JOBS)
def test_it_is_legible_in_every_job(name: str):
    for view in kerf_figure(sheet_plan(name), (150, 170)):
        assert paper_faults(view, 150, 170) == []
        assert ruled_faults(view) == []
