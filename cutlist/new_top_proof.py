"""A new top and its build-up against the sheets they are cut from, as plain data for the independent checker."""

from __future__ import annotations

import dataclasses
import json
import math
from typing import Any

from edgewright.cutlist.check_sheets import check_sheets
from edgewright.cutlist.new_top import TOP, top_blank
from edgewright.cutlist.shaped_build_up import BuildUpPlan
from edgewright.design.anytop.model import ShapedDesign
from edgewright.errors import CheckError
from edgewright.ticks import TICKS_PER_MM

__all__ = ["part_list", "prove_sheets", "sheets_plain"]

#: Float rounding in a length of the design (mm).
_ROUNDING = 1e-6


def part_list(design: ShapedDesign) -> list[dict[str, Any]]:
    """The top where it is cut new, and all pieces: the least size of each in ticks, straight from the design."""
    blank = top_blank(design)
    x0, y0, x1, y1 = design.old.outline.bounds
    top = [] if blank is None else [_part(TOP, x1 - x0, y1 - y0, blank.grain)]
    return top + [_part(one.id, one.blank_length, one.blank_width, None) for one in design.pieces]


def _part(name: str, length: float, width: float, grain: str | None) -> dict[str, Any]:
    length_ticks, width_ticks = (math.ceil((mm - _ROUNDING) * TICKS_PER_MM) for mm in (length, width))
    return {"id": name, "length": length_ticks, "width": width_ticks, "grain": grain}


def sheets_plain(design: ShapedDesign, plan: BuildUpPlan) -> dict[str, Any]:
    """What `check_sheets` reads."""
    made: dict[str, Any] = json.loads(
        json.dumps(
            {
                "parts": part_list(design),
                "wanted": [dataclasses.asdict(one.blank) | {"pieces": one.piece_ids} for one in plan.blanks],
                "laid_out": None if plan.layout is None else plan.layout.plain,
                "cut": [dataclasses.asdict(one) for one in plan.cut],
                "to_buy": sum(row.count for row in plan.to_buy),
            }
        )
    )
    return made


def prove_sheets(design: ShapedDesign, plan: BuildUpPlan) -> None:
    """Let the checker see that the top and every piece lie in the layout; without the top finding 324 stops the plan.

    Raises
    ------
    CheckError
        If one does not: a defect of this program.
    """
    if not any(one.piece_id == TOP for one in plan.cut):
        return
    faults = check_sheets(sheets_plain(design, plan))
    if faults:
        raise CheckError("; ".join(f"{f.name}: {f.place}: {f.message}" for f in faults[:3]))
