"""The job of a new top: what it may hold, what it may not, and what it means for old ones."""

from __future__ import annotations

import pytest
from new_top_jobs import RACETRACK, new_shape, new_top
from stock_jobs import STRAIGHT

from edgewright.errors import JobError
from edgewright.job import Job, job_digest
from edgewright.job_new_top import NewTopJob
from edgewright.jobfile import parse_any_job, parse_job

LIVE = '[top.outline]\nshape = "stations"\nat = [0, 30, 60]\nsouth = [0, 0, 0]\nnorth = [30, 31, 30]\n'


def fault(text):
    with pytest.raises(JobError) as caught:
        parse_any_job(text)
    (found,) = caught.value.faults
    return f"{found.key}: {found.message}"


@pytest.mark.example
def test_a_new_rectangle_is_an_outline_without_anything_of_an_old_top():
    job = parse_any_job(new_top(60, 30))
    assert isinstance(job, NewTopJob)
    assert job.top.outline.shape == "rectangle"
    assert (job.top.outline.length.mm, job.top.outline.width.mm) == (1524, 762)
    assert job.top.seams == ()
    assert job.top.finished_edge.depth.exact_mm == 0
    assert job.trim.way is None
    assert job.top.oversize.exact_mm == 0


@pytest.mark.example
def test_an_old_rectangle_is_none():
    old = new_top().replace("new = true\n", "")
    assert isinstance(parse_any_job(old), Job)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (new_top(rest="[trim]\nnorth = 3"), "trim: nothing comes off a new top"),
        (new_shape(rest="[trim]\nall_round = 1"), "trim.all_round: nothing comes off a new top"),
        (new_top().replace("new = true", "new = false"), "top.new: false says nothing here"),
        (new_top().replace("new = true", 'new = "yes"'), 'top.new: "yes" says nothing here'),
        (
            new_top(top='seams = [{across = "length", at = 20}]'),
            'top.seams: "seams" says nothing of a top that is cut new',
        ),
        (new_top(top="corner_radius = 1"), 'top.corner_radius: "corner_radius" says nothing of a top that'),
        (
            new_shape(top='seams = [{across = "length", at = 20}]'),
            "top.seams: a new top is cut from one sheet",
        ),
        (
            new_shape(top='finished_edge = {arris_radius = "1/4"}'),
            "top.finished_edge: a new top has fresh edges",
        ),
        (
            new_shape(RACETRACK, top="oversize = 1").replace("new = true\n", ""),
            "top.oversize: 1 in is for a new top only",
        ),
        (new_shape(LIVE), 'top.outline.shape: "stations" is a live edge'),
        (new_top(top="oversize = 4"), "top.oversize: 4 in is out of range"),
        (
            new_top(rest='[edge]\nstrip_thickness = "1/2"'),
            "edge.strip_thickness: 1/2 in is not the thickness of the new top, 3/4 in",
        ),
        (new_top(top="as_cut = 1"), 'top.as_cut: "as_cut" is not a known key'),
        (new_top(rest="[as_cut]\ncuts_made = 1"), 'as_cut: "as_cut" says nothing of a top that is cut new'),
        (new_top(5, 30), "top.length: 5 in is out of range"),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(text, said):
    assert fault(text).startswith(said)


@pytest.mark.example
def test_strips_a_64th_off_are_of_the_same_sheet():
    # exactly 1/64 in is still the same sheet, more is not
    parse_any_job(new_top(rest='[edge]\nstrip_thickness = "49/64"'))
    assert fault(new_top(rest='[edge]\nstrip_thickness = "25/32"')).startswith("edge.strip_thickness")


@pytest.mark.example
def test_a_new_top_is_refused_where_only_an_old_rectangle_can_be_used():
    with pytest.raises(JobError, match="a top that is cut new cannot be used here"):
        parse_job(new_top())


@pytest.mark.example
def test_the_digest_of_an_old_top_knows_nothing_of_new_ones():
    """A value written down before there were new tops: plans made then keep their codes."""
    old, same = (parse_any_job(STRAIGHT.replace("[top]", f"[top]\n{key}")) for key in ("", "new = false"))
    assert job_digest(old) == job_digest(same)
    assert job_digest(old).startswith(BEFORE)
    assert job_digest(parse_any_job(STRAIGHT.replace("[top]", "[top]\nnew = true"))) != job_digest(old)


BEFORE = "742ef528c35db0fa"
