"""What `ask` prints, how wide, and its exit codes."""

import json
import os
import signal
import subprocess
import sys

import pytest
from cli_jobs import BOARDS, FAULTY, IMPOSSIBLE, NO_PROFILE, READY, run

from edgewright.cli.ask_command import WORDS
from edgewright.cutlist.asking import extra_trim
from edgewright.cutlist.asking.ask import ASKED, ask
from edgewright.jobfile import parse_any_job, parse_job

SHAPED = """
[job]
title = "Round table"
[top]
thickness = "3/4 in"
material = "plywood"
[top.outline]
shape = "round"
diameters = ["48 in"]
"""
# stopped while the solver computes, which no signal interrupts
STUCK = """
import hashlib, sys
import edgewright.cutlist.asking.ask as asking
def stuck(*_):
    print("begun", flush=True)
    hashlib.pbkdf2_hmac("sha256", b"", b"", 2_000_000_000)
asking.ask = stuck
from edgewright.cli.main import main
main(sys.argv[1:])
"""


@pytest.fixture
def asked(tmp_path):
    def asked(text, *more, columns=80):
        path = tmp_path / "job.toml"
        path.write_text(text, encoding="utf-8")
        return run("ask", path, *more, env={"COLUMNS": str(columns)})

    return asked


def test_words_of_the_option_are_the_questions():
    assert tuple(ASKED) == WORDS


@pytest.mark.parametrize("job", [READY, IMPOSSIBLE])
def test_every_job_has_every_answer(asked, job):
    result = asked(job)
    assert (result.exit_code, result.stderr) == (0, "")
    for question in ASKED.values():
        assert f"\n{question.says.upper()}\n" in result.stdout
    assert result.stdout.count("plans and widths tried: ") == len(ASKED)


def test_an_edge_that_cannot_be_routed_has_answers_too(asked):
    result = asked(NO_PROFILE, "--question", "best,trim")
    assert result.exit_code == 0
    assert "cannot be: no such profile" in " ".join(result.stdout.split())


def test_one_question_may_be_asked_by_itself(asked):
    result = asked(READY, "--question", "scarce", "--question", "Widest")
    heads = [line for line in result.stdout.splitlines() if line.isupper()]
    # in the order of the questions, not of the asking
    assert heads == [ASKED[name].says.upper() for name in ("widest", "scarce")]
    assert asked(READY, "--question", "widest,scarce").stdout == result.stdout


def test_an_unknown_question_is_one_sentence(asked):
    result = asked(READY, "--question", "colour")
    assert result.exit_code == 2
    assert '"colour" is no question: ask widest, trim, best, margins, scarce.' in result.stderr


def test_a_faulty_file_exits_with_2(asked):
    result = asked(FAULTY)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "top.widht" in result.stderr
    content = json.loads(asked(FAULTY, "--json").stdout)
    assert (content["status"], content["answers"]) == ("faulty", [])
    assert {"key": "top.widht", "line": 6} in [{k: f[k] for k in ("key", "line")} for f in content["faults"]]


@pytest.mark.parametrize("columns", [40, 80, 200])
@pytest.mark.parametrize("job", [READY, IMPOSSIBLE])
def test_lines_fit_the_screen(asked, job, columns):
    lines = asked(job, "--question", "widest,trim,margins,scarce", columns=columns).stdout.splitlines()
    assert max(map(len, lines)) <= min(columns, 100)


def test_ticks_and_cents_are_written_as_lengths_and_prices(asked, monkeypatch):
    monkeypatch.setattr(extra_trim, "MOST_EXTRA", {"in": 254})
    # 1 in gives no strip of 2 in, so that the proof that a board must be bought speaks of lengths
    output = asked(BOARDS, "--question", "trim").stdout
    assert "for 0.00 there are 0 in of strip" in " ".join(output.split())
    assert "ticks" not in output


def test_json_holds_the_figures_behind_the_words(asked):
    content = json.loads(asked(READY, "--json", "--question", "widest,trim").stdout)
    assert (content["format"], content["version"], content["status"]) == ("edgewright ask", 1, "answered")
    assert [answer["question"] for answer in content["answers"]] == ["widest", "trim"]
    widest = content["answers"][0]
    assert widest["proven"] is True
    written = next(row for row in widest["rows"] if row["name"] == "as written")
    # 6 / 3 - 1/8 = 1 7/8 in
    assert written["strip_width_ticks"] == 8128 * 15 // 8


def test_a_top_with_an_outline_is_told_so(asked):
    result = asked(SHAPED, "--question", "widest")
    assert result.exit_code == 0
    assert "asked of a top given by length and width only" in " ".join(result.stdout.split())
    assert "tried" not in result.stdout
    assert not any(answer.applies for answer in ask(parse_any_job(SHAPED)).answers)


def test_every_step_is_told_as_progress():
    said = []
    ask(parse_job(IMPOSSIBLE), progress=said.append)
    for start in (
        "widest strip: ",
        "extra trim: ",
        "best side and corners: ",
        "margins: ",
        "what is scarce: ",
    ):
        assert [words for words in said if words.startswith(start)]


def test_it_stops_cleanly(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY, encoding="utf-8")
    command = [sys.executable, "-c", STUCK, "ask", str(path)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout.readline() == b"begun\n"
        process.send_signal(signal.SIGINT)
        try:
            rest, told = process.communicate(timeout=20)
        finally:
            process.kill()
    assert (process.returncode, rest, told) == (130, b"", b"edgewright: stopped\n")


def test_the_hash_seed_changes_nothing(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(BOARDS, encoding="utf-8")
    printed = set()
    for seed in ("1", "2"):
        command = [sys.executable, "-m", "edgewright.cli.main", "ask", str(path), "--question", "widest"]
        env = {"PATH": os.environ["PATH"], "PYTHONHASHSEED": seed}
        printed.add(subprocess.run(command, env=env, capture_output=True, timeout=60, check=True).stdout)
    assert len(printed) == 1
