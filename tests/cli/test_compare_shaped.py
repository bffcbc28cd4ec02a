"""What `compare` prints of tops with an outline."""

import json
from pathlib import Path

import pytest
from cli_jobs import READY, run

EXAMPLES = Path(__file__).resolve().parents[2] / "examples" / "shapes"


def compared(name, vary, *more, columns=80):
    return run("compare", EXAMPLES / f"{name}.toml", "--vary", vary, *more, env={"COLUMNS": str(columns)})


@pytest.mark.parametrize("columns", [40, 60, 80, 100])
@pytest.mark.parametrize(
    ("name", "vary"),
    [("round_from_square", "segments,build_up"), ("tapered", "fits"), ("boat", "sides,orders")],
)
def test_lines_fit_the_screen(name, vary, columns):
    result = compared(name, vary, columns=columns)
    assert (result.exit_code, result.stderr) == (0, "")
    assert max(map(len, result.stdout.splitlines())) <= columns


def test_blanks_are_told_under_each_row_and_once_where_they_are_alike():
    different = compared("round_from_square", "segments").stdout
    assert "blanks: 8 segments" in different
    assert "blanks: 8 cut from 4 sticks" in different
    alike = compared("round_from_square", "radii").stdout
    assert "blanks:" not in alike
    assert "12 blanks" in alike
    assert "to buy or find: 8 segments 12 11/32" in " ".join(alike.split())


def test_each_fit_has_its_finished_size():
    output = compared("tapered", "fits", columns=100).stdout
    assert "HOW THE TOP IS MADE TRUE" in output
    # beside the column of warnings the name goes on in a second line
    assert "* north parallel to south, as 58 x 28 1/4" in " ".join(output.split())
    assert [line.split()[-1] for line in output.splitlines() if "28 1/4" in line] == ["401"]
    # 28 1/4 in are left as written, 28 1/2 in would be at the narrow end
    assert "58 x 28 1/2" in output
    assert "Comes off: least" in output


def test_json_holds_the_same_rows_with_their_units():
    content = json.loads(compared("round_from_square", "segments", "--json").stdout)
    (found,) = content["groups"]
    assert [row["name"] for row in found["rows"]][:2] == ["12 segments", "8 segments"]
    assert [sum(blank["count"] for blank in row["blanks"]) for row in found["rows"]][:2] == [12, 8]
    row = found["rows"][0]
    assert row["finished_mm"] == pytest.approx([46 * 25.4, 46 * 25.4])
    assert row["edge_thickness_mm"] == pytest.approx(38.1)
    assert "cost_cents" not in row


def test_a_question_that_does_not_arise_is_told(tmp_path):
    output = compared("round_from_square", "fits").stdout
    assert "There is nothing to choose: what is asked does not arise for this top." in output
    path = tmp_path / "job.toml"
    path.write_text(READY, encoding="utf-8")
    assert "does not arise" in run("compare", path, "--vary", "segments").stdout


def test_a_faulty_outline_exits_with_2(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY.replace("[trim]", '[top.outline]\nshape = "circle"\n[trim]'), encoding="utf-8")
    result = run("compare", path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "circle" in result.stderr


@pytest.mark.example
def test_what_the_stock_gives_is_not_to_be_bought():
    said = " ".join(compared("round_from_square", "segments").stdout.split())
    # one segment from each corner of the square; of 16 there are two
    assert "4 cut from 4 sticks; to buy or find: 8 segments 12 11/32 x 2 23/32 x 3/4 in" in said
    assert "8 cut from 4 sticks; to buy or find: 8 segments" in said
    assert "blanks: 8 segments 19 1/16 x 3 5/8 x 3/4 in" in said
    assert "Blanks in all: 8 segments 8; 12 segments 12;" in said
