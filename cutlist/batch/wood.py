"""The boards that the jobs of a batch share: the same wood listed in several jobs is counted once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.cutlist.batch.model import BatchJob, Wood
from edgewright.cutlist.demand import defect_box
from edgewright.display import show_ticks
from edgewright.errors import InputError
from edgewright.job_shop import Board
from edgewright.job_top import ZERO
from edgewright.units import Units

__all__ = ["shared_wood"]


def shared_wood(
    jobs: Sequence[BatchJob], stock: Sequence[Board] = (), stock_name: str = ""
) -> tuple[Wood, ...]:
    """Kinds of boards by name, from all jobs and from the file of shared wood.

    Parameters
    ----------
    stock
        Boards of the file of shared wood; one without a material takes that of the jobs, if they are all of one.
    stock_name
        Name of that file, for messages.

    Raises
    ------
    InputError
        If one name stands for unlike boards, or shared wood has no material.
    """
    found: dict[str, tuple[str, Wood]] = {}
    units = jobs[0].job.units
    materials = sorted({job.job.top.material for job in jobs})
    for board in stock:
        if board.material is None and len(materials) > 1:
            raise InputError(
                f"{stock_name}: {board.name} has no material, and the jobs are of {' and '.join(materials)}: write "
                "what it is made of"
            )
        _add(found, stock_name, _wood(board, board.material or materials[0]), units)
    for job in jobs:
        for board in job.job.stock:
            _add(found, job.name, _wood(board, job.job.board_material(board)), units)
    return tuple(wood for _, (_, wood) in sorted(found.items()))


def _wood(board: Board, material: str) -> Wood:
    return Wood(
        name=board.name,
        length=board.length.ticks_down(),
        width=board.width.ticks_down(),
        thickness=board.thickness.ticks(),
        material=material,
        finished_depth=board.finished_depth.ticks_up(),
        count=board.limit,
        price_cents=board.price_cents,
        defects=tuple(
            defect_box(d.name, d.metal, d.along, d.across or (ZERO, board.width)) for d in board.defects
        ),
    )


def _add(found: dict[str, tuple[str, Wood]], origin: str, wood: Wood, units: Units) -> None:
    """Put a kind of board in, or see that it is the one already there."""
    before_origin, before = found.setdefault(wood.name, (origin, wood))
    unlike = _unlike(before, wood, units)
    if unlike is not None:
        what, one, other = unlike
        raise InputError(
            f"stock {wood.name}: {what} is {one} in {before_origin} and {other} in {origin}: wood of one name is the "
            "same wood, so give both the same figures, or another name"
        )
    count = None if None in (before.count, wood.count) else max(before.count or 0, wood.count or 0)
    found[wood.name] = before_origin, replace(before, count=count)


def _unlike(a: Wood, b: Wood, units: Units) -> tuple[str, str, str] | None:
    """The first figure in which two kinds of board differ, and its two values."""
    for what in ("length", "width", "thickness", "finished_depth"):
        one, other = getattr(a, what), getattr(b, what)
        if one != other:
            return what, show_ticks(one, units), show_ticks(other, units)
    if a.material != b.material:
        return "material", a.material, b.material
    if a.price_cents != b.price_cents:
        return "price", _price(a.price_cents), _price(b.price_cents)
    if a.defects != b.defects:
        return "defects", f"{len(a.defects)} listed", f"{len(b.defects)} listed, or elsewhere,"
    return None


def _price(cents: int | None) -> str:
    return "none (on hand)" if cents is None else f"{cents / 100:.2f}"
