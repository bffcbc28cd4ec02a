"""A job of any top is planned; what its figures cannot be is one fault, with key and line where there is a file."""

import re
from pathlib import Path

import pytest

from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.errors import Fault, GeometryError, JobError
from edgewright.jobfile import fault_at, parse_any_job, read_any_job

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
L_COUNTER = (EXAMPLES / "shapes" / "l_counter.toml").read_text(encoding="utf-8")
#: The second cut-out reaches over the west end of the short leg.
OUTSIDE = L_COUNTER.replace("x = 12\n", "x = 6\n")


def test_the_kind_of_plan_follows_the_job():
    assert isinstance(plan_any(EXAMPLES / "narrow_one_side.toml"), Plan)
    assert isinstance(plan_any(EXAMPLES / "shapes" / "tapered.toml"), ShapedPlan)


def test_a_job_that_was_read_before_gives_the_plan_of_its_file():
    path = EXAMPLES / "shapes" / "drawn_desk.toml"
    assert plan_any(read_any_job(path)) == plan_any(path)


def test_progress_is_told():
    told = []
    plan_any(EXAMPLES / "shapes" / "tapered.toml", told.append)
    assert told


def test_a_fault_of_the_figures_has_the_line_of_its_table(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(OUTSIDE, encoding="utf-8")
    with pytest.raises(JobError) as caught:
        plan_any(path)
    (fault,) = caught.value.faults
    second = [n for n, line in enumerate(OUTSIDE.splitlines(), start=1) if line == "[[cut_out]]"][1]
    assert (fault.key, fault.line) == ("cut_out[1]", second)
    # half of 10 in reaches to 1 in from where the walls meet, and to less where the wall leans over
    assert re.match(r"hatch is ~\d+/\d+ in \(\d+\.\d+ mm\) from the rim at \(1, ", fault.message)
    assert isinstance(caught.value.__cause__, GeometryError)
    assert str(caught.value).startswith(f"{path}:{second}: cut_out[1]: hatch")


def test_without_a_file_the_place_is_told_by_its_key():
    with pytest.raises(JobError) as caught:
        plan_any(parse_any_job(OUTSIDE))
    (fault,) = caught.value.faults
    assert (fault.key, fault.line) == ("cut_out[1]", None)


def test_metric_jobs_are_told_in_millimetres():
    text = (EXAMPLES / "shapes" / "d_end.toml").read_text(encoding="utf-8")
    with pytest.raises(JobError, match=r"top: trim.edges.north: the trim of edge 3 is 800 mm") as caught:
        raise JobError("top", tuple(_faults(text + "[trim.edges]\nnorth = 800\n")))
    assert " in," not in str(caught.value)


def _faults(text):
    with pytest.raises(JobError) as caught:
        plan_any(parse_any_job(text))
    return caught.value.faults


def test_the_line_is_that_of_the_nearest_table_and_none_without_a_file(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text("[edge]\ncorner_radius = 1\n", encoding="utf-8")
    assert fault_at(path, ("edge", "corner_radius"), "x") == Fault("edge.corner_radius", 2, "x")
    assert fault_at(path, ("edge", "unrouted", 0), "x") == Fault("edge.unrouted", 1, "x")
    assert fault_at(path, ("trim",), "x") == Fault("trim", None, "x")
    assert fault_at(path, (), "x") == Fault("", None, "x")
    assert fault_at(tmp_path / "gone.toml", ("edge",), "x") == Fault("edge", None, "x")
