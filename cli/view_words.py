"""What a drawing shows, in words: for who cannot see it, and for who finds the file alone."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from edgewright.cutlist.plan import Plan
from edgewright.display import show_mm, show_ticks
from edgewright.drawing.view import View

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["view_title", "view_words"]

_DOWN: Final = "top face down, seen from above as it lies: east is on the left, west on the right"
#: What each view shows and how it is seen, by its name without a number.
_SHOWN: Final = {
    "picture": "Shaded picture of the finished top from above, the pieces of its build-up drawn apart below it.",
    "trim": f"The panel with its saw cuts and keep lines, waste and kerfs hatched; {_DOWN}.",
    "kerf": "One saw cut enlarged, seen along the cut: keep line, kerf on the waste side, guide and its offset.",
    "underside": f"The underside with its strips, their names, lengths, splices and pins; {_DOWN}.",
    "ring": f"The underside with the pieces of one layer of the build-up and their names; {_DOWN}.",
    "strips": "Each strip as a bar with its pieces, its kerfs to scale and its stops from the squared start.",
    "layout": "Each stick or sheet with its lanes and the pieces in them, kerfs hatched; ripping begins at the bottom "
    "edge, lanes start on the left.",
    "edge": "Section through the edge with the form of both arrises, glue seams and the bands the bearing runs on; top "
    "face up, finished edge on the right.",
    "router": f"The finished top with the edges that are routed and the way of the feed; {_DOWN}.",
    "tips": f"Inside corners that the bearing does not reach, with the wood left standing; {_DOWN}.",
    "cut": "Finished and old outline, keep lines, kerfs and strips at true size; seen from above, top face up.",
}
#: What a view is called that has no title but the job's.
_OF_JOB: Final = {"picture": "Finished top", "cut": "Cut drawing"}
_NUMBER: Final = re.compile(r"[-_ ]?\d+$")


def view_title(plan: Plan | ShapedPlan, view: View) -> str:
    """Title of a drawing as a file of its own: what it is, and of which job."""
    job = plan.job.info.title
    name = _NUMBER.sub("", view.name)
    return f"{view.title}: {job}" if view.title != job else f"{_OF_JOB.get(name, name)}: {job}"


def view_words(plan: Plan | ShapedPlan, view: View) -> str:
    """Description of a drawing: what is drawn, how it is seen, the main figures and the plan it belongs to."""
    shown = _SHOWN.get(_NUMBER.sub("", view.name), f"{view.title}.")
    return f"{shown} {_figures(plan)} Plan {plan.code}."


def _figures(plan: Plan | ShapedPlan) -> str:
    units = plan.job.units
    edge = f"edge {show_mm(plan.design.edge_thickness_mm, units)} thick"
    if isinstance(plan, Plan):
        sizes = plan.design.sizes
        old, finished = (
            " x ".join(show_ticks(ticks, units) for ticks in pair) for pair in (sizes.old, sizes.finished)
        )
        width = show_ticks(plan.cut_plan.strip_width_ticks, units)
        return f"Old top {old}, finished {finished}, {edge}, strips {width} wide."
    from edgewright.cli.shaped_rows import size_rows

    rows = dict(size_rows(plan))
    first = "new top" if plan.job.top.new else "old top"
    return f"{first.capitalize()} {rows[first]}; finished {rows['finished']}."
