"""Right cut plans built by hand: what the checker must accept, and what tests plant faults into.

Lengths are written in inches (exact: 1 in = 8128 ticks) and worked out on paper; nothing here calls the
planner.
"""

from __future__ import annotations

import dataclasses
import json
from fractions import Fraction
from typing import Any

from edgewright.cutlist.model import (
    CutPlan,
    Lane,
    LooseStrip,
    MapStrip,
    PanelAsCut,
    Piece,
    PlanRules,
    Remnant,
    RingSide,
    SawCut,
    Shortage,
    Stage,
    Stick,
)

KERF = 1016  # 1/8 in
MITRE_KERF = 1437  # 1/8 in times the root of 2 is 1436.8 ticks, rounded up
STAGE_NAMES = (
    "new material cost",
    "splices",
    "sticks touched",
    "fence settings",
    "strips ripped",
    "largest remnant",
)


def inch(text: str | float) -> int:
    """Ticks of inches that are whole in ticks: "32 1/4" or 32.25."""
    ticks = sum(Fraction(part) for part in str(text).split()) * 8128
    assert ticks.denominator == 1
    return int(ticks)


def plain(plan: CutPlan) -> dict[str, Any]:
    """The plan as the checker reads it."""
    loaded: dict[str, Any] = json.loads(json.dumps(dataclasses.asdict(plan)))
    return loaded


RULES = PlanRules(
    grid_ticks=254,
    kerf_ticks=KERF,
    mitre_kerf_ticks=MITRE_KERF,
    nest_mitres=True,
    splices_allowed=True,
    min_piece_ticks=inch(8),
    from_corner_ticks=inch(6),
    from_seam_ticks=inch(6),
    stagger_ticks=inch("3 3/4"),
    guide_side="keep",
    guide_offset_ticks=inch("1 1/2"),
    sliver_ticks=inch("1/2"),
)


def side(
    name: str, length: float, offset: float, *, end_cut: Any = "square", seams: tuple[int, ...] = ()
) -> RingSide:
    """A side with both ends alike: ``N1`` is the north side of layer 1."""
    compass: Any = {"N": "north", "E": "east", "S": "south", "W": "west"}[name[0]]
    return RingSide(name, compass, int(name[1:]), inch(length), inch(offset), inch(offset), seams, end_cut, 1)


def lanes(name: str, count: int, length: float, width: float, trim: float = 0) -> tuple[Lane, ...]:
    return tuple(
        Lane(f"{name}{n}", inch(length), inch(width), inch(trim), inch(trim)) for n in range(1, count + 1)
    )


def offcut(taken: Any, length: float, width: float, ripped: tuple[Lane, ...]) -> Stick:
    name = f"offcut {taken}"
    return Stick(name, name, "offcut", taken, inch(length), inch(width), 0, ripped)


def piece(
    name: str,
    lane: str,
    length: float,
    side_start: float = 0,
    lane_start: int = 0,
    cuts: Any = ("square", "square"),
) -> Piece:
    """A piece ``N1-2`` of side ``N1``."""
    return Piece(
        name,
        name.split("-")[0],
        lane,
        inch(length),
        inch(side_start),
        lane_start,
        cuts[0],
        cuts[1],
        turned=False,
    )


def strip(name: str, x0: float, y0: float, x1: float, y1: float) -> MapStrip:
    return MapStrip(name, inch(x0), inch(y0), inch(x1), inch(y1))


def cut(
    number: int, taken: Any, keep: float, before: float, along: float, yields: str, **changes: Any
) -> SawCut:
    """A cut on the side ``taken`` with the guide on the keep side, 1 1/2 in from the keep line."""
    datum: Any = {"north": "south", "south": "north", "east": "west", "west": "east"}[taken]
    offcut = inch(before) - inch(keep) - KERF
    made = SawCut(
        number, "rip", taken, datum, "old", inch(keep), inch(keep) + KERF, "keep", inch("1 1/2"),
        inch(keep) - inch("1 1/2"), inch(before), offcut, inch(along), yields,
    )  # fmt: skip
    return dataclasses.replace(made, **changes)


def stages(*values: int) -> tuple[Stage, ...]:
    return tuple(Stage(name, value, value, True, "") for name, value in zip(STAGE_NAMES, values, strict=True))


