"""The profile that a job asks for."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from edgewright.design.check_figures import exceeds
from edgewright.design.forms import Form, bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.profile import EdgeProfile
from edgewright.job_edge import Arris, Edge
from edgewright.job_forms import EdgeForm
from edgewright.job_thickness import AnyTop
from edgewright.ticks import part_ticks
from edgewright.units import Length

__all__ = ["edge_form", "edge_profile", "reach_ticks"]


def edge_form(edge: Edge, arris: Arris, thickness_mm: float) -> Form:
    """Form of one arris on an edge of this thickness."""
    asked: EdgeForm | None = edge.top_form if arris == "top" else edge.bottom_form
    if asked is not None:
        return _form(asked)
    form = round_over(float(edge.reach(arris, Fraction(thickness_mm))), arris)
    return replace(form, name="bullnose") if edge.bullnose else form


def edge_profile(edge: Edge, thickness_mm: float) -> EdgeProfile | None:
    """Profile on an edge of this thickness; None where the two forms do not fit into it."""
    top, bottom = edge_form(edge, "top", thickness_mm), edge_form(edge, "bottom", thickness_mm)
    if exceeds(top.depth + bottom.depth, thickness_mm):
        return None
    return EdgeProfile(thickness_mm, top, bottom)


def reach_ticks(edge: Edge, arris: Arris, top: AnyTop) -> int:
    """How far in from the edge the form of an arris begins, in ticks, rounded up."""
    return part_ticks(edge.reach(arris, edge.thickness(top.thickness_mean.exact_mm)))


def _form(asked: EdgeForm) -> Form:
    def mm(length: Length | None) -> float:
        return 0.0 if length is None else length.mm

    match asked.form:
        case "chamfer":
            return chamfer(mm(asked.size))
        case "bevel":
            return bevel(mm(asked.inset), mm(asked.depth))
        case "cove":
            return cove(mm(asked.radius))
        case "ogee":
            return ogee(mm(asked.radius), mm(asked.step))
        case "none":
            return no_form()
