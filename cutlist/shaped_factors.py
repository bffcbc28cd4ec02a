"""What is weighed of the edge of a top of any outline: layers, forms, segments of curves, build-up and corners.

A factor is left out where the top has nothing of the kind, like segments without a curve.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import Final

from edgewright.cutlist.shaped_segments import SEGMENTS
from edgewright.cutlist.variant_choices import (
    FORMS,
    Choice,
    Factor,
    corner_radius_factor,
    given,
    layer_factor,
    length_text,
    round_over_factor,
    with_edge,
)
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.segments import turn_between
from edgewright.job_forms import EdgeForm
from edgewright.job_shaped import ShapedJob
from edgewright.units import Length, Units, read_length

__all__ = [
    "build_up_factors",
    "segment_factors",
    "shaped_corner_factors",
    "shaped_layer_factors",
    "shaped_radius_factors",
]

#: Chamfer bits of most shops. Common practice, no source.
CHAMFER: Final[dict[Units, str]] = {"in": "1/4 in", "mm": "6 mm"}
#: Less than this many radians is no corner that anybody would round.
_SHARP: Final = math.radians(20)
_BY_BLANKS: Final = "as few as the blanks give"


def shaped_layer_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Layers of strips; a skirt and a bare edge have none."""
    if job.edge.build_up == "flat":
        yield layer_factor(job)


def shaped_radius_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Round-overs and other forms of both arrises; corners seen from above where the top has any."""
    yield round_over_factor(job, (_chamfer(job.units), Choice("bullnose", _bullnose)))
    if design is None or _has_corners(design):
        yield corner_radius_factor(job)


def _chamfer(units: Units) -> Choice:
    size = CHAMFER[units]

    def change(job: ShapedJob) -> ShapedJob:
        form = EdgeForm(form="chamfer", size=read_length(size))
        rest = (*FORMS, "top_round_over", "bottom_round_over")
        return with_edge(job, without=rest, top_form=form, bottom_form=form)

    return Choice(f"{size} chamfers", change)


def _bullnose(job: ShapedJob) -> ShapedJob:
    return with_edge(job, without=(*FORMS, "top_round_over", "bottom_round_over"), bullnose=True)


def _has_corners(design: ShapedDesign) -> bool:
    """Whether the top has a sharp corner that stands out; the slight ones of a traced edge are none."""
    edges = design.trims.finished.outline.segments
    return any(
        turn_between(one, after) > _SHARP for one, after in zip(edges, (*edges[1:], edges[0]), strict=True)
    )


def segment_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Pieces in a full circle of the ring under a curve."""
    if job.edge.build_up != "flat" or design is None:
        return
    if not any(piece.kind == "segment" for piece in design.pieces):
        return

    def change(number: int) -> Callable[[ShapedJob], ShapedJob]:
        return lambda job: with_edge(job, segments=number)

    choices = [Choice(f"{number} segments", change(number)) for number in SEGMENTS]
    choices.append(Choice(_BY_BLANKS, lambda job: with_edge(job, without=("segments",))))
    written = f"{job.edge.segments} segments" if job.edge.segments else _BY_BLANKS
    yield Factor("segments", "segments in a full circle of the build-up", written, tuple(choices))


def build_up_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Strips flat under the edge, or a skirt that reaches as far down; nothing to choose for a bare edge."""
    edge = job.edge
    if edge.build_up == "none":
        return
    drop = edge.skirt_drop
    if drop is None:
        below = edge.layers * job.strip_thickness.exact_mm
        drop = Length(f"{float(below):.6g} mm", below)
    skirt = f"skirt under, {length_text(drop.exact_mm, job.units)} drop"
    choices = (
        Choice(
            f"flat, {edge.layers} layer{'s' * (edge.layers > 1)}",
            lambda job: with_edge(job, without=("skirt_drop",), build_up="flat"),
        ),
        Choice(skirt, lambda job: with_edge(job, build_up="skirt_under", skirt_drop=drop)),
    )
    written = "skirt on the edge" if edge.build_up == "skirt_on_edge" else "as written"
    yield Factor("build_up", "kind of build-up", written, choices)


def shaped_corner_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """How strips meet at the corners of straight sides."""
    if job.edge.build_up != "flat" or design is None:
        return
    if sum(piece.kind == "strip" for piece in design.pieces) < 3 * job.edge.layers:
        return
    choices = (
        Choice("butt", lambda job: with_edge(job, corners="butt")),
        Choice("mitre", lambda job: with_edge(job, corners="mitre")),
    )
    yield Factor(
        "corners", "how the strips meet at the corners", given(job.edge).get("corners", "butt"), choices
    )
