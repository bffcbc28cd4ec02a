"""Cold starts, as at the bench: whole interpreter runs, to be compared within one run of the benchmarks."""

import os
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
EDGEWRIGHT = str(Path(sysconfig.get_path("scripts")) / "edgewright")
JOB = str(ROOT / "examples" / "narrow_one_side.toml")

RUNS = {
    "python -c 'import click'": [sys.executable, "-c", "import click"],
    "edgewright --help": [EDGEWRIGHT, "--help"],
    "python -c 'import cadquery'": [sys.executable, "-c", "import cadquery"],
    "edgewright plan --no-solid --out": [EDGEWRIGHT, "plan", JOB, "--force", "--no-solid", "--out"],
    "edgewright plan --out": [EDGEWRIGHT, "plan", JOB, "--force", "--out"],
    "edgewright check": [EDGEWRIGHT, "check", JOB],
}


@pytest.mark.parametrize("name", RUNS)
def test_whole_run(benchmark, name, tmp_path):
    """One command in a fresh interpreter."""
    words = RUNS[name] + ([str(tmp_path / "plan")] if name.endswith("--out") else [])
    assert shutil.which(words[0])
    env = {**os.environ, "NO_COLOR": "1"}

    def run():
        subprocess.run(words, check=True, capture_output=True, env=env)

    benchmark.pedantic(run, rounds=7, warmup_rounds=1)
