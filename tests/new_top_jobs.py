"""Jobs of tops that are cut new from sheets."""

from __future__ import annotations

import functools

from stock_jobs import board

from edgewright.cutlist.any_plan import plan_any
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.jobfile import parse_any_job

INCH = 8128
SHEET = board("sheet", "96 in", "48 in", "60")
RACETRACK = '[top.outline]\nshape = "racetrack"\nlength = 72\nwidth = 36\n'


def new_top(
    length: float | str = 60, width: float | str = 30, top: str = "", rest: str = "", stock: str = SHEET
) -> str:
    """A rectangle; ``top`` are more keys of [top], ``rest`` more tables."""
    return (
        '[job]\ntitle = "New top"\nunits = "in"\n[top]\nnew = true\n'
        f'length = {length}\nwidth = {width}\nthickness = "3/4"\n'
        f"{'' if 'material' in top else MATERIAL}{top}\n{rest}\n{stock}"
    )


def new_shape(outline: str = RACETRACK, top: str = "", rest: str = "", stock: str = SHEET) -> str:
    """A top with an outline."""
    return (
        '[job]\ntitle = "New top"\nunits = "in"\n[top]\nnew = true\nthickness = "3/4"\n'
        f"{MATERIAL}{top}\n{outline}\n{rest}\n{stock}"
    )


MATERIAL = 'material = "plywood"\n'


@functools.cache
def planned(text: str) -> ShapedPlan:
    """Plan of a job; each is planned once."""
    plan = plan_any(parse_any_job(text))
    assert isinstance(plan, ShapedPlan)
    return plan
