"""The starter and the questions; every job file that is written can be planned or says what is wrong."""

import os
import pty
import sys

import pytest
from cli_jobs import files_below, run

from edgewright.cli import asking, new_command
from edgewright.cli.asking import _NO_TEXT, _PLACES, complaint
from edgewright.errors import Fault, JobError
from edgewright.jobfile import parse_job, read_job
from edgewright.starter import QUESTIONS, StarterAnswers, starter_job


@pytest.fixture
def terminal(monkeypatch):
    monkeypatch.setattr(new_command, "on_terminal", lambda: True)


@pytest.mark.parametrize("options", [[], ["--defaults"]])
def test_without_a_terminal_the_starter_is_written(tmp_path, options):
    path = tmp_path / "job.toml"
    result = run("new", path, *options)
    assert (result.exit_code, result.stderr) == (0, "")
    assert path.read_text("utf-8") == starter_job()
    assert read_job(path).info.title


def test_the_file_is_job_toml_unless_named(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run("new").exit_code == 0
    assert list(files_below(tmp_path)) == ["job.toml"]


def test_an_existing_file_is_overwritten_only_with_force(tmp_path, terminal):
    path = tmp_path / "job.toml"
    path.write_text("mine")
    # refused before the first question, not after the last
    result = run("new", path)
    assert (result.exit_code, result.stdout) == (3, "")
    assert path.read_text() == "mine"
    assert run("new", path, "--force", "--defaults").exit_code == 0
    assert path.read_text("utf-8") == starter_job()


@pytest.mark.parametrize("name", [".", "missing/job.toml", "/proc/job.toml"])
def test_a_file_that_cannot_be_written(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    for force in ([], ["--force"]):
        result = run("new", name, *force)
        assert result.exit_code == 3
        assert len(result.stderr.splitlines()) == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("missing/job.toml", "missing does not exist: make that folder first"),
        ("folder", "is a folder"),
        ("fifo", "is no regular file"),
        ("", "the name of the file is empty"),
    ],
)
def test_a_place_that_cannot_be_written_is_told_before_the_questions(
    tmp_path, monkeypatch, terminal, name, sentence
):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "fifo")
    result = run("new", name, "--force")
    assert (result.exit_code, result.stdout) == (3, "")
    assert sentence in result.stderr


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("job.toml", "job.toml is written: edit it, then run: edgewright plan job.toml --out plan\n"),
        (
            "sp ace.toml",
            "sp ace.toml is written: edit it, then run: edgewright plan 'sp ace.toml' --out plan\n",
        ),
        ("-a.toml", "-a.toml is written: edit it, then run: edgewright plan ./-a.toml --out plan\n"),
        ("a\n\x1b.toml", "a\\n\\x1b.toml is written: edit it, then run: edgewright plan on it\n"),
    ],
)
def test_the_next_command_can_be_copied(tmp_path, monkeypatch, name, told):
    monkeypatch.chdir(tmp_path)
    assert run("new", "--", name).stdout == told


def test_enter_all_the_way_takes_the_defaults(tmp_path, terminal):
    path = tmp_path / "job.toml"
    result = run("new", path, input="\n" * len(QUESTIONS))
    assert result.exit_code == 0, result.output
    job = read_job(path)
    assert (job.top.length.given, job.trim.north.given) == ("72 in", "6 in")
    assert [question.prompt in result.stdout for question in QUESTIONS] == [True] * len(QUESTIONS)


def answered(changes: dict[str, list[str]]) -> str:
    """Lines typed: Enter, but for the questions named."""
    return "".join("\n".join(changes.get(question.key, [""])) + "\n" for question in QUESTIONS)


def test_a_wrong_answer_is_asked_again_with_one_sentence(tmp_path, terminal):
    path = tmp_path / "job.toml"
    typed = answered(
        {
            "material": ["oak", "mdf"],
            "thickness": ["three quarters", "18 mm; 18.2 mm"],
            "length": ["72", "72 mm", "1830 mm"],
            "kerf": ["1 in", "2.4 mm"],
            "table_height": ["high", "29 in"],
        }
    )
    result = run("new", path, input=typed)
    assert result.exit_code == 0, result.output
    for sentence in (
        '"oak" is not known here',
        "does not begin with a number",
        "out of range: 0.5 mm to 6.4 mm",
    ):
        assert sentence in result.stdout
    job = read_job(path)
    assert (job.top.material, job.top.length.given, job.saw.kerf.given) == ("mdf", "1830 mm", "2.4 mm")
    assert [reading.given for reading in job.top.thickness] == ["18 mm", "18.2 mm"]


