"""Faults in [as_cut] that need the plan that was being cut: with line, value, bound and hint."""

from __future__ import annotations

from pathlib import Path

import pytest

from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.compare import compare
from edgewright.cutlist.plan import plan
from edgewright.errors import JobError
from edgewright.jobfile import parse_job

#: Keep lines at 40, 38 and 36 in; the file's line 13 is [as_cut].
JOB = """[job]
title = "T"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[trim]
north = 6
[edge]
corner_radius = 2
[as_cut]
"""
PIECE = '[[as_cut.piece]]\nside = "north"\nlength = 72\nwidth = 1.875\n'


@pytest.mark.example
@pytest.mark.parametrize(
    ("as_cut", "key", "line", "words"),
    [
        ("cuts = 4\nwidth = 36\n", "as_cut.cuts", 14, ["4", "0 to 3", "cut in 3", "leave all other tables"]),
        ("cuts = 1\n", "as_cut.width", 13, ["missing", "cut 1 changed the width", "expects 40 in"]),
        (
            "cuts = 1\nwidth = 40\nlength = 71.87\n",
            "as_cut.length",
            16,
            ["71.87 in", "72 in", "71 7/8 in", "none of the 1 cuts"],
        ),
        ("cuts = 0\nwidth = 40\n", "as_cut.width", 15, ["40 in", "42 in", "41 7/8 in"]),
        (
            # 40 - 2 x 4 1/2 - 1/8
            "cuts = 1\nwidth = 30.87\n",
            "as_cut.width",
            15,
            ["30.87 in is narrower than cut 1", "40 in", "30 7/8 in"],
        ),
        (
            "cuts = 1\nwidth = 40\n" + PIECE.replace("north", "south"),
            "as_cut.piece[0].side",
            17,
            ['"south"', "none of the 1 cuts"],
        ),
        (
            "cuts = 2\nwidth = 38\n"
            + PIECE
            + "cut = 2\n"
            + PIECE.replace("north", "east").replace("72", "42")
            + "cut = 1\n",
            "as_cut.piece[1].cut",
            25,
            ["1 is a cut on the north side", "not on the east"],
        ),
    ],
)
def test_a_fault_names_line_key_value_and_bound(
    as_cut: str, key: str, line: int, words: list[str], tmp_path: Path
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(JOB + as_cut, encoding="utf-8")
    for read in (plan, plan_any):
        with pytest.raises(JobError) as caught:
            read(path)
        (fault,) = caught.value.faults
        assert (caught.value.path, fault.key, fault.line) == (str(path), key, line)
        assert all(word in fault.message for word in words), fault.message


@pytest.mark.example
@pytest.mark.parametrize(
    "as_cut",
    [
        "cuts = 3\nwidth = 36\n",
        "cuts = 0\n",
        "cuts = 0\nwidth = 41.875\n",  # two tapes differ by 1/8 in at most
        "cuts = 1\nwidth = 30.875\n",  # a guide on the wrong side of the line
        "cuts = 1\nwidth = 41.99\n",
    ],
)
def test_the_bounds_themselves_are_taken(as_cut: str) -> None:
    assert plan(parse_job(JOB + as_cut)).job.as_cut is not None


@pytest.mark.example
def test_all_faults_are_told_at_once() -> None:
    text = JOB + "cuts = 1\nlength = 60\n" + PIECE.replace("north", "south")
    with pytest.raises(JobError) as caught:
        plan(parse_job(text))
    assert [fault.key for fault in caught.value.faults] == [
        "as_cut.width",
        "as_cut.length",
        "as_cut.piece[0].side",
    ]


@pytest.mark.example
def test_more_pieces_of_a_side_than_cuts_and_a_piece_of_dust_are_refused() -> None:
    two_sides = JOB.replace("north = 6\n", "north = 3\nsouth = 3\n")
    with pytest.raises(
        JobError, match="more pieces than cuts: of those made only cuts 1 and 2 free a piece there"
    ):
        plan(parse_job(two_sides + "cuts = 3\nwidth = 37\n" + PIECE.replace("1.875", "1.3") * 3))
    # a trim of one kerf leaves no offcut
    dust = JOB.replace("north = 6\n", "north = 0.125\n") + (
        'cuts = 1\nwidth = 41.875\n[[as_cut.piece]]\nside = "north"\nlength = 72\nwidth = "1/64"\ncut = 1\n'
    )
    board = '[[stock]]\nname = "b"\nlength = 96\nwidth = 12\nthickness = "23/32"\ncount = 2\n'
    with pytest.raises(JobError, match="takes off dust only"):
        plan(parse_job(dust + board))


@pytest.mark.example
def test_a_job_that_had_no_plan_had_no_cuts() -> None:
    short = JOB.replace("north = 6\n", "north = 2\n")
    with pytest.raises(JobError, match="has no plan"):
        plan(parse_job(short + "cuts = 1\nwidth = 40\n"))
    assert not plan(parse_job(short + "cuts = 0\n")).ready


@pytest.mark.example
def test_variants_are_not_compared_after_the_first_cut(tmp_path: Path) -> None:
    path = tmp_path / "job.toml"
    path.write_text(JOB + "cuts = 1\nwidth = 40\n", encoding="utf-8")
    with pytest.raises(JobError) as caught:
        compare(path)
    (fault,) = caught.value.faults
    assert (fault.key, fault.line) == ("as_cut", 13)
    assert "take [as_cut]" in fault.message
