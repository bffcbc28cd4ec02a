"""``pieces.csv``: the pieces of a shaped top's build-up, one row each."""

from __future__ import annotations

import csv
import io
from typing import Final

from edgewright.cutlist.shaped_build_up import CutBlank
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.ticks import ticks_to_mm

__all__ = ["PIECE_COLUMNS", "pieces_csv"]

PIECE_COLUMNS: Final = (
    "piece",
    "what",
    "layer",
    "under",
    "length_mm",
    "width_mm",
    "thickness_mm",
    "start_degrees_from_square",
    "end_degrees_from_square",
    "cut_from",
    "lane",
    "lane_width_mm",
    "starts_at_mm",
    "lies",
    "plan_code",
)


def pieces_csv(plan: ShapedPlan) -> str:
    """Write the pieces; lengths in mm to a hundredth, those of the blank's longer edge.

    A piece that must be bought or found has nothing in the columns that say where it is cut from.

    References
    ----------
    RFC 4180 (quoting; every row ends with CRLF).
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(PIECE_COLUMNS)
    cut = {one.piece_id: one for one in plan.build_up.cut}
    for piece in plan.design.pieces:
        one = cut.get(piece.id)
        writer.writerow(
            (
                piece.id,
                piece.kind,
                piece.layer,
                "; ".join(piece.edges),
                f"{piece.blank_length:.2f}",
                f"{piece.blank_width:.2f}",
                f"{piece.thickness:.2f}",
                f"{piece.start_angle:z.2f}",
                f"{piece.end_angle:z.2f}",
                *_from(one),
                plan.code,
            )
        )
    return text.getvalue()


def _from(one: CutBlank | None) -> tuple[str, ...]:
    """Stick, lane, its width, where the blank begins in it, and which way it lies."""
    if one is None:
        return ("",) * 5
    width, start = (f"{ticks_to_mm(ticks):.2f}" for ticks in (one.width, one.start))
    return one.stick, str(one.lane), width, start, "across the lane" if one.turned else "along the lane"
