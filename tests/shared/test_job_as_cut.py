"""[as_cut] in the job file: what is read, what is refused, and that a file without it is what it was."""

import tomllib

import pytest

from edgewright.errors import JobError
from edgewright.job import given_and_used, job_digest, job_schema
from edgewright.jobfile import parse_any_job, parse_job

GOOD = """[job]
title = "T"
units = "in"
[top]
length = 72
width = 42
thickness = "23/32"
material = "plywood"
[trim]
north = 6
"""
FIRST_LINE = GOOD.count("\n") + 1
PIECE = '[[as_cut.piece]]\nside = "north"\nlength = 72\nwidth = 1.875\n'


def faults(added: str) -> list[tuple[str, int | None, str]]:
    with pytest.raises(JobError) as caught:
        parse_job(GOOD + added)
    return [(f.key, None if f.line is None else f.line - FIRST_LINE, f.message) for f in caught.value.faults]


@pytest.mark.example
def test_what_was_measured_is_read() -> None:
    job = parse_job(
        GOOD + '[as_cut]\ncuts = 1\nwidth = "40 1/32"\nkerf = "5/32"\nguide_offset = "115 mm"\n' + PIECE
    )
    as_cut = job.as_cut

    assert as_cut is not None
    assert (as_cut.cuts, as_cut.length, as_cut.width.given) == (1, None, "40 1/32")
    assert (as_cut.kerf.given, as_cut.guide_offset.given) == ("5/32", "115 mm")
    assert [(p.side, p.usable, p.cut) for p in as_cut.pieces] == [("north", True, None)]
    assert [as_cut.measured(side)[0] for side in ("north", "south", "east", "west")] == [
        "width",
        "width",
        "length",
        "length",
    ]


@pytest.mark.example
def test_a_job_without_it_keeps_its_digest_and_one_with_it_has_another() -> None:
    assert parse_job(GOOD).as_cut is None
    before = job_digest(parse_job(GOOD))
    # as it was before there was such a table: 64 hex digits that no key of it takes part in
    assert before == job_digest(parse_job(GOOD + "[splice]\n"))
    none, one = (job_digest(parse_job(f"{GOOD}[as_cut]\ncuts = {cuts}\nwidth = 40\n")) for cuts in (0, 1))
    assert len({before, none, one}) == 3


@pytest.mark.example
def test_the_summary_tells_each_key() -> None:
    rows = {
        row.key: row for row in given_and_used(parse_job(GOOD + "[as_cut]\ncuts = 1\nwidth = 40\n" + PIECE))
    }

    assert rows["as_cut.cuts"].given == "1"
    assert rows["as_cut.width"].used == "40 in = 1016 mm"
    assert rows["as_cut.kerf"].origin == "as under [saw]"
    assert rows["as_cut.piece[0].width"].used == "1.875 in = 47.625 mm"


@pytest.mark.example
def test_the_schema_knows_the_table() -> None:
    table = job_schema()["$defs"]["AsCut"]

    assert table["required"] == ["cuts"]
    assert set(table["properties"]) == {"cuts", "length", "width", "off", "kerf", "guide_offset", "piece"}
    assert table["additionalProperties"] is False
    assert set(job_schema()["$defs"]["AsCutPiece"]["required"]) == {"side", "length", "width"}
    assert "AsCut" in str(job_schema()["$defs"]["Job"])
    assert tomllib.loads(GOOD)


