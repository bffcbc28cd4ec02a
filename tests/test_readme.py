"""The README tells the truth: its commands are run and what it prints is compared."""

import os
import re
import shlex
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
#: A console block: lines with $ are commands, what follows is their output; "..." stands for lines left out.
BLOCKS = re.findall(r"```console\n(.*?)```", README, re.S)
SET_UP = ("make ", "git ", "python3 -m venv", ".venv/bin/", "cd ")


def steps(block):
    """Return pairs of command and expected output lines of a console block."""
    found = []
    for line in block.splitlines():
        if line.startswith("$ "):
            found.append((line[2:], []))
        else:
            found[-1][1].append(line.rstrip())
    return found


STEPS = [step for block in BLOCKS for step in steps(block)]
RUN = [step for step in STEPS if not step[0].startswith(SET_UP)]


def matches(expected, printed):
    """Return whether the lines agree, where an expected line ``...`` stands for any number of lines."""
    pattern = "".join(
        r"(?:.*\n)*?" if line.strip() == "..." else re.escape(line) + r"[ ]*\n" for line in expected
    )
    return re.fullmatch(pattern + r"\s*", printed) is not None


@pytest.fixture(scope="module")
def workshop(tmp_path_factory):
    """Return a folder with the examples in it, where all commands run one after another."""
    folder = tmp_path_factory.mktemp("readme")
    (folder / "examples").symlink_to(ROOT / "examples")
    return folder


def test_the_readme_has_commands_to_run():
    assert len(RUN) >= 3


@pytest.mark.parametrize("step", RUN, ids=lambda step: step[0])
def test_command_prints_what_the_readme_says(step, workshop):
    command, expected = step
    scripts = sysconfig.get_path("scripts")
    words = [str(Path(scripts) / w) if w == "edgewright" else w for w in shlex.split(command)]
    words = [sys.executable if w == "python" else w for w in words]
    env = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "PYTHONIOENCODING": "utf-8"}
    result = subprocess.run(
        words, cwd=workshop, capture_output=True, text=True, encoding="utf-8", env=env, check=False
    )
    assert result.returncode in (0, 1), result.stderr
    assert matches(expected, result.stdout + result.stderr), result.stdout + result.stderr


def test_python_example_runs(workshop, capsys, monkeypatch):
    monkeypatch.chdir(workshop)
    blocks = re.findall(r"```python\n(.*?)```", README, re.S)
    assert blocks
    for block in blocks:
        expected = [line[2:].strip() for line in block.splitlines() if line.startswith("# ")]
        exec(compile(block, "README.md", "exec"), {})
        assert capsys.readouterr().out.splitlines() == expected


def test_make_targets_of_the_readme_exist():
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    targets = set(re.findall(r"make (plan|test|bench|check)\b", README))
    assert {"plan", "test"} <= targets
    assert all(re.search(rf"^{target}:", makefile, re.M) for target in targets)


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "tests/README.md", "examples/GALLERY.md"])
def test_every_file_that_is_named_exists(page):
    text = (ROOT / page).read_text(encoding="utf-8")
    named = re.findall(r"`([\w./*-]+/[\w.*-]*)`", text)
    missing = [
        name for name in named if not name.startswith((".venv", "plans/")) and not list(ROOT.glob(name))
    ]
    assert not missing
