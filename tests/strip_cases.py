"""Small strip problems for tests: sides, lanes and rules in round numbers; nothing here calls the planner."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import Any

from handmade_plans import narrowed, plain

from edgewright.cutlist.model import Lane, Piece, PlanRules, RingSide, Stick

INCH = 8128
EIGHTH = INCH // 8

#: The usual rules in inches: kerf 1/8, pieces of 8, splices 6 from corners and seams.
INCH_RULES = PlanRules(
    grid_ticks=254,
    kerf_ticks=EIGHTH,
    mitre_kerf_ticks=1437,
    nest_mitres=True,
    splices_allowed=True,
    min_piece_ticks=8 * INCH,
    from_corner_ticks=6 * INCH,
    from_seam_ticks=6 * INCH,
    stagger_ticks=4 * INCH,
    guide_side="keep",
    guide_offset_ticks=12192,
    sliver_ticks=508,
)

#: No rule but length: any piece of one tick, a splice anywhere.
BARE_RULES = dataclasses.replace(
    INCH_RULES,
    grid_ticks=1,
    kerf_ticks=1,
    mitre_kerf_ticks=2,
    nest_mitres=False,
    min_piece_ticks=1,
    from_corner_ticks=0,
    from_seam_ticks=0,
    stagger_ticks=0,
    sliver_ticks=0,
)

_COMPASS: dict[str, Any] = {"N": "north", "E": "east", "S": "south", "W": "west"}


def side(
    name: str, length: int, *, splices: int = 1, seams: tuple[int, ...] = (), offset: int = 0
) -> RingSide:
    """A side in ticks; ``N1`` is the north side of layer 1; ``offset`` holds at both ends."""
    return RingSide(
        name, _COMPASS[name[0]], int(name[1:]), length, offset, offset, seams, "square", splices
    )  # fmt: skip


def stick(name: str, *lengths: int, price: int | None = None) -> Stick:
    """A board with one lane for each length; with a price it is for sale."""
    lanes = tuple(Lane(f"{name}.{n}", length, INCH, 0, 0) for n, length in enumerate(lengths, 1))
    source: Any = "on hand" if price is None else "for sale"
    return Stick(name, name, source, None, max(lengths), 20 * INCH * len(lengths), price or 0, lanes)


def lane(name: str, length: int) -> Lane:
    return Lane(name, length, INCH, 0, 0)


def plain_strips(
    sides: Sequence[RingSide], sticks: Sequence[Stick], pieces: Sequence[Piece], rules: PlanRules
) -> dict[str, Any]:
    """The parts of a plan that bounds depend on, as plain data, in the frame of a plan that is well formed."""
    plan = plain(narrowed())
    parts = {"rules": rules, "sides": list(sides), "sticks": list(sticks), "pieces": list(pieces)}
    for name, part in parts.items():
        of = [dataclasses.asdict(one) for one in part] if isinstance(part, list) else dataclasses.asdict(part)
        plan[name] = json.loads(json.dumps(of))
    plan["strip_width_ticks"] = INCH
    plan["stages"] = []
    return plan
