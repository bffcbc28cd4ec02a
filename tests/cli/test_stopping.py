"""Ctrl-C, SIGTERM and SIGHUP: one line, one exit code, and nothing half-written stays."""

import os
import signal
import subprocess
import sys
import time

import pytest
from cli_jobs import READY, files_below, run

import edgewright.cutlist.any_plan as planner
from edgewright.cli import stopping
from edgewright.cli.output import write_folder

SIGNALS = [(signal.SIGINT, 130), (signal.SIGTERM, 143), (signal.SIGHUP, 129)]

# a C call that no signal interrupts, as the solver's is; it would last for minutes
STUCK = """
import hashlib, sys
import edgewright.cutlist.any_plan as planner
def stuck(*_):
    print("begun", flush=True)
    hashlib.pbkdf2_hmac("sha256", b"", b"", 2_000_000_000)
planner.plan_any = stuck
from edgewright.cli.main import main
main(sys.argv[1:])
"""
# stopped after the second file of a folder
WRITING = """
import os, pathlib, sys
real, count, number = pathlib.Path.write_bytes, [], int(sys.argv.pop())
def stopping_write(self, content):
    count.append(real(self, content))
    if len(count) == 2:
        os.kill(os.getpid(), number)
pathlib.Path.write_bytes = stopping_write
from edgewright.cli.main import main
main(sys.argv[1:])
"""


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(READY, encoding="utf-8")
    return path


@pytest.mark.parametrize(("number", "code"), SIGNALS)
def test_a_long_call_of_the_solver_is_ended(job, number, code):
    command = [sys.executable, "-c", STUCK, "plan", str(job), "--out", str(job.parent / "out")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE) as process:
        assert process.stdout.readline() == b"begun\n"
        began = time.monotonic()
        process.send_signal(number)
        try:
            rest, told = process.communicate(timeout=20)
        finally:
            process.kill()
    assert time.monotonic() - began < 10
    assert (process.returncode, rest, told) == (code, b"", b"edgewright: stopped\n")
    assert list(files_below(job.parent)) == ["job.toml"]


@pytest.mark.parametrize(("number", "code"), SIGNALS)
def test_nothing_half_written_stays(job, number, code):
    command = [sys.executable, "-c", WRITING, "plan", job, "--no-solid", "--out", job.parent / "out"]
    done = subprocess.run(
        [*map(str, command), str(int(number))], capture_output=True, timeout=60, check=False
    )
    assert (done.returncode, done.stdout, done.stderr) == (code, b"", b"edgewright: stopped\n")
    assert os.listdir(job.parent) == ["job.toml"]


def test_what_is_ignored_stays_ignored(job):
    # as under nohup
    command = [
        sys.executable,
        "-c",
        WRITING,
        "plan",
        str(job),
        "--no-solid",
        "--out",
        str(job.parent / "out"),
    ]
    number = str(int(signal.SIGHUP))
    done = subprocess.run(
        ["sh", "-c", "trap '' HUP; exec \"$@\"", "sh", *command, number],
        capture_output=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, b"")


def test_stopped_during_the_first_imports(tmp_path):
    fake = tmp_path / "click"
    fake.mkdir()
    (fake / "__init__.py").write_text("import os, signal\nos.kill(os.getpid(), signal.SIGINT)\n")
    done = subprocess.run(
        [sys.executable, "-m", "edgewright.cli.main", "--help"],
        env={**os.environ, "PYTHONPATH": str(tmp_path)},
        capture_output=True,
        timeout=60,
        check=False,
    )
    assert (done.returncode, done.stdout, done.stderr) == (130, b"", b"edgewright: stopped\n")


def test_a_stop_that_a_library_turned_into_its_own_error(job, monkeypatch):
    def failing(*_):
        try:
            os.kill(os.getpid(), signal.SIGTERM)
            time.sleep(5)
        except KeyboardInterrupt as error:
            raise RuntimeError("Error calling __set_name__") from error

    monkeypatch.setattr(planner, "plan_any", failing)
    result = run("plan", job)
    assert (result.exit_code, result.stderr) == (143, "edgewright: stopped\n")
    # and the next one in the same process is not blamed for it
    monkeypatch.undo()
    assert run("check", job).exit_code == 0
    assert signal.getsignal(signal.SIGTERM) == signal.SIG_DFL


def test_a_stop_that_was_lost_on_the_way_still_counts(job, monkeypatch, capfd):
    real = planner.plan_any

    class Lost:
        def __del__(self):
            os.kill(os.getpid(), signal.SIGINT)
            time.sleep(5)

    def losing(*args):
        Lost()  # nothing that is raised comes out of __del__
        return real(*args)

    monkeypatch.setattr(planner, "plan_any", losing)
    result = run("plan", job, "--no-solid", "--out", job.parent / "out")
    assert (result.exit_code, result.stdout, result.stderr) == (130, "", "edgewright: stopped\n")
    assert os.listdir(job.parent) == ["job.toml"]
    assert capfd.readouterr() == ("", "")


def test_a_signal_waits_while_a_folder_is_put_in_place(tmp_path, monkeypatch):
    files = {"plan.json": b'{"format": "edgewright plan"}'}
    write_folder(tmp_path / "out", files)
    real = os.rename

    def rename(source, target):
        real(source, target)
        os.kill(os.getpid(), signal.SIGINT)

    monkeypatch.setattr(os, "rename", rename)
    new = files | {"plan.json": b'{"format": "edgewright plan", "files": []}'}
    with pytest.raises(KeyboardInterrupt), stopping.signals_taken():
        write_folder(tmp_path / "out", new, force=True)
    # both renames were done and the old one was removed before the signal counted
    assert os.listdir(tmp_path) == ["out"]
    assert files_below(tmp_path / "out") == new


def test_the_watch_leaves_a_quick_end_alone(monkeypatch):
    ended = []
    monkeypatch.setattr(stopping, "_end", ended.append)
    monkeypatch.setattr(stopping, "GRACE_S", 0.05)

    def interrupted():
        with stopping.signals_taken(), stopping.computing():
            os.kill(os.getpid(), signal.SIGINT)
            time.sleep(5)

    with pytest.raises(KeyboardInterrupt):
        interrupted()
    time.sleep(0.2)
    assert ended == []