def narrowed() -> CutPlan:
    """72 x 42 to 72 x 36 in, all off the north side: three strips of 72 x 1 7/8 in hold the whole ring.

    Third strip: 32 1/4 + 1/8 + 32 1/4 = 64 5/8; after one more kerf 72 - 64 5/8 - 1/8 = 7 1/4 in are left.
    """
    return CutPlan(
        status="ready",
        rules=RULES,
        corners="butt",
        strip_map_view="underside",
        old_ticks=(inch(72), inch(42)),
        finished_ticks=(inch(72), inch(36)),
        finished_origin_ticks=(0, 0),
        proud_ticks=0,
        strip_width_ticks=inch("1 7/8"),
        pitch_ticks=inch(2),
        sides=(side("N1", 72, 0), side("E1", 32.25, 1.875), side("S1", 72, 0), side("W1", 32.25, 1.875)),
        sticks=(offcut("north", 72, 6, lanes("a", 3, 72, 1.875)),),
        pieces=(
            piece("N1-1", "a1", 72),
            piece("S1-1", "a2", 72),
            piece("E1-1", "a3", 32.25),
            piece("W1-1", "a3", 32.25, lane_start=inch(32.375)),
        ),
        # the top lies face down: the east end has x from 0
        strip_map=(
            strip("N1-1", 0, 34.125, 72, 36),
            strip("S1-1", 0, 0, 72, 1.875),
            strip("E1-1", 0, 1.875, 1.875, 34.125),
            strip("W1-1", 70.125, 1.875, 72, 34.125),
        ),
        cuts=(
            cut(1, "north", 40, 42, 72, "a3"),
            cut(2, "north", 38, 40, 72, "a2"),
            cut(3, "north", 36, 38, 72, "a1"),
        ),
        remnants=(Remnant("R1", "offcut north", inch("7 1/4"), inch("1 7/8")),),
        stages=stages(0, 0, 1, 0, 3, inch("7 1/4")),
        trials=(),
        shortage=None,
    )  # fmt: skip


def begun() -> CutPlan:
    """`narrowed` after cut 1: the panel is 72 x 40 in, and a3 lies loose, 72 x 1 7/8 in."""
    plan = narrowed()
    loose = LooseStrip("offcut of cut 1", 1, "north", inch(72), inch("1 7/8"), 0, ("a3",))
    return dataclasses.replace(
        plan,
        cuts=plan.cuts[1:],
        as_cut=PanelAsCut(1, 0, 0, inch(72), inch(40), ("north",), (loose,)),
    )


def mitred() -> CutPlan:
    """The same top with mitred corners: 36 + 36 - 1 7/8 + mitre kerf fit a strip of 72 with one turned."""
    plan = narrowed()
    mitre, both = {"end_cut": "mitre"}, ("mitre", "mitre")
    lengths = {"N1": 72, "E1": 36, "S1": 72, "W1": 36}
    second = inch(36) - inch("1 7/8") + MITRE_KERF
    left = inch(72) - (second + inch(36)) - KERF
    return dataclasses.replace(
        plan,
        corners="mitre",
        sides=tuple(side(name, length, 0, **mitre) for name, length in lengths.items()),
        pieces=(
            piece("N1-1", "a1", 72, cuts=both),
            piece("S1-1", "a2", 72, cuts=both),
            piece("E1-1", "a3", 36, cuts=both),
            dataclasses.replace(piece("W1-1", "a3", 36, lane_start=second, cuts=both), turned=True),
        ),
        strip_map=(
            *plan.strip_map[:2],
            strip("E1-1", 0, 0, 1.875, 36),
            strip("W1-1", 70.125, 0, 72, 36),
        ),
        remnants=(Remnant("R1", "offcut north", left, inch("1 7/8")),),
        stages=stages(0, 0, 1, 0, 3, left),
    )  # fmt: skip