@pytest.mark.example
@pytest.mark.parametrize(
    ("added", "key", "line", "words"),
    [
        ("[as_cut]\nwidth = 40\n", "as_cut.cuts", 0, ["missing", "how many cuts"]),
        ("[as_cut]\ncuts = -1\n", "as_cut.cuts", 1, ["-1", "0 to 1000"]),
        ("[as_cut]\ncuts = 1.5\n", "as_cut.cuts", 1, ["1.5", "whole number"]),
        ("[as_cut]\ncuts = 1\nwidht = 40\n", "as_cut.widht", 2, ["did you mean width"]),
        ("[as_cut]\ncuts = 1\nkerf = 1\n", "as_cut.kerf", 2, ["1 in", "0.5 mm to 6.4 mm"]),
        ("[as_cut]\ncuts = 1\nguide_offset = 25\n", "as_cut.guide_offset", 2, ["25 in", "1/8 in to 24 in"]),
        ("[as_cut]\ncuts = 1\nwidth = 1.5\n", "as_cut.width", 2, ["1.5 in", "2 in to 20 ft"]),
        ("[as_cut]\ncuts = 1\nwidth = 42.01\n", "as_cut.width", 2, ["42.01 in", "42 in", "only takes away"]),
        ("[as_cut]\ncuts = 1\nlength = 73\n", "as_cut.length", 2, ["73 in", "72 in"]),
        (
            "[as_cut]\ncuts = 1\nwidth = 40.25\n" + PIECE,
            "as_cut.width",
            2,
            ["40.25 in and 1.875 in", "42 in", "measure panel and pieces again"],
        ),
        (
            "[as_cut]\ncuts = 1\nwidth = 40\n" + PIECE.replace("72", "72.1"),
            "as_cut.piece[0].length",
            5,
            ["72.1 in", "north side", "72 in"],
        ),
        (
            "[as_cut]\ncuts = 1\nwidth = 38\n" + PIECE + PIECE,
            "as_cut.piece[1]",
            7,
            ["piece 2", "at most 1", "a cut frees one piece"],
        ),
        (
            "[as_cut]\ncuts = 2\nwidth = 38\n" + PIECE + "cut = 3\n",
            "as_cut.piece[0].cut",
            7,
            ["3", "cuts = 2"],
        ),
        (
            "[as_cut]\ncuts = 2\nwidth = 38\n" + (PIECE + "cut = 2\n") * 2,
            "as_cut.piece[1].cut",
            12,
            ["2", "earlier piece"],
        ),
        (
            "[as_cut]\ncuts = 1\nwidth = 40\n" + PIECE.replace("north", "up"),
            "as_cut.piece[0].side",
            4,
            ['"up"', '"north"'],
        ),
        ("[as_cut]\ncuts = 0\n" + PIECE, "as_cut.piece[0]", 2, ["piece 1", "at most 0"]),
        (
            "[as_cut]\ncuts = 0\n" + PIECE + "cut = 1\n",
            "as_cut.piece[0].cut",
            6,
            ["1 is no cut", "none is made"],
        ),
        (
            "[as_cut]\ncuts = 1\nwidth = 40\noff = {north = 2}\n",
            "as_cut.width",
            2,
            ["40 in", "beside off", "or off"],
        ),
        (
            "[as_cut]\ncuts = 1\noff = {north = 2, south = 2}\n",
            "as_cut.cuts",
            1,
            ["1 is too few", "north and south", "at least 2"],
        ),
        (
            "[as_cut]\ncuts = 2\noff = {north = 2, south = 38.01}\n",
            "as_cut.off.south",
            2,
            ["2 in and 38.01 in", "42 in", "2 in must be there"],
        ),
        (
            "[as_cut]\ncuts = 1\noff = {north = 1.87}\n" + PIECE + "cut = 1\n",
            "as_cut.piece[0].width",
            6,
            ["wider than what came off", "1.87 in"],
        ),
        (
            "[as_cut]\ncuts = 1\noff = {north = 2}\n" + PIECE,
            "as_cut.piece[0].cut",
            3,
            ["missing", "number of the cut"],
        ),
        ("[as_cut]\ncuts = 1\n" + PIECE.replace("72", "0"), "as_cut.piece[0].length", 4, ["more than 0 in"]),
    ],
)
def test_a_fault_names_line_key_value_and_bound(added: str, key: str, line: int, words: list[str]) -> None:
    found = {k: (at, message) for k, at, message in faults(added)}

    assert key in found, found
    at, message = found[key]
    assert at == line
    assert all(word in message for word in words), message


@pytest.mark.example
def test_the_bounds_themselves_are_taken() -> None:
    # 40.125 and 1.875 in make up 42 in: no dust at all, which is for the findings to ask about
    job = parse_job(GOOD + "[as_cut]\ncuts = 1\nlength = 72\nwidth = 40.125\n" + PIECE)
    assert job.as_cut is not None


@pytest.mark.example
def test_faults_are_told_beside_those_of_other_tables() -> None:
    keys = [key for key, _, _ in faults("[saw]\nkerf = 9\n[as_cut]\ncuts = 1\nwidth = 43\n")]
    assert keys == ["saw.kerf", "as_cut.width"]


@pytest.mark.example
def test_a_top_with_an_outline_has_no_such_table() -> None:
    text = (
        GOOD.replace("length = 72\nwidth = 42\n", "")
        .replace("[trim]", '[top.outline]\nshape = "racetrack"\nlength = 84\nwidth = 40\n[trim]')
        .replace("north = 6", "all_round = 1")
    )
    with pytest.raises(JobError, match=r"as_cut.*only for a top given by length and width"):
        parse_any_job(text + "[as_cut]\ncuts = 1\n")
