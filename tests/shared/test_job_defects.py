"""Defects in a job file: what is read, and the sentence for each fault."""

from __future__ import annotations

import pytest

from edgewright.errors import JobError
from edgewright.job import job_digest
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "defects"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[[top.defects]]
name = "screw hole"
along = [30, "30 1/4"]
across = ["40 1/2", 41]
[trim]
north = 6
[[stock]]
name = "rack"
length = 80
width = 6
thickness = "23/32"
defects = [{name = "knot", along = [10, 12]}, {name = "nail", along = [50, 51], across = [2, 3], metal = true}]
"""


@pytest.mark.example
def test_boxes_are_read_with_their_units() -> None:
    job = parse_job(JOB)
    (hole,) = job.top.defects
    assert (hole.name, hole.metal) == ("screw hole", False)
    assert [n.ticks() for n in (*hole.along, *hole.across)] == [
        *(30 * 8128, 30 * 8128 + 2032),
        *(40 * 8128 + 4064, 41 * 8128),
    ]
    knot, nail = job.stock[0].defects
    assert (knot.across, nail.metal) == (None, True)
    assert job.saw.defect_clearance.ticks() == 1016  # 1/8 in: common practice, no source


@pytest.mark.example
@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        ('[30, "30 1/4"]', "[30, 30]", "top.defects[0].along", ["30 in to 30 in is no span"]),
        ('[30, "30 1/4"]', "[71, 73]", "top.defects[0].along", ["73 in lies outside the top", "72 in"]),
        ('["40 1/2", 41]', "[41, 43]", "top.defects[0].across", ["43 in lies outside", "width of 42 in"]),
        ('["40 1/2", 41]', "[41]", "top.defects[0].across", ["1 entries: 2 are allowed"]),
        ('["40 1/2", 41]', '["x", 41]', "top.defects[0].across[0]", ["x"]),
        ("[10, 12]", "[79, 81]", "stock[0].defects[0].along", ["81 in lies outside the board", "80 in"]),
        ("[2, 3]", "[5, 7]", "stock[0].defects[1].across", ["7 in lies outside", "6 in"]),
        (
            "width = 6",
            "width = 6\ncount = 2",
            "stock[0].count",
            ["2: several boards cannot share", "count = 1"],
        ),
        ("width = 6", "width = 6\nprice = 9", "stock[0].count", ["as many as needed: several boards"]),
        ("metal = true", 'metal = "yes"', "stock[0].defects[1].metal", ["yes"]),
    ],
)
def test_a_fault_names_value_bound_and_what_to_do(old: str, new: str, key: str, words: list[str]) -> None:
    assert old in JOB
    with pytest.raises(JobError) as caught:
        parse_job(JOB.replace(old, new))
    messages = [fault.message for fault in caught.value.faults if fault.key == key]
    assert messages, [fault.key for fault in caught.value.faults]
    assert all(word in messages[0] for word in words), messages


@pytest.mark.example
def test_the_clearance_changes_the_digest_only_where_there_is_a_defect() -> None:
    clear = '[saw]\ndefect_clearance = "1/4"\n'
    assert job_digest(parse_job(JOB + clear)) != job_digest(parse_job(JOB))
    start, end = JOB.index("[[top.defects]]"), JOB.index("[trim]")
    without = JOB[:start] + JOB[end : JOB.index("defects = [")]
    assert job_digest(parse_job(without + clear)) == job_digest(parse_job(without))