def test_too_much_off_a_side_asks_for_the_amount_again(tmp_path, terminal):
    # 60 in fits the length of 72 in, but not the width of 42 in: then amount and side are asked again
    typed = answered({"cut_amount": ["60 in"], "cut_side": ["north", "3 in", "south"]})
    path = tmp_path / "job.toml"
    result = run("new", path, input=typed)
    assert result.exit_code == 0, result.output
    assert read_job(path).trim.south.given == "3 in"


def test_nothing_off_asks_for_no_side(tmp_path, terminal):
    path = tmp_path / "job.toml"
    lines = answered({"cut_amount": ["0"]}).split("\n")
    del lines[[question.key for question in QUESTIONS].index("cut_side")]
    result = run("new", path, input="\n".join(lines))
    assert result.exit_code == 0, result.output
    assert "Off which side" not in result.stdout
    assert not any(read_job(path).amounts[side] for side in ("north", "east", "south", "west"))


def test_stopping_writes_nothing(tmp_path, terminal):
    result = run("new", tmp_path / "job.toml", input="Name\nplywood\n")
    assert (result.exit_code, result.stderr.split()[-1]) == (130, "stopped")
    assert list(tmp_path.iterdir()) == []


def test_every_question_is_judged():
    assert {question.key for question in QUESTIONS} == {*_PLACES, "cut_amount"}
    for key in [*_PLACES, "cut_amount"]:
        assert complaint(key, StarterAnswers()) is None
    # the one free text is the title
    for key in {*_PLACES, "cut_amount"} - {"title"}:
        wrong = {"cut_side": "up"}.get(key, "nonsense")
        assert complaint(key, StarterAnswers(**{key: wrong})), key


@pytest.mark.parametrize("amount", ["-1 in", "6", "6 kg", "6 in in"])
def test_amounts_that_are_none(amount):
    assert complaint("cut_amount", StarterAnswers(cut_amount=amount))


def on_a_terminal(args: list[str], typed: list[bytes], env: dict[str, str]) -> tuple[int, bytes]:
    """Run the program with a terminal on both ends; each line is typed once a question waits for it."""
    pid, terminal_end = pty.fork()
    if pid == 0:  # pragma: no cover
        os.environ.update(env)
        os.execv(sys.executable, [sys.executable, "-m", "edgewright.cli.main", *args])
    shown, fresh, waiting = b"", b"", list(typed)
    while True:
        try:
            chunk = os.read(terminal_end, 4096)
        except OSError:
            break
        if not chunk:
            break
        shown, fresh = shown + chunk, fresh + chunk
        if waiting and fresh.endswith(b": "):
            os.write(terminal_end, waiting.pop(0))
            fresh = b""
    os.close(terminal_end)
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), shown


def test_on_a_real_terminal(tmp_path):
    # the process sees a terminal on both ends, asks, and takes Enter for every question
    path = tmp_path / "job.toml"
    code, shown = on_a_terminal(["new", str(path)], [b"\r"] * len(QUESTIONS), {})
    assert code == 0, shown
    assert all(question.prompt.encode() in shown for question in QUESTIONS)
    parse_job(path.read_text("utf-8"))


@pytest.mark.parametrize("key", [*_PLACES, "cut_amount"])
def test_a_byte_that_is_no_text_is_refused_at_its_own_question(key):
    assert complaint(key, StarterAnswers(**{key: "1 in \udcff"})) == _NO_TEXT


def test_a_fault_of_the_whole_file_is_a_complaint(monkeypatch):
    def refuse(*_):
        raise JobError("job.toml", (Fault("", 3, "is not valid TOML"),))

    monkeypatch.setattr(asking, "parse_job", refuse)
    assert complaint("width", StarterAnswers()) == "is not valid TOML"


@pytest.mark.parametrize("diagonals", ["83 in", "83 in;", "83 in; 83 in; 83 in"])
def test_diagonals_are_two(diagonals):
    assert complaint("diagonals", StarterAnswers(diagonals=diagonals)) == (
        f'"{diagonals}" is not a pair: write two lengths with ; between them, or nothing'
    )


@pytest.mark.parametrize("env", [{"PYTHONIOENCODING": "ascii"}, {"PYTHONIOENCODING": "utf-8"}])
def test_an_answer_that_cannot_be_decoded_is_asked_again(tmp_path, env):
    path = tmp_path / "job.toml"
    typed = [b"\xff\r", b"Table\r", *[b"\r"] * (len(QUESTIONS) - 1)]
    code, shown = on_a_terminal(["new", str(path)], typed, env)
    assert code == 0, shown
    assert _NO_TEXT.encode() in shown
    assert read_job(path).info.title == "Table"
