"""Exit codes, one sentence for every error, and a quick --help."""

import json
import os
import subprocess
import sys

import click
import pytest
from cli_jobs import FAULTY, READY, program, run

import edgewright
import edgewright.cutlist.any_plan as planner
from edgewright.cli.main import main
from edgewright.errors import CheckError, GeometryError, InputError, OutputError
from edgewright.jobfile import read_job

HEAVY = [
    "cadquery",
    "ezdxf",
    "highspy",
    "numpy",
    "pint",
    "pydantic",
    "edgewright.job",
    "edgewright.cutlist.plan",
]


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY, encoding="utf-8")
    return path


@pytest.mark.parametrize("args", [["--help"], ["--version"], ["plan", "--help"], ["new", "--help"]])
def test_help_loads_nothing_heavy(args):
    code = (
        "import sys\nfrom edgewright.cli.main import main\n"
        "try: main(sys.argv[1:])\nexcept SystemExit as end: assert not end.code, end.code\n"
        f"print('LOADED', [name for name in {HEAVY} if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code, *args], capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "LOADED []", done.stderr


def test_every_command_says_what_it_does():
    for name, command in main.commands.items():
        result = run(name, "--help")
        assert result.exit_code == 0
        assert command.help
        assert all(p.help for p in command.params if isinstance(p, click.Option))


def test_version():
    assert run("--version").output == f"edgewright {edgewright.__version__}\n"


@pytest.mark.parametrize("args", [["nonsense"], ["plan"], ["plan", "a", "b"], ["check", "--nonsense", "a"]])
def test_wrong_usage(args):
    result = run(*args)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "Usage: edgewright" in result.stderr


def test_schema_names_every_table():
    schema = json.loads(run("schema").stdout)
    jobs = [schema["$defs"][entry["$ref"].rpartition("/")[2]] for entry in schema["anyOf"]]
    assert len(jobs) == 3
    for job in jobs:
        assert {"job", "top", "trim", "edge", "saw", "stock"} <= set(job["properties"])


@pytest.mark.parametrize("command", ["plan", "check"])
@pytest.mark.parametrize(
    ("make", "sentence"),
    [
        (lambda path: None, "there is no such file"),
        (lambda path: path.mkdir(), "is a folder"),
        (lambda path: path.write_bytes(b""), "is empty"),
        (lambda path: path.write_bytes(b" \n\t\r\n"), "is empty"),
        (lambda path: path.write_bytes(bytes(range(256))), "not UTF-8"),
        (lambda path: path.write_bytes(READY.encode("utf-16")), "not UTF-8"),
        (lambda path: path.write_bytes(b"\0" * 100), "not valid TOML"),
        (lambda path: path.write_text("[job\n"), ":1: "),
        (lambda path: path.write_text(FAULTY, encoding="utf-8"), "did you mean width?"),
        (lambda path: path.write_bytes(b"# \n" * 400_000), "larger than 1 MiB"),
    ],
)
def test_bad_job_file(tmp_path, command, make, sentence):
    path = tmp_path / "bad.toml"
    make(path)
    result = run(command, path)
    assert (result.exit_code, result.stdout) == (2, "")
    assert sentence in result.stderr
    assert result.stderr.startswith(str(path))
    assert "Traceback" not in result.stderr


def test_all_faults_are_told_each_on_its_line(tmp_path):
    path = tmp_path / "bad.toml"
    path.write_text(FAULTY.replace('north = "6 in"', 'north = "-6 in"'), encoding="utf-8")
    places = [line.split(": ")[0] for line in run("check", path).stderr.splitlines()]
    # widht stands on line 6 and -6 in on line 10; the missing width is told at the head of its table, line 4
    assert places == [f"{path}:{line}" for line in (4, 6, 10)]


@pytest.mark.parametrize(
    ("error", "code", "sentence"),
    [
        (InputError("too wide"), 2, "edgewright: too wide\n"),
        (GeometryError("no such shape"), 2, "edgewright: no such shape\n"),
        (CheckError("refused"), 1, "edgewright: refused\n"),
        (OutputError("disk full"), 3, "edgewright: disk full\n"),
        (MemoryError(), 70, "edgewright: there is not enough memory for this job\n"),
        (KeyboardInterrupt(), 130, "edgewright: stopped\n"),
        (OSError(5, "Input/output error"), 3, "(input/output error)"),
        (ZeroDivisionError("division by zero"), 70, "this is a defect of the program, please report it"),
    ],
)
def test_every_error_is_one_sentence_and_a_code(job, monkeypatch, error, code, sentence):
    def failing(*_):
        raise error

    monkeypatch.delenv("EDGEWRIGHT_DEBUG", raising=False)
    monkeypatch.setattr(planner, "plan_any", failing)
    result = run("plan", job)
    assert (result.exit_code, result.stdout) == (code, "")
    assert sentence in result.stderr
    assert len(result.stderr.strip().splitlines()) == 1
    assert "Traceback" not in result.stderr


def test_the_traceback_of_a_defect_is_shown_on_request(job, monkeypatch):
    def failing(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(planner, "plan_any", failing)
    monkeypatch.setenv("EDGEWRIGHT_DEBUG", "1")
    assert "Traceback" in run("plan", job).stderr


def test_a_file_name_cannot_steer_the_terminal(tmp_path):
    result = run("check", tmp_path / "a\x1b[2Jb.toml")
    assert result.exit_code == 2
    assert "\x1b" not in result.stderr
    assert r"a\x1b[2Jb.toml" in result.stderr


def test_a_file_name_with_broken_characters(tmp_path):
    done = program("check", os.fsdecode(b"\xff.toml"), cwd=tmp_path)
    assert done.returncode == 2
    assert b"there is no such file" in done.stderr
    assert b"Traceback" not in done.stderr


@pytest.mark.parametrize("command", ["plan", "check", "new"])
def test_a_name_with_a_line_break_stays_on_one_line(tmp_path, command):
    result = run(command, tmp_path / "a\nb" / "c\x1b.toml")
    assert result.exit_code == (3 if command == "new" else 2)
    assert len(result.stderr.splitlines()) == 1
    assert r"a\nb" in result.stderr
    assert "\x1b" not in run("check", "a", "b\x1b[2J").stderr


@pytest.mark.parametrize("command", ["plan", "check"])
def test_an_empty_name_of_a_job_file(command):
    result = run(command, "")
    assert (result.exit_code, result.stdout) == (2, "")
    assert "the name of the job file is empty: give one, like job.toml" in result.stderr


def test_what_may_not_be_read_or_written_is_told_in_our_words(job, monkeypatch):
    monkeypatch.setattr(os, "access", lambda *_: False)
    assert run("check", job).exit_code == 0
    (job.parent / "out").mkdir()
    # the folder is there: that is the first reason, and not what click would say
    for args in (["plan", job, "--out", job.parent / "out"], ["new", job]):
        result = run(*args)
        assert (result.exit_code, len(result.stderr.splitlines())) == (3, 1)


def closed(redirection, *args):
    """Run the program from a shell that closes one of its standard streams."""
    command = [
        "sh",
        "-c",
        f'exec "$@" {redirection}',
        "sh",
        sys.executable,
        "-m",
        "edgewright.cli.main",
        *args,
    ]
    return subprocess.run(command, capture_output=True, timeout=60, check=False)


@pytest.mark.parametrize("redirection", ["<&-", ">&-", "2>&-", "<&- >&- 2>&-"])
@pytest.mark.parametrize(
    ("args", "code"),
    [
        (["schema"], 0),
        (["--help"], 0),
        (["nonsense"], 2),
        (["check", "none.toml"], 2),
        (["plan", "JOB", "--no-solid", "--out", "OUT"], 0),
        (["new", "NEW"], 0),
    ],
)
def test_a_closed_stream_changes_no_exit_code(job, redirection, args, code):
    names = {"JOB": job, "OUT": job.parent / "out", "NEW": job.parent / "new.toml"}
    done = closed(redirection, *[str(names.get(arg, arg)) for arg in args])
    assert (done.returncode, b"Traceback" in done.stderr) == (code, False)
    if "NEW" in args:
        assert read_job(names["NEW"]).info.title
    if "OUT" in args:
        assert sorted(os.listdir(names["OUT"])) == [
            "customer.pdf",
            "cuts.csv",
            "dxf",
            "packet.pdf",
            "pieces.csv",
            "plan.json",
            "quantities.csv",
            "svg",
            "tables.xlsx",
        ]


def test_the_reader_may_go_away():
    # the schema is larger than a pipe holds, so the writer meets the closed end
    command = [sys.executable, "-m", "edgewright.cli.main", "schema"]
    read, write = os.pipe()
    os.close(read)
    done = subprocess.run(command, stdout=write, stderr=subprocess.PIPE, timeout=60, check=False)
    os.close(write)
    assert (done.returncode, done.stderr) == (141, b"")


def test_full_standard_output():
    with open("/dev/full", "wb") as full:
        command = [sys.executable, "-m", "edgewright.cli.main", "schema"]
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, timeout=60, check=False)
    assert done.returncode == 3
    assert done.stderr.decode().count("\n") == 1
    assert "no space left on device" in done.stderr.decode()


@pytest.mark.parametrize(
    "env",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"PYTHONIOENCODING": "latin-1", "NO_COLOR": "1", "COLUMNS": "40", "TERM": "dumb"},
    ],
)
def test_any_terminal_can_show_the_summary(job, env):
    done = program("plan", job, env=env)
    assert (done.returncode, done.stderr) == (0, b"")
    assert b"\x1b" not in done.stdout
    text = done.stdout.decode("latin-1")
    # what the encoding lacks is spelled out
    assert text.splitlines()[0] in ("Reading table x 2", "Reading table × 2")
    if "COLUMNS" in env:
        assert max(map(len, text.splitlines())) <= 40
