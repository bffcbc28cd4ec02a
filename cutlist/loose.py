"""Strips that came off in cuts already made: which lanes they give, and the offcut of their side with them.

A loose strip counts to the offcut of its side, behind the lanes still part of the panel unless it is longer: so a
plan whose cuts came out as planned is the same plan as before. Of clean width W it gives floor((W + k) / (w + k))
lanes; one that is as wide as a strip stays as it is, a wider one is ripped on the fence.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.compass import SIDES, ends_of, is_lengthwise
from edgewright.cutlist.model import Lane, LooseStrip, PanelAsCut, Stick
from edgewright.cutlist.offcuts import OffcutStock, corner_loss, rip_sides
from edgewright.design.model import Begun, LoosePiece
from edgewright.ticks import snap_up

__all__ = ["clean_width", "loose_lanes", "panel_as_cut", "still_attached", "with_loose"]


def clean_width(piece: LoosePiece, finished_depth: int) -> int:
    """Width of a loose piece without the old finish along its outer edge, ticks."""
    return piece.width - max(0, finished_depth - piece.edge_depth)


def loose_lanes(piece: LoosePiece, stock: OffcutStock, width: int, sliver: int) -> tuple[Lane, ...]:
    """Lanes of a loose piece, from its inner edge outwards.

    Parameters
    ----------
    stock
        Old finish, old corners and kerf of the top.
    width
        Strip width, ticks.
    sliver
        So much wider than a strip it is left as it is.
    """
    clean = clean_width(piece, stock.finished_depth[piece.side])
    count = max(0, (clean + stock.kerf) // (width + stock.kerf))
    whole = count == 1 and clean - width <= sliver and clean == piece.width
    lanes = []
    for row in range(1, count + 1):
        wide = clean if whole else width
        outer = row * wide + (row - 1) * stock.kerf
        first, last = _end_losses(piece, stock, piece.edge_depth + piece.width - outer)
        length = piece.length - first - last
        if length > 0:
            name = f"strip of cut {piece.cut}" if count == 1 else f"strip {row} of cut {piece.cut}"
            lanes.append(Lane(name, length, wide, first, last))
    return tuple(lanes)


def _end_losses(piece: LoosePiece, stock: OffcutStock, depth: int) -> tuple[int, int]:
    """What an old corner or finish takes off both ends; measured ends that were cut off meanwhile lose it too."""
    side = piece.side
    ripped = side in rip_sides(stock.old)
    losses = []
    for end in ends_of(side):
        finish = stock.finished_depth
        loss = corner_loss(depth, finish[side], finish[end], stock.corner_radius)
        gone = 0 if ripped else stock.amounts[end] + stock.off[end]
        losses.append(snap_up(max(0, loss - gone), stock.grid))
    return losses[0], losses[1]


def with_loose(
    sticks: Sequence[Stick], begun: Begun, stock: OffcutStock, width: int, sliver: int
) -> tuple[Stick, ...]:
    """The offcuts with the lanes of what came off already, the latest cut first, for it lay innermost.

    As in any offcut no lane is longer than the one before it.
    """
    found = []
    for side in SIDES:
        pieces = [piece for piece in begun.loose if piece.side == side]
        stick = next((stick for stick in sticks if stick.side == side), None)
        if not pieces:
            found += [stick] if stick is not None else []
            continue
        own = () if stick is None else stick.lanes
        loose = (lane for piece in reversed(pieces) for lane in loose_lanes(piece, stock, width, sliver))
        lanes = list(own)
        for lane in loose:
            shorter = (n for n, other in enumerate(lanes) if other.length_ticks < lane.length_ticks)
            lanes.insert(next(shorter, len(lanes)) if not stock.defects else len(lanes), lane)
        length = max(
            stock.old[0 if is_lengthwise(side) else 1] if stick is None else stick.length_ticks,
            *(piece.length for piece in pieces),
        )
        found.append(
            Stick(
                f"offcut {side}",
                f"offcut from the {side} side",
                "offcut",
                side,
                length,
                max(begun.sizes.amounts[side] - stock.kerf, *(piece.width for piece in pieces)),
                0,
                tuple(lanes),
            )
        )
    return tuple(found)


def still_attached(sticks: Sequence[Stick], as_cut: PanelAsCut | None) -> tuple[Stick, ...]:
    """The sticks with those lanes only that did not come off yet."""
    if as_cut is None:
        return tuple(sticks)
    loose = {name for strip in as_cut.loose for name in strip.lanes}
    return tuple(
        replace(stick, lanes=tuple(lane for lane in stick.lanes if lane.id not in loose)) for stick in sticks
    )


def panel_as_cut(begun: Begun, stock: OffcutStock, width: int, sliver: int) -> PanelAsCut:
    """The panel and its loose strips as plain data of the plan, for strips of one width."""
    length, across = begun.sizes.old
    return PanelAsCut(
        cuts_made=begun.cuts_made,
        west_ticks=begun.off.west,
        south_ticks=begun.off.south,
        east_ticks=length - begun.off.east,
        north_ticks=across - begun.off.north,
        fresh=begun.fresh,
        loose=tuple(
            LooseStrip(
                f"offcut of cut {piece.cut}",
                piece.cut,
                piece.side,
                piece.length,
                piece.width,
                piece.width - clean_width(piece, stock.finished_depth[piece.side]),
                tuple(lane.id for lane in loose_lanes(piece, stock, width, sliver)),
            )
            for piece in begun.loose
        ),
    )
