"""The examples of measured shapes as plans, made once; and small jobs of other shapes."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

from edgewright.cutlist.shaped_plan import ShapedPlan, plan_shaped
from edgewright.drawing.view import Note, View
from edgewright.job_shaped import ShapedJob
from edgewright.jobfile import parse_any_job, read_any_job

FOLDER = Path(__file__).resolve().parent.parent / "examples" / "shapes"
#: One of each kind: saw cuts, cut-outs, a drawing, arcs, a template, stations, another outline, a skirt, a U.
SHAPES = (
    "boat", "corner_desk_polygon", "d_end", "drawn_desk", "ellipse", "l_counter", "live_edge", "octagon",
    "oval_four_arcs", "quad_largest_rectangle", "racetrack", "rectangle_clipped", "round_from_square", "round_wrap",
    "tapered", "u_counter",
)  # fmt: skip

SHARP = """
[job]
title = "L with a tight inside corner"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "l_counter"
long_leg = 96
short_leg = 66
long_depth = 25
short_depth = 25
inside_radius = "1/8"
[edge]
build_up = "none"
top_round_over = "1/4"
bottom_round_over = "1/4"
"""

#: A boat-shaped top trimmed all round: its ends are sawn, its sides are arcs that no trammel reaches.
BOAT = """
[job]
title = "Boat trimmed"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "boat"
length = 96
end_width = 36
middle_width = 48
[trim]
all_round = 1
"""

#: Solid wood with a round ring of it: grain across the grain is a stop.
STOPPED = """
[job]
title = "Round of solid wood"
units = "in"
[top]
thickness = "0.86"
material = "solid wood"
grain = "length"
[top.outline]
shape = "round"
diameters = ["48", "47 15/16", "47 13/16"]
[trim]
all_round = "3/4"
[edge]
segments = 12
joint_clear = 2
"""


@cache
def shaped_plan(name: str) -> ShapedPlan:
    """Plan of an example by its name, or of the job in a text."""
    job = parse_any_job(name) if "\n" in name else read_any_job(str(FOLDER / f"{name}.toml"))
    assert isinstance(job, ShapedJob)
    return plan_shaped(job)


def texts(view: View) -> list[str]:
    """All lettering of a figure."""
    return [shape.text for _, shape in view.shapes if isinstance(shape, Note)]


def scale_of(view: View) -> float:
    """Scale as it is written."""
    found = re.search(r"Scale 1:([\d.]+)\. ", " ".join(texts(view)))
    assert found
    return float(found[1])