def both_sides() -> CutPlan:
    """72 x 42 to 60 x 36 in, 3 in off each long side and 6 in off each end: the datum hands over twice.

    Strips of 1 3/8 in, pitch 1 1/2: two lanes of 72 from each long side. The north one gives N1 and both ends
    (33 1/4 + 1/8 + 33 1/4 = 66 5/8), the south one S1; its second lane stays whole.
    """
    waste: dict[str, Any] = {"guide_side": "waste"}

    def by_waste(*args: Any, **changes: Any) -> SawCut:
        made = cut(*args, **waste, **changes)
        return dataclasses.replace(made, guide_ticks=made.kerf_end_ticks + made.guide_offset_ticks)

    end: dict[str, Any] = {"kind": "crosscut"}
    fresh: dict[str, Any] = {"datum_edge": "fresh"}
    return CutPlan(
        status="ready",
        rules=dataclasses.replace(RULES, guide_side="waste"),
        corners="butt",
        strip_map_view="underside",
        old_ticks=(inch(72), inch(42)),
        finished_ticks=(inch(60), inch(36)),
        finished_origin_ticks=(inch(6), inch(3)),
        proud_ticks=0,
        strip_width_ticks=inch("1 3/8"),
        pitch_ticks=inch("1 1/2"),
        sides=(side("N1", 60, 0), side("E1", 33.25, 1.375), side("S1", 60, 0), side("W1", 33.25, 1.375)),
        sticks=(
            Stick(
                "offcut north",
                "offcut north",
                "offcut",
                "north",
                inch(72),
                inch(3),
                0,
                lanes("n", 2, 72, 1.375),
            ),
            Stick(
                "offcut south",
                "offcut south",
                "offcut",
                "south",
                inch(72),
                inch(3),
                0,
                lanes("s", 2, 72, 1.375),
            ),
            Stick(
                "offcut east", "offcut east", "offcut", "east", inch(36), inch(6), 0, lanes("e", 4, 36, 1.375)
            ),
        ),
        pieces=(
            piece("N1-1", "n1", 60),
            piece("E1-1", "n2", 33.25),
            piece("W1-1", "n2", 33.25, lane_start=inch(33.375)),
            piece("S1-1", "s1", 60),
        ),
        strip_map=(
            strip("N1-1", 0, 34.625, 60, 36),
            strip("S1-1", 0, 0, 60, 1.375),
            strip("E1-1", 0, 1.375, 1.375, 34.625),
            strip("W1-1", 58.625, 1.375, 60, 34.625),
        ),
        cuts=(
            by_waste(1, "north", 40.5, 42, 72, "n2"),
            by_waste(2, "north", 39, 40.5, 72, "n1"),
            by_waste(3, "south", 37.5, 39, 72, "s2", **fresh),
            by_waste(4, "south", 36, 37.5, 72, "s1", **fresh),
            by_waste(5, "east", 66, 72, 36, "R1", **end),
            by_waste(6, "west", 60, 66, 36, "R2", **end, **fresh),
        ),
        remnants=(
            Remnant("R1", "offcut east", inch(36), inch("5 7/8")),
            Remnant("R2", "offcut east", inch(36), inch("5 7/8")),
            Remnant("R3", "offcut south", inch(72), inch("1 3/8")),
        ),
        stages=stages(0, 0, 2, 0, 3, inch(72)),
        trials=(),
        shortage=None,
    )


