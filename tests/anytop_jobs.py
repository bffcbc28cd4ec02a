"""Small jobs of shaped tops in mm, for the tests of their design."""

from __future__ import annotations

from edgewright.design.anytop.build import build_shaped
from edgewright.design.anytop.model import ShapedDesign
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job

#: 1000 x 600 x 20 mm, nothing routed, nothing built up, unless a test says so.
BOARD = 'shape = "rectangle"\nlength = 1000\nwidth = 600'
PLAIN_EDGE = 'build_up = "none"\ntop_round_over = 0\nbottom_round_over = 0'


def job(outline: str = BOARD, edge: str = PLAIN_EDGE, more: str = "", material: str = "plywood") -> ShapedJob:
    """The job of an outline's table, an edge's keys, and more tables; 20 mm thick."""
    text = (
        f'[job]\ntitle = "t"\nunits = "mm"\n[top]\nthickness = 20\nmaterial = "{material}"\n'
        f"[top.outline]\n{outline}\n[edge]\n{edge}\n{more}"
    )
    found = parse_any_job(text)
    assert isinstance(found, ShapedJob)
    return found


def design(outline: str = BOARD, edge: str = PLAIN_EDGE, more: str = "") -> ShapedDesign:
    """The design of such a job."""
    return build_shaped(job(outline, edge, more))
