"""The cut sheet asks for the test cut's figures before cut 2, unless they are known."""

import pytest

from edgewright.cutlist.plan import plan
from edgewright.cutlist.trial_cut import ENOUGH_TO_STOP, trial_cut_question
from edgewright.jobfile import parse_job

JOB = """[job]
title = "T"
units = "{units}"
[top]
length = "72 in"
width = "42 in"
thickness = "23/32 in"
material = "plywood"
[trim]
north = "{north}"
"""


def asked(as_cut: str = "", units: str = "in", north: str = "6 in"):
    return trial_cut_question(plan(parse_job(JOB.format(units=units, north=north) + as_cut)))


@pytest.mark.example
@pytest.mark.parametrize(
    ("as_cut", "cut"),
    [
        ("", 2),
        ("[as_cut]\ncuts = 0\n", 2),
        ('[as_cut]\ncuts = 0\nkerf = "1/8 in"\n', 2),
        ('[as_cut]\ncuts = 0\nkerf = "1/8 in"\nguide_offset = "4 1/2 in"\n', None),
        (
            '[as_cut]\ncuts = 1\nwidth = "40 in"\n'
            '[[as_cut.piece]]\nside = "north"\nlength = "72 in"\nwidth = "1 7/8 in"\n',
            2,
        ),
        ('[as_cut]\ncuts = 3\nwidth = "36 in"\n', None),
    ],
)
def test_it_is_asked_before_cut_2_or_the_next_one(as_cut: str, cut: int | None) -> None:
    question = asked(as_cut)
    assert (None if question is None else question.cut) == cut


@pytest.mark.example
def test_the_planned_figures_are_told_in_the_units_of_the_job() -> None:
    assert asked().planned == (("kerf", "1/8 in"), ("guide offset", "4 1/2 in"))
    assert asked('[as_cut]\ncuts = 0\nkerf = "5/32 in"\n').planned[0] == ("kerf", "5/32 in")
    metric = asked(units="mm", north="150 mm")
    assert metric.planned == (("kerf", "3.175 mm"), ("guide offset", "114.3 mm"))


@pytest.mark.example
def test_a_job_of_one_cut_has_no_second_to_ask_before() -> None:
    assert asked(north="1 in") is None


@pytest.mark.example
def test_what_is_enough_is_a_64th() -> None:
    assert "1/64 in (0.4 mm)" in ENOUGH_TO_STOP
    assert "[as_cut]" in ENOUGH_TO_STOP
