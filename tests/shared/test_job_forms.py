"""Forms of an arris in a job file: what each takes, one way to say it, and a digest that old jobs keep."""

from __future__ import annotations

from fractions import Fraction

import pytest

from edgewright.errors import JobError
from edgewright.job import given_and_used, job_digest
from edgewright.jobfile import parse_job

TOP = """
[job]
title = "a"
units = "in"
[top]
length = "72"
width = "36"
thickness = "23/32"
material = "plywood"
[edge]
"""


def faults(edge):
    with pytest.raises(JobError) as caught:
        parse_job(TOP + edge)
    return [(fault.key, fault.message) for fault in caught.value.faults]


@pytest.mark.example
@pytest.mark.parametrize(
    ("edge", "reach", "height"),
    [
        ('top_form = {form = "chamfer", size = "1/4"}', "1/4", "1/4"),
        ('top_form = {form = "bevel", inset = "1/2", depth = "1/8"}', "1/2", "1/8"),
        ('top_form = {form = "cove", radius = "3/8"}', "3/8", "3/8"),
        ('top_form = {form = "ogee", radius = "1/8", step = "1/16"}', "5/16", "5/16"),
        ('top_form = {form = "ogee", radius = "1/8"}', "1/4", "1/4"),
        ('top_form = {form = "none"}', "0", "0"),
        ('top_round_over = "1/2"', "1/2", "1/2"),
        ("bullnose = true", "23/32", "23/32"),
    ],
)
def test_reach_and_height_are_exact(edge, reach, height):
    job = parse_job(TOP + edge)
    inch = Fraction(254, 10)
    thickness = job.edge.thickness(job.top.thickness_mean.exact_mm)
    assert thickness == 2 * Fraction(23, 32) * inch
    assert job.edge.reach("top", thickness) == Fraction(reach) * inch
    assert job.edge.height("top", thickness) == Fraction(height) * inch


@pytest.mark.example
@pytest.mark.parametrize(
    ("edge", "key", "words"),
    [
        (
            'top_round_over = "3/8"\ntop_form = {form = "cove", radius = "3/8"}',
            "edge.top_form",
            'form "cove" is given beside top_round_over = 3/8 in: give one of the two',
        ),
        ("bullnose = true\nbottom_round_over = 0", "edge.bullnose", "given beside bottom_round_over"),
        ('bullnose = true\ntop_form = {form = "none"}', "edge.bullnose", "given beside top_form"),
        ('top_form = {form = "chamfer"}', "edge.top_form", 'size is missing: form = "chamfer" takes size'),
        (
            'top_form = {form = "bevel", inset = "1/4", size = "1/4"}',
            "edge.top_form.size",
            'form = "bevel" takes inset and depth',
        ),
        ('top_form = {form = "none", radius = 1}', "edge.top_form.radius", 'form = "none" takes no size'),
        ('top_form = {form = "cove", radius = 0}', "edge.top_form.radius", "more than 0 in, at most 2 in"),
        ('bottom_form = {form = "chamfr", size = 1}', "edge.bottom_form.form", 'did you mean "chamfer"?'),
        ('bottom_form = "chamfer"', "edge.bottom_form", "a table"),
        ("bullnose = 1", "edge.bullnose", "true or false"),
    ],
)
def test_faults_say_what_the_form_takes(edge, key, words):
    found = faults(edge)
    assert any(where == key and words in message for where, message in found), found


@pytest.mark.example
def test_a_form_that_reaches_beyond_the_middle_is_a_fault():
    narrow = TOP.replace("[edge]", '[trim]\nfinished_width = "3"\n[edge]\nlayers = 4')
    with pytest.raises(JobError) as caught:
        parse_job(narrow + 'top_form = {form = "bevel", inset = "2", depth = "1/4"}')
    (fault,) = caught.value.faults
    assert fault.key == "edge.top_form"
    assert "reaches 2 in in from the edge" in fault.message
    assert "1 1/2 in, is allowed" in fault.message


@pytest.mark.example
def test_the_digest_knows_new_keys_only_where_they_are_given():
    plain = job_digest(parse_job(TOP))
    # taken down before the keys existed: jobs of that time keep their plan codes
    assert plain == "99cb44b94d38b369f7de76bcafe33af238ceadbc6a82869e5a98f2f960a48e23"
    assert job_digest(parse_job(TOP + "bullnose = false")) == plain
    chamfer = job_digest(parse_job(TOP + 'top_form = {form = "chamfer", size = "1/4"}'))
    assert chamfer == job_digest(parse_job(TOP + 'top_form = {size = "6.35 mm", form = "chamfer"}'))
    others = [
        job_digest(parse_job(TOP + edge))
        for edge in (
            "bullnose = true",
            'bottom_form = {form = "chamfer", size = "1/4"}',
            'top_form = {form = "none"}',
        )
    ]
    assert len({plain, chamfer, *others}) == 5


@pytest.mark.example
def test_a_round_over_that_is_not_used_is_not_listed_as_used():
    rows = {
        row.key: row for row in given_and_used(parse_job(TOP + 'top_form = {form = "cove", radius = "1/4"}'))
    }
    assert rows["edge.top_round_over"].used == "-"
    assert rows["edge.bottom_round_over"].used.startswith("3/8 in")
    assert rows["edge.top_form.radius"].given == "1/4"
