"""Lanes that this job's own trims give: how many, how long, where their kerfs fall.

Lengthwise rips come first, at full length, so their lanes keep the old length; crosscuts follow, so theirs have the
finished width. On each side the cut next to the finished edge is the last; from there the lanes lie one pitch apart
outwards: kerf, strip, kerf, strip ... up to the old edge, less its finished depth. What is left over lies outermost.

A rounded old corner shortens the outermost lanes: at depth u from the old edge the clean wood of a corner of
radius R, finished d deep, begins at ``d + r - sqrt(r² - (r - (u - d))²)`` from the end, r = R - d.

A defect of the old top divides the strips it lies in into clean runs, each of them a lane.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from edgewright.compass import SIDES, PerSide, Side, ends_of, is_lengthwise
from edgewright.cutlist.clean_runs import NO_CLEARANCE, Clearance, clean_runs, strip_lanes
from edgewright.cutlist.model import DefectBox, Lane, Stick
from edgewright.ticks import snap_up

__all__ = ["OffcutStock", "corner_loss", "in_offcut", "offcut_sticks", "rip_sides"]


_NOTHING: Final = PerSide(0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class OffcutStock:
    """What decides the lanes of the offcuts; sizes in ticks.

    Attributes
    ----------
    old, finished
        (length, width) before and after the trims.
    amounts
        What comes off each side, of a panel already begun what still comes off.
    finished_depth
        How deep the old finished edge of each side goes.
    corner_radius
        Old corner radius.
    pitch
        Strip width plus kerf, snapped up to the bench grid.
    grid
        Bench grid; what is squared off an end is snapped up to it.
    defects, clearance
        Defects in the frame of the old top, and what stays clear of them.
    off
        What has come off each side already.
    """

    old: tuple[int, int]
    finished: tuple[int, int]
    amounts: PerSide[int]
    finished_depth: PerSide[int]
    corner_radius: int
    kerf: int
    pitch: int
    grid: int = 1
    defects: tuple[DefectBox, ...] = ()
    clearance: Clearance = NO_CLEARANCE
    off: PerSide[int] = _NOTHING


def rip_sides(old: tuple[int, int]) -> tuple[Side, Side]:
    """The pair of sides whose cuts run along the longer extent of the old top, cut first."""
    return ("north", "south") if old[0] >= old[1] else ("east", "west")


def corner_loss(depth: int, side_finish: int, end_finish: int, radius: int) -> int:
    """How much an old rounded corner and a finished end take off one end of a lane, ticks, rounded up.

    Parameters
    ----------
    depth
        Distance of the lane's outer edge from the old side edge, >= ``side_finish``.
    side_finish, end_finish
        Finished depth of the side's and of the end's old edge.
    radius
        Old corner radius.
    """
    finish = max(side_finish, end_finish)
    inner = radius - finish
    into = depth - finish
    if inner <= 0 or into >= inner:
        return end_finish
    rise = inner - max(into, 0)
    return max(end_finish, finish + math.ceil(inner - math.sqrt(inner * inner - rise * rise)))


def offcut_sticks(stock: OffcutStock, sliver: int) -> tuple[Stick, ...]:
    """Sticks of the offcuts, one for each side that leaves one, with their lanes from the finished edge outwards.

    ``sliver`` is the largest left-over, ticks, that stays on the outermost strip instead of being cut off.
    """
    sticks = []
    for side in SIDES:
        usable = stock.amounts[side] - max(0, stock.finished_depth[side] - stock.off[side])
        if stock.amounts[side] > stock.kerf:
            sticks.append(_stick(stock, side, max(0, usable // stock.pitch), sliver))
    return tuple(sticks)


def _stick(stock: OffcutStock, side: Side, count: int, sliver: int) -> Stick:
    amount = stock.amounts[side]
    first = side in rip_sides(stock.old)
    axis = 0 if is_lengthwise(side) else 1
    raw_length = stock.finished[axis]
    if first:
        raw_length = stock.old[axis] - sum(stock.off[end] for end in ends_of(side))
    boxes = [in_offcut(box, stock, side) for box in stock.defects]
    lanes: list[Lane] = []
    for index in range(1, count + 1):
        outer = index * stock.pitch
        left_over = amount - outer
        on_strip = (
            left_over
            if index == count and left_over <= sliver and stock.finished_depth[side] <= stock.off[side]
            else 0
        )
        losses = []
        for end in ends_of(side):
            depth = stock.off[side] + left_over - on_strip
            loss = corner_loss(
                depth, stock.finished_depth[side], stock.finished_depth[end], stock.corner_radius
            )
            gone = stock.off[end] + (0 if first else stock.amounts[end])
            losses.append(snap_up(max(0, loss - gone), stock.grid))
        length = raw_length - losses[0] - losses[1]
        if length > 0:
            width = stock.pitch - stock.kerf + on_strip
            inner = outer - stock.pitch + stock.kerf
            runs = clean_runs(
                losses[0],
                raw_length - losses[1],
                (inner, inner + width),
                boxes,
                stock.clearance,
                stock.kerf,
                stock.grid,
            )
            lanes += strip_lanes(f"offcut {side} {index}", raw_length, width, runs)
    name = f"offcut from the {side} side"
    return Stick(f"offcut {side}", name, "offcut", side, raw_length, amount - stock.kerf, 0, tuple(lanes))


def in_offcut(box: DefectBox, stock: OffcutStock, side: Side) -> DefectBox:
    """A defect of the top as it lies in an offcut: along from its start, across from the finished edge outwards."""
    along, across = box.along_ticks, box.across_ticks
    if not is_lengthwise(side):
        along, across = across, along
    end = ends_of(side)[0]
    start = stock.off[end]
    if side not in rip_sides(stock.old):
        start = stock.amounts[end] + stock.off[end]
    along = along[0] - start, along[1] - start
    axis, off = 1 if is_lengthwise(side) else 0, stock.amounts[side] + stock.off[side]
    if side in ("north", "east"):
        edge = stock.old[axis] - off
        across = across[0] - edge, across[1] - edge
    else:
        edge = off
        across = edge - across[1], edge - across[0]
    return DefectBox(box.name, box.metal, along, across)
