"""How a question changes one thing of a job or of a design, so that the rest stays as it was."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from typing import Any

from edgewright.compass import PerSide, Side, is_lengthwise
from edgewright.cutlist.variant_choices import given, with_edge, with_tables
from edgewright.design.model import Design
from edgewright.job import Board, Job, Trim
from edgewright.ticks import TICKS_PER_MM
from edgewright.units import Length

__all__ = [
    "length_of",
    "with_board",
    "with_kerf",
    "with_more_off",
    "with_old_edge_moved",
    "with_readings_off",
    "with_width",
]


def length_of(ticks: int) -> Length:
    """Length of whole ticks."""
    return _length(Fraction(ticks, TICKS_PER_MM))


def _length(mm: Fraction) -> Length:
    return Length(f"{float(mm):.7g} mm", mm)


def with_width(design: Design, width: int, *, grid: int | None = None) -> Design:
    """The design with strips of one width (ticks); ``grid`` (ticks) instead of the bench grid."""
    job = with_edge(design.job, strip_width=length_of(width), without=("max_strip_width",))
    sizes = design.sizes if grid is None else replace(design.sizes, grid=grid)
    return replace(design, job=job, sizes=sizes)


def with_kerf(design: Design, more: Fraction) -> Design:
    """The design with a kerf wider by ``more`` (exact mm, either sign); every finished size stays.

    Raises
    ------
    pydantic.ValidationError
        If no blade is so thin or so thick.
    """
    saw = design.job.saw
    kerf = _length(saw.kerf.exact_mm + more)
    return replace(
        design, job=with_tables(design.job, saw=type(saw).model_validate(given(saw) | {"kerf": kerf}))
    )


def with_old_edge_moved(design: Design, side: Side, more: int, *, cut: bool = False) -> Design:
    """The design of a top that reaches ``more`` ticks (of either sign) further on one side.

    The finished top stays where it is, so that the offcut of that side is wider by as much and those along the other
    axis are longer. Where nothing comes off that side or the one opposite, the finished top grows instead, unless
    ``cut`` says that it is cut back.
    """
    sizes, axis = design.sizes, 1 if is_lengthwise(side) else 0
    low: Side = "south" if axis else "west"
    high: Side = "north" if axis else "east"
    old = _moved(sizes.old, axis, more)
    if not (sizes.amounts[low] or sizes.amounts[high] or cut):
        return replace(design, sizes=replace(sizes, old=old, finished=_moved(sizes.finished, axis, more)))
    amounts = PerSide.build(lambda s: sizes.amounts[s] + (more if s == side else 0))
    sizes = replace(sizes, old=old, amounts=amounts)
    if side == high:
        return replace(design, sizes=sizes)
    # positions are measured from the low edge, which moved
    top, across = design.job.top, "width" if axis else "length"
    seams = tuple(
        seam.model_copy(update={"at": length_of(seam.at.ticks() + more)}) if seam.across == across else seam
        for seam in top.seams
    )
    job = design.job.model_copy(update={"top": top.model_copy(update={"seams": seams})})
    return replace(design, job=job, sizes=replace(sizes, origin=_moved(sizes.origin, axis, more)))


def _moved(size: tuple[int, int], axis: int, more: int) -> tuple[int, int]:
    return (size[0] + more, size[1]) if axis == 0 else (size[0], size[1] + more)


def with_more_off(job: Job, amounts: PerSide[int], more: Mapping[Side, int]) -> Job:
    """The job with more trimmed off some sides, ticks.

    Parameters
    ----------
    amounts
        What comes off each side so far, on the bench grid, ticks.

    Raises
    ------
    pydantic.ValidationError
        If that leaves no sensible top.
    """
    off = {side: amount + more.get(side, 0) for side, amount in amounts.items()}
    trim = Trim.model_validate({side: length_of(ticks) for side, ticks in off.items() if ticks})
    return with_tables(job, trim=trim)


def with_readings_off(job: Job, more: Fraction) -> Job:
    """The job with every caliper reading of the top off by ``more`` (exact mm, either sign).

    Raises
    ------
    pydantic.ValidationError
        If no top is so thin or so thick.
    """
    readings = [_length(reading.exact_mm + more) for reading in job.top.thickness]
    return with_tables(job, top=type(job.top).model_validate(given(job.top) | {"thickness": readings}))


def with_board(design: Design, number: int, **keys: Any) -> Design:
    """The design with other keys of one of its boards.

    Raises
    ------
    pydantic.ValidationError
        If there is no such board.
    """
    stock = design.job.stock
    board = Board.model_validate(given(stock[number]) | keys)
    changed = tuple(board if n == number else other for n, other in enumerate(stock))
    return replace(design, job=design.job.model_copy(update={"stock": changed}))
