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
from edgewright.trade import inch
from edgewright.units import Length

if TYPE_CHECKING:
    from edgewright.job_shaped import OutlinedTop

__all__ = ["CHECKED", "NO_TRIM", "shaped_faults"]

NO_TRIM: Final = "nothing comes off a new top: take [trim] out and give the size it shall have under [top]"

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
    top: OutlinedTop | None = parts.get("top")
    if top is None:
        return
    yield from _new_faults(top, parts)
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


def _new_faults(top: OutlinedTop, parts: Mapping[str, Any]) -> Iterator[OutlineFault]:
    """What an old top has and a new one cannot, and the other way round."""
    if not top.new:
        if top.oversize.exact_mm:
            yield (
                ("top", "oversize"),
                f"{say(top.oversize)} is for a new top only: add new = true or leave it out",
            )
        return
    trim: ShapedTrim | None = parts.get("trim")
    if trim is not None and trim.way is not None:
        yield ("trim", trim.way), NO_TRIM
    if top.seams:
        yield ("top", "seams"), "a new top is cut from one sheet and has no panel seams: leave them out"
    if top.finished_edge.depth.exact_mm or top.finished_edge.arris_radius.exact_mm:
        yield ("top", "finished_edge"), "a new top has fresh edges: leave the old finish out"
    if top.outline.shape == "stations":
        yield (
            ("top", "outline", "shape"),
            '"stations" is a live edge, which no sheet has: leave out new = true',
        )
    edge: ShapedEdge | None = parts.get("edge")
    if edge is None or edge.strip_thickness is None or edge.build_up == "none":
        return
    if abs(edge.strip_thickness.exact_mm - top.thickness_mean.exact_mm) > inch("1/64"):
        yield (
            ("edge", "strip_thickness"),
            f"{say(edge.strip_thickness)} is not the thickness of the new top, {say(top.thickness_mean)}: its strips "
            "come from the same sheets; leave it out",
        )


def _top_faults(top: OutlinedTop, box: Box) -> Iterator[OutlineFault]:
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
