"""Finding 514: a screw in the path of a rip stops the plan; the last sixteenth decides.

Inches: keep lines 40, 38, 36, each with a kerf of 1/8 above it. At least 1/4 clear: common practice, no source.
"""

from __future__ import annotations

import pytest

from edgewright.cutlist.plan import Plan, plan
from edgewright.findings import Finding
from edgewright.jobfile import parse_job

JOB = """
[job]
title = "metal"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[[top.defects]]
name = "screw"
along = {along}
across = {across}
metal = {metal}
[trim]
north = 6
[edge]
strip_width = "1 7/8"
[[stock]]
name = "rack"
length = 80
width = 6
thickness = "23/32"
{board}
"""


def made(across: str, *, along: str = "[30, 31]", metal: str = "true", board: str = "") -> Plan:
    return plan(parse_job(JOB.format(along=along, across=across, metal=metal, board=board)))


def found(*args: str, **keys: str) -> list[Finding]:
    return [finding for finding in made(*args, **keys).findings if finding.number == 514]


@pytest.mark.example
def test_a_screw_in_a_kerf_stops() -> None:
    result = made("[38, 38.125]")
    (finding,) = [one for one in result.findings if one.number == 514]
    assert (finding.severity, finding.place) == ("stop", "cut 2")
    assert finding.figures == "screw: in the kerf of cut 2; at least 1/4 in clear"
    assert not result.ready
    assert found("[38, 38.125]", metal="false") == []


@pytest.mark.example
@pytest.mark.parametrize(
    ("across", "near"),
    [
        # above the kerf that ends at 36 1/8, and below the keep line of 36 in the finished top
        ("[36.375, 36.5]", ""),
        ("[36.3125, 36.5]", "3/16 in from the kerf"),
        ("[35, 35.75]", ""),
        ("[35, 35.8125]", "3/16 in from the kerf"),
    ],
)
def test_a_quarter_inch_is_enough_and_a_sixteenth_less_is_not(across: str, near: str) -> None:
    figures = [finding.figures for finding in found(across)]
    assert len(figures) == bool(near)
    assert all(near in text for text in figures)


@pytest.mark.example
def test_a_screw_that_went_with_an_earlier_cut_does_not_count() -> None:
    """6 off the east too: a keep line at 66 from the west, sawn after the north offcut is gone."""

    def stops(across: str) -> list[str]:
        job = JOB.replace("north = 6", "north = 6\neast = 6")
        result = plan(parse_job(job.format(along="[66, 66.125]", across=across, metal="true", board="")))
        return [
            next(cut.side for cut in result.cut_plan.cuts if finding.place == f"cut {cut.number}")
            for finding in result.findings
            if finding.number == 514
        ]

    assert stops("[10, 11]") == ["east"]
    assert stops("[41, 41.5]") == []


@pytest.mark.example
def test_a_nail_in_a_board_is_found_by_its_rips() -> None:
    """Strips of 1 7/8 from the edge: kerfs at 1 7/8 to 2 and 3 7/8 to 4, as many as strips are ripped."""
    short = '[[top.defects]]\nname = "gap"\nalong = [0, 72]\nacross = [36.5, 42]\n[trim]'
    text = JOB.replace("[trim]", short, 1)

    def in_board(across: str) -> list[str]:
        board = f'defects = [{{name = "nail", along = [79, 80], across = {across}, metal = true}}]\ncount = 1'
        more = '[[stock]]\nname = "more"\nlength = 96\nwidth = 6\nthickness = "23/32"'
        filled = text.format(along="[1, 2]", across="[10, 11]", metal="false", board=f"{board}\n{more}")
        return [finding.place for finding in plan(parse_job(filled)).findings if finding.number == 514]

    assert in_board("[1.875, 2]") == ["board rack"]
    assert in_board("[2.25, 2.5]") == []
    assert in_board("[2.1875, 2.5]") == ["board rack"]
