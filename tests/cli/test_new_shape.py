"""`new --shape`: a starter for every outline, which the next command takes as it is."""

import pytest
from cli_jobs import run

from edgewright.cli import new_command
from edgewright.cli.new_command import SHAPES
from edgewright.starter_shapes import SHAPES as KNOWN
from edgewright.starter_shapes import shaped_starter


def test_the_names_of_the_option_are_those_of_the_starters():
    assert tuple(KNOWN) == SHAPES


@pytest.mark.parametrize("shape", [shape for shape in SHAPES if shape != "drawing"])
def test_a_starter_is_written_and_planned_as_it_is(tmp_path, shape):
    path = tmp_path / "job.toml"
    result = run("new", path, "--shape", shape)
    assert (result.exit_code, result.stderr) == (0, "")
    assert path.read_text("utf-8") == shaped_starter(shape)
    assert "edit it, then run: edgewright plan" in result.stdout
    # 0: planned, and no stop is open
    assert run("plan", path).exit_code == 0


def test_a_drawing_says_what_it_waits_for(tmp_path):
    path = tmp_path / "job.toml"
    result = run("new", path, "--shape", "drawing")
    assert result.exit_code == 0
    assert "put your DXF file beside it and edit it" in result.stdout
    planned = run("plan", path)
    assert planned.exit_code == 2
    assert "outline.dxf" in planned.stderr


def test_a_shape_asks_nothing_on_a_terminal(tmp_path, monkeypatch):
    monkeypatch.setattr(new_command, "on_terminal", lambda: True)
    result = run("new", tmp_path / "job.toml", "--shape", "round")
    assert result.exit_code == 0
    assert "Name of the job" not in result.stdout


def test_help_lists_the_shapes_and_a_wrong_one_is_refused(tmp_path):
    told = " ".join(run("new", "--help").stdout.split())
    assert all(shape in told for shape in SHAPES)
    result = run("new", tmp_path / "job.toml", "--shape", "circle")
    assert result.exit_code == 2
    assert "'circle'" in result.stderr
    assert list(tmp_path.iterdir()) == []
