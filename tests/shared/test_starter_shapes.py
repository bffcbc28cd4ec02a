"""Starters of tops with an outline: read without a fault, and each hidden line is a line that the reader knows."""

import re
import shutil
from pathlib import Path
from typing import get_args

import pytest

from edgewright.errors import InputError, JobError
from edgewright.job_outline import AnyOutline
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job, read_any_job
from edgewright.starter_shapes import SHAPES, shaped_starter

EXAMPLES = Path(__file__).resolve().parents[2] / "examples" / "shapes"
MEASURED = [shape for shape in SHAPES if shape != "drawing"]


@pytest.mark.example
def test_there_is_a_starter_for_every_shape_that_can_be_read():
    union = get_args(AnyOutline)[0]
    assert {table.model_fields["shape"].annotation.__args__[0] for table in get_args(union)} == set(SHAPES)


@pytest.mark.example
@pytest.mark.parametrize("shape", MEASURED)
def test_a_starter_reads_without_a_fault(shape):
    job = parse_any_job(shaped_starter(shape))
    assert isinstance(job, ShapedJob)
    assert job.top.outline.shape == shape
    assert max(map(len, shaped_starter(shape).split("\n"))) <= 120


@pytest.mark.example
def test_a_drawing_is_asked_for_and_then_read(tmp_path):
    path = tmp_path / "job.toml"
    path.write_text(shaped_starter("drawing"), encoding="utf-8")
    with pytest.raises(JobError, match=r"top.outline.file: \"outline.dxf\" is not there"):
        read_any_job(path)
    assert "until its file is there" in shaped_starter("drawing")
    shutil.copy(EXAMPLES / "drawn_desk.dxf", tmp_path / "outline.dxf")
    path.write_text(
        shaped_starter("drawing").replace('# layer = "OUTLINE"', 'layer = "DESK"'), encoding="utf-8"
    )
    assert read_any_job(path).top.outline.shape == "drawing"


def blocks(text):
    """Hidden lines: each by itself, or with the hidden table that it stands in."""
    lines = text.split("\n")
    found, at = [], 0
    while at < len(lines):
        if re.match(r"# \[", lines[at]):
            end = at
            while lines[end].startswith("# "):
                end += 1
            found.append(range(at, end))
            at = end
        elif re.match(r"# [a-z_]+ = ", lines[at]):
            found.append(range(at, at + 1))
        at += 1
    return found


@pytest.mark.example
@pytest.mark.parametrize("shape", MEASURED)
def test_each_hidden_line_is_known(shape):
    """Shown, it reads, or it stands beside the line that it may take the place of."""
    text = shaped_starter(shape)
    hidden = blocks(text)
    assert len(hidden) > 10
    for block in hidden:
        lines = text.split("\n")
        for at in block:
            lines[at] = lines[at][2:]
        try:
            assert parse_any_job("\n".join(lines))
        except JobError as error:
            told = [fault.message for fault in error.faults]
            assert all("is given beside" in words or "says nothing without" in words for words in told), (
                block,
                told,
            )


@pytest.mark.example
def test_a_shape_that_is_none_is_refused():
    with pytest.raises(InputError, match='"circle" is no shape that is known here: choose from rectangle'):
        shaped_starter("circle")
