from __future__ import annotations

import pytest

from edgewright.errors import JobError
from edgewright.job import job_digest
from edgewright.jobfile import parse_job

TOP = """
[job]
title = "t"
units = "in"
[top]
length = 72
width = 42
thickness = "3/4"
material = "plywood"
[trim]
north = 6
"""


def fault(planning: str) -> tuple[str, str]:
    with pytest.raises(JobError) as caught:
        parse_job(f"{TOP}[planning]\n{planning}\n")
    (only,) = caught.value.faults
    return only.key, only.message


@pytest.mark.example
def test_labour_at_45_an_hour_in_whole_cents() -> None:
    """8, 3 and 4 minutes (common practice, no source) at 75 cents a minute: 6.00, 2.25 and 3.00."""
    job = parse_job(f'{TOP}[planning]\nobjective = "cost"\nlabour_rate = 45\n')
    assert job.planning.labour_cents() == (600, 225, 300)
    # a third of a cent goes down, half a cent up
    job = parse_job(
        f'{TOP}[planning]\nobjective = "cost"\nlabour_rate = 0.2\nminutes_per_splice = 1\nminutes_per_stick = 1.5\n'
    )
    assert job.planning.labour_cents() == (0, 1, 1)
    assert parse_job(TOP).planning.labour_cents() is None


@pytest.mark.example
def test_what_changes_no_plan_changes_no_digest() -> None:
    plain = job_digest(parse_job(TOP))
    same = parse_job(f'{TOP}[planning]\nobjective = "order"\neffort = 100\nminutes_per_splice = 20\n')
    assert job_digest(same) == plain
    for other in ("effort = 50", 'objective = "cost"\nlabour_rate = 45'):
        assert job_digest(parse_job(f"{TOP}[planning]\n{other}\n")) != plain


@pytest.mark.example
@pytest.mark.parametrize(
    ("planning", "key", "words"),
    [
        ('objective = "cost"', "planning.objective", "give labour_rate, like 45"),
        ("labour_rate = 45", "planning.labour_rate", '45 counts only with objective = "cost"'),
        ('objective = "cheap"', "planning.objective", '"order"'),
        ('objective = "cost"\nlabour_rate = -1', "planning.labour_rate", "-1"),
        ("effort = 1.5", "planning.effort", "1.5"),
        ("effort = 10001", "planning.effort", "10000"),
        ("minutes_per_strip = 300", "planning.minutes_per_strip", "240"),
    ],
)
def test_faults_name_the_key_and_what_is_allowed(planning: str, key: str, words: str) -> None:
    where, message = fault(planning)
    assert where == key
    assert words in message
