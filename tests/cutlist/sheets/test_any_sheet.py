"""Sheets of random jobs: whatever is planned, no lettering meets another, a rule or the edge of the page."""

from __future__ import annotations

import dataclasses

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from paper_checks import paper_faults, ruled_faults
from sheet_jobs import job_text

import edgewright
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.kerf_detail import kerf_figure
from edgewright.cutlist.sheets.stick_sheet import stick_figures
from edgewright.cutlist.sheets.strip_map_sheet import strip_map_figures
from edgewright.cutlist.sheets.trim_sheet import trim_figures
from edgewright.errors import EdgewrightError
from edgewright.jobfile import parse_job

PAGES = ((180.0, 251.0), (180.0, 233.0), (150.0, 200.0))


@st.composite
def job_texts(draw: st.DrawFn) -> str:
    """A job file of a rectangle; most of them have a plan."""
    units = draw(st.sampled_from(["in", "mm"]))

    def size(low: int, high: int) -> str:
        # sixteenths of an inch, or tenths of a millimetre
        if units == "in":
            sixteenths = draw(st.integers(16 * low, 16 * high))
            return f"{sixteenths // 16} {sixteenths % 16}/16 in"
        return f"{draw(st.integers(254 * low, 254 * high)) / 10:g} mm"

    sides = draw(st.lists(st.sampled_from(["north", "south", "east", "west"]), min_size=1, unique=True))
    trim = "\n".join(f'{side} = "{size(1, 12)}"' for side in sides)
    corners = draw(st.sampled_from(["butt", "mitre", "pinwheel"]))
    edge = f'layers = {draw(st.integers(1, 3))}\ncorners = "{corners}"\nstrip_width = "{size(1, 3)}"'
    saw = f'guide_side = "{draw(st.sampled_from(["keep", "waste"]))}"'
    return job_text(size(24, 130), size(16, 60), trim, edge, saw, units=units)


def ready_plan(text: str) -> Plan | None:
    """The plan of a job, its findings left aside; None where there is none."""
    try:
        made = edgewright.plan(parse_job(text, "any.toml"))
    except EdgewrightError:
        return None
    assert isinstance(made, Plan)
    made = dataclasses.replace(made, findings=())
    return made if made.ready else None


def faults_of(plan: Plan) -> list[str]:
    """What is wrong with any sheet of a plan, on any paper."""
    drawn = [(view, (180.0, 170.0)) for view in kerf_figure(plan, (180.0, 170.0))]
    for page in PAGES:
        for figures in (trim_figures, strip_map_figures, stick_figures):
            drawn += [(view, page) for view in figures(plan, page)]
    return [
        f"{view.title}: {fault}"
        for view, page in drawn
        for fault in (*paper_faults(view, *page), *ruled_faults(view))
    ]


@pytest.mark.property
@settings(max_examples=15, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(job_texts())
def test_nothing_overlaps_or_leaves_the_page(text: str):
    plan = ready_plan(text)
    assume(plan is not None)
    assert plan is not None
    assert faults_of(plan) == []
