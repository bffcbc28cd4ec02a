"""What `compare` prints, how wide, and its exit codes."""

import json

import pytest
from cli_jobs import BOARDS, FAULTY, IMPOSSIBLE, NO_PROFILE, READY, program, run

from edgewright.cli.compare_command import WORDS
from edgewright.cutlist import compare as module
from edgewright.cutlist.questions import QUESTIONS
from edgewright.errors import CheckError


@pytest.fixture
def compare(tmp_path):
    def compare(text, *more, columns=80, vary="sides,corners"):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return run("compare", path, "--vary", vary, *more, env={"COLUMNS": str(columns)})

    return compare


def test_words_of_the_option_are_the_questions():
    assert tuple(QUESTIONS) == WORDS


@pytest.mark.parametrize("job", [READY, IMPOSSIBLE, NO_PROFILE, BOARDS])
def test_it_is_done_whether_or_not_a_variant_is_ready(compare, job):
    result = compare(job)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "* all off north" in result.stdout


def test_a_faulty_file_exits_with_2(compare):
    result = compare(FAULTY)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "top.widht" in result.stderr
    content = json.loads(compare(FAULTY, "--json").stdout)
    assert content["status"] == "faulty"
    assert {"key": "top.widht", "line": 6} in [{k: f[k] for k in ("key", "line")} for f in content["faults"]]


def test_a_word_that_cannot_be_varied_is_told(compare):
    result = compare(READY, vary="sides,colour")
    assert result.exit_code == 2
    assert '"colour" cannot be varied: choose from sides, corners, layers, radii' in result.stderr


@pytest.mark.parametrize("columns", [40, 60, 80, 100, 200])
@pytest.mark.parametrize("job", [READY, IMPOSSIBLE, BOARDS])
def test_lines_fit_the_screen(compare, job, columns):
    lines = compare(job, columns=columns, vary="sides,layers").stdout.splitlines()
    assert max(map(len, lines)) <= min(columns, 100)


def test_columns_stand_under_their_heads(compare):
    lines = compare(READY, vary="sides").stdout.splitlines()
    head = next(n for n, line in enumerate(lines) if line.split() == ["strip", "from", "base", "off"])
    under, *rows = lines[head + 1 : head + 5]
    start = lines[head].index("strip")
    assert under[start:].startswith("in ")
    # 3 + 3 in give strips of 1 3/8 in, 6 in from one side 1 7/8 in (the bench's own arithmetic)
    assert [row[start : start + 5] for row in rows] == ["1 7/8", "1 7/8", "1 3/8"]
    assert [row[:4] for row in rows] == ["  * ", "    ", "    "]


def test_no_plan_is_a_sentence_told_once(compare):
    # strips 2 3/8 in wide do not come from 2 in: 72 + 72 + 2 x (40 - 2 x 2 3/8) = 214 1/2 in are missing
    output = " ".join(compare(IMPOSSIBLE, vary="sides").stdout.split())
    assert output.count("no plan: short by 214 1/2 in of strip 2 3/8 in wide. Buy or find") == 1
    assert "not ready for the same reason as all off north." in output
    assert "None of them is ready." in output


def test_boards_to_buy_are_told_in_words_and_cost(compare):
    output = " ".join(compare(BOARDS).stdout.split())
    # 72 + 72 + 2 x (41 - 2 x 2) = 218 in of strip 2 in wide; a board of 12 in gives five of 96 in
    assert "buy 1 x board (12 in x 96 in): 20.50 in all" in output
    assert "1 board to buy, cost 20.50" in output


def test_combinations_say_their_limit(compare):
    output = " ".join(compare(READY, "--all", vary="sides,corners,radii").stdout.split())
    # 3 x 4 x 5 (1/4 below is no bit of both) x 4
    assert "Work limit: 60 of 240 combinations were planned" in output
    assert "Work limit" not in compare(READY, "--all").stdout


def test_numbers_are_explained_and_no_cut_is_told(compare):
    output = compare(READY, vary="sides,radii").stdout
    assert "401 base off centre" in output
    for words in ("guide", "keep line", "\x1b"):
        assert words not in output


def test_json_holds_the_same_rows(compare):
    content = json.loads(compare(READY, "--json", vary="sides").stdout)
    assert (content["format"], content["status"], content["units"]) == (
        "edgewright compare",
        "compared",
        "in",
    )
    (group,) = content["groups"]
    assert [row["name"] for row in group["rows"]] == ["all off north", "all off south", "half off each side"]
    assert [row["as_written"] for row in group["rows"]] == [True, False, False]
    # 1 7/8 in and 1 3/8 in, 8128 ticks to the inch; 6 in off one side move the middle by 76.2 mm
    assert [row["strip_width_ticks"] for row in group["rows"]] == [15240, 15240, 11176]
    assert [row["base_offset_mm"] for row in group["rows"]] == [[0, 76.2], [0, -76.2], [0, 0]]
    assert [row["warnings"] for row in group["rows"]] == [[401], [401], []]


def test_nothing_comes_off(compare):
    result = compare(READY.replace('north = "6 in"', ""), vary="sides")
    assert result.exit_code == 0
    assert "There is nothing to choose: nothing comes off any side." in result.stdout


def test_where_nothing_can_be_planned_the_reasons_stand_alone(compare, monkeypatch):
    def refuses(job):
        raise CheckError("the checker refused the plan")

    monkeypatch.setattr(module, "plan", refuses)
    result = compare(READY, vary="sides")
    assert result.exit_code == 0
    assert result.stdout.count("the checker refused the plan.") == 1
    assert "None of them is ready." in result.stdout


def test_piped_it_prints_the_same_bytes_each_time(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY, encoding="utf-8")
    first, second = (program("compare", path, "--vary", "sides", env={"NO_COLOR": "1"}) for _ in range(2))
    assert (first.returncode, first.stderr) == (0, b"")
    assert first.stdout == second.stdout
    assert b"\x1b" not in first.stdout
