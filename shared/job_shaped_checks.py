"""Checks between the tables of a shaped job, as far as the box around the old top is plain from its figures."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import TYPE_CHECKING, Any, Final

from edgewright.job_checks import LEAST_LEFT, stock_faults
from edgewright.job_fields import say
from edgewright.job_outline_base import Box, OutlineFault, mm_text
from edgewright.job_shaped_edge import CutOut, ShapedEdge
from edgewright.job_shop import Base
from edgewright.job_trim import ShapedTrim
from edgewright.units import Length

if TYPE_CHECKING:
    from edgewright.job_shaped import ShapedTop

__all__ = ["CHECKED", "shaped_faults"]

#: Attributes of a shaped job that are checked against one another, and the keys of their tables.
CHECKED: Final = {
    "top": "top",
    "trim": "trim",
    "edge": "edge",
    "base": "base",
    "stock": "stock",
    "cut_outs": "cut_out",
}


def shaped_faults(parts: Mapping[str, Any]) -> Iterator[OutlineFault]:
    """Find the faults between tables, for as many of them as could be read."""
    if "stock" in parts:
        yield from stock_faults(parts["stock"])
    yield from _same_names(parts.get("cut_out", ()))
    top: ShapedTop | None = parts.get("top")
    if top is None:
        return
    if top.finished_edge.arris_radius.exact_mm > top.thickness_min.exact_mm:
        yield (
            ("top", "finished_edge", "arris_radius"),
            f"{say(top.finished_edge.arris_radius)} does not fit the edge: at most the top's thickness, "
            f"{say(top.thickness_min)}, is allowed",
        )
    box = top.outline.box
    if box is None:
        return
    yield from _top_faults(top, box)
    if "trim" in parts:
        yield from _trim_faults(parts["trim"], box)
    if "edge" in parts:
        yield from _edge_faults(parts["edge"], box)
    if "base" in parts:
        yield from _base_faults(parts["base"], box)
    for number, hole in enumerate(parts.get("cut_out", ())):
        yield from _hole_faults(hole, number, box)


def _top_faults(top: ShapedTop, box: Box) -> Iterator[OutlineFault]:
    for number, seam in enumerate(top.seams):
        size = box[0] if seam.across == "length" else box[1]
        if seam.at.exact_mm >= size:
            yield (
                ("top", "seams", number, "at"),
                f"{say(seam.at)} lies outside the top: less than its {seam.across} of {mm_text(size)} is allowed",
            )
    depth = top.finished_edge.depth
    if 2 * depth.exact_mm >= min(box):
        yield (
            ("top", "finished_edge", "depth"),
            f"{say(depth)} from both sides leaves nothing of a top {mm_text(min(box))} wide: "
            "give how deep the old finish goes into the edge",
        )


def _trim_faults(trim: ShapedTrim, box: Box) -> Iterator[OutlineFault]:
    off = trim.all_round
    if off is not None and 2 * off.exact_mm > min(box) - LEAST_LEFT:
        yield (
            ("trim", "all_round"),
            f"{say(off)} is too much off both sides of a top {mm_text(min(box))} wide: at least 2 in must stay",
        )
    new = trim.to.box if trim.to is not None and not trim.to.turn else None
    # a turned outline may have a smaller box; the design looks into that
    for axis, name in enumerate(("length", "width")):
        if new is not None and new[axis] > box[axis]:
            yield (
                ("trim", "to"),
                f"a new {name} of {mm_text(new[axis])} is larger than the top: at most its {name} of "
                f"{mm_text(box[axis])} is allowed, for a saw only takes away",
            )


def _edge_faults(edge: ShapedEdge, box: Box) -> Iterator[OutlineFault]:
    width = edge.strip_width
    if isinstance(width, Length) and 2 * width.exact_mm > min(box):
        yield (
            ("edge", "strip_width"),
            f"{say(width)} does not fit the top: at most half its shorter extent, {mm_text(min(box) / 2)}, is allowed",
        )
    if 2 * edge.outside_radius.exact_mm > min(box):
        yield (
            ("edge", "corner_radius"),
            f"{say(edge.outside_radius)} does not fit the top: at most half its shorter extent, "
            f"{mm_text(min(box) / 2)}, is allowed",
        )


def _base_faults(base: Base, box: Box) -> Iterator[OutlineFault]:
    for key, size in (("footprint_length", box[0]), ("footprint_width", box[1])):
        footprint: Length | None = getattr(base, key)
        if footprint is not None and footprint.exact_mm > size:
            yield (
                ("base", key),
                f"{say(footprint)} is larger than the top: at most {mm_text(size)} is allowed; measure over the apron",
            )


def _hole_faults(hole: CutOut, number: int, box: Box) -> Iterator[OutlineFault]:
    sizes = (hole.diameter, hole.diameter) if hole.kind == "round" else (hole.length, hole.width)
    for key, at, size, extent, name in zip(
        ("x", "y"), (hole.x, hole.y), sizes, box, ("length", "width"), strict=True
    ):
        # a turned rectangle reaches at least as far as its centre
        half = size.exact_mm / 2 if size is not None and not hole.turn else Fraction(0)
        if at.exact_mm - half <= 0 or at.exact_mm + half >= extent:
            yield (
                ("cut_out", number, key),
                f"{say(at)} with half the hole, {mm_text(half)}, reaches out of the top: it must lie "
                f"within its {name} of {mm_text(extent)}",
            )


def _same_names(holes: tuple[CutOut, ...]) -> Iterator[OutlineFault]:
    seen: set[str] = set()
    for number, hole in enumerate(holes):
        if hole.name is not None and hole.name in seen:
            message = f'"{hole.name}" is the name of an earlier cut-out: names must differ'
            yield ("cut_out", number, "name"), message
        if hole.name is not None:
            seen.add(hole.name)