def spliced() -> CutPlan:
    """Two layers under 60 x 24 in from two boards on hand, 41 in long, four lanes of 2 in each.

    Each side of 60 needs two lanes, so four splices at least. Three lanes hold two such sides:
    41 | 19 + 1/8 + 19 | 41, with 41 - 38 1/8 - 1/8 = 2 3/4 in left; one lane holds two ends of 20.
    """

    def layer(n: int) -> tuple[RingSide, ...]:
        seams = (inch(30),) if n == 1 else ()
        north = dataclasses.replace(side(f"N{n}", 60, 0), seams_ticks=seams)
        return north, side(f"E{n}", 20, 2), side(f"S{n}", 60, 0), side(f"W{n}", 20, 2)

    def boards(name: str) -> Stick:
        # four lanes and three kerfs: 8 3/8 in
        return Stick(
            f"board {name}", "ply", "on hand", None, inch(41.5), inch("8 3/8"), 0, lanes(name, 4, 41, 2, 0.25)
        )

    second = inch(19) + KERF
    new = Stick("new 1", "ply", "for sale", None, inch(96), inch(2), 2500, lanes("x", 1, 96, 2))
    return CutPlan(
        status="ready",
        rules=dataclasses.replace(RULES, stagger_ticks=inch(4)),
        corners="butt",
        strip_map_view="underside",
        old_ticks=(inch(60), inch(24)),
        finished_ticks=(inch(60), inch(24)),
        finished_origin_ticks=(0, 0),
        proud_ticks=0,
        strip_width_ticks=inch(2),
        pitch_ticks=inch("2 1/8"),
        sides=(*layer(1), *layer(2)),
        sticks=(boards("a"), boards("b"), new),
        pieces=(
            piece("N1-1", "a1", 41), piece("N1-2", "a2", 19, 41),
            piece("S1-1", "a3", 41), piece("S1-2", "a2", 19, 41, second),
            piece("N2-1", "b2", 19), piece("N2-2", "b1", 41, 19),
            piece("S2-1", "b2", 19, 0, second), piece("S2-2", "b3", 41, 19),
            piece("E1-1", "a4", 20), piece("W1-1", "a4", 20, 0, inch(20) + KERF),
            piece("E2-1", "b4", 20), piece("W2-1", "b4", 20, 0, inch(20) + KERF),
        ),
        # face down, the west end of a side is at x = 60
        strip_map=(
            strip("N1-1", 19, 22, 60, 24), strip("N1-2", 0, 22, 19, 24),
            strip("S1-1", 19, 0, 60, 2), strip("S1-2", 0, 0, 19, 2),
            strip("N2-1", 41, 22, 60, 24), strip("N2-2", 0, 22, 41, 24),
            strip("S2-1", 41, 0, 60, 2), strip("S2-2", 0, 0, 41, 2),
            strip("E1-1", 0, 2, 2, 22), strip("W1-1", 58, 2, 60, 22),
            strip("E2-1", 0, 2, 2, 22), strip("W2-1", 58, 2, 60, 22),
        ),
        cuts=(),
        remnants=tuple(Remnant(f"R{b}", f"board {b}", inch("2 3/4"), inch(2)) for b in "ab"),
        stages=stages(0, 4, 2, 1, 8, inch("2 3/4")),
        trials=(),
        shortage=None,
    )  # fmt: skip


def bought() -> CutPlan:
    """One layer under 60 x 24 in from boards for sale: 160 in of sides, so one of 96 or 120 will not do.

    Two boards of 96 cost 24.00; each gives 60 + 1/8 + 20 and leaves 96 - 80 1/8 - 1/8 = 15 3/4 in.
    """

    def board(name: str, length: float, price: int) -> Stick:
        return Stick(
            f"new {name}", "ply", "for sale", None, inch(length), inch(2), price, lanes(name, 1, length, 2)
        )

    second = inch(60) + KERF
    plan = spliced()
    return dataclasses.replace(
        plan,
        sides=plan.sides[:4],
        sticks=(board("a", 96, 1200), board("b", 96, 1200), board("c", 96, 1200), board("d", 120, 1400)),
        pieces=(
            piece("N1-1", "a1", 60), piece("E1-1", "a1", 20, 0, second),
            piece("S1-1", "b1", 60), piece("W1-1", "b1", 20, 0, second),
        ),
        strip_map=(
            strip("N1-1", 0, 22, 60, 24), strip("E1-1", 0, 2, 2, 22),
            strip("S1-1", 0, 0, 60, 2), strip("W1-1", 58, 2, 60, 22),
        ),
        remnants=(),
        stages=stages(2400, 0, 2, 0, 2, inch("15 3/4")),
    )  # fmt: skip


def too_narrow() -> CutPlan:
    """72 x 42 to 72 x 39 in with strips of 13/16: the sides are 218 3/4 in long, three strips hold 216 in."""
    plan = narrowed()
    wide = "13/16"
    return dataclasses.replace(
        plan,
        status="impossible",
        finished_ticks=(inch(72), inch(39)),
        strip_width_ticks=inch(wide),
        pitch_ticks=inch("15/16"),
        sides=(side("N1", 72, 0), side("E1", 37.375, 0.8125), side("S1", 72, 0), side("W1", 37.375, 0.8125)),
        sticks=(offcut("north", 72, 3, lanes("a", 3, 72, 0.8125)),),
        pieces=(), strip_map=(), cuts=(), remnants=(), stages=(),
        shortage=Shortage(
            inch(wide), 4, 3, inch("218 3/4"), 0, inch("218 3/4"), inch(216), True, True, "", inch("2 3/4"), "",
        ),
    )  # fmt: skip
