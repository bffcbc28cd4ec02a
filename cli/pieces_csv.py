"""``pieces.csv``: the pieces of a shaped top's build-up, one row each."""

from __future__ import annotations

import csv
import io
from typing import Final

from edgewright.cutlist.shaped_plan import ShapedPlan

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
    "plan_code",
)


def pieces_csv(plan: ShapedPlan) -> str:
    """Write the pieces; lengths in mm to a hundredth, those of the blank's longer edge.

    References
    ----------
    RFC 4180 (quoting; every row ends with CRLF).
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(PIECE_COLUMNS)
    for piece in plan.design.pieces:
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
                plan.code,
            )
        )
    return text.getvalue()
