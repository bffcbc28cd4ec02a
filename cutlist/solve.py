"""Plan strips of one width: choose components, realise them under the splice rules, lay out the pieces.

A component that cannot be realised is taken out and its extensions by one more lane are put in; then the choice is made
again. What comes out is checked by a checker that shares no code with this, and its bounds are recomputed there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.components import Component, Pool, components, pool_of
from edgewright.cutlist.layout import lay_pieces
from edgewright.cutlist.master import choose
from edgewright.cutlist.model import Lane, Piece, PlanRules, RingSide, Stick
from edgewright.cutlist.realise import Group, Segment, realise

__all__ = ["StripLayout", "joint_ticks", "solve_strips"]

#: Work limits, counts and never seconds: lane combinations looked at, and rounds of choose and realise.
COMBINATION_LIMIT = 20_000
ROUND_LIMIT = 200


@dataclass(frozen=True, slots=True)
class StripLayout:
    """Pieces in the order of the lanes; ``exact`` is False at a work limit, or when a rule cut one off."""

    pieces: tuple[Piece, ...]
    exact: bool


def joint_ticks(rules: PlanRules, strip_width: int, mitred: bool) -> int:
    """What one joint between two sides in a lane costs, ticks; negative when mitred ends nest."""
    return rules.mitre_kerf_ticks - strip_width if mitred and rules.nest_mitres else rules.kerf_ticks


def solve_strips(
    sides: Sequence[RingSide], sticks: Sequence[Stick], rules: PlanRules, strip_width: int
) -> StripLayout | None:
    """Best layout of all sides from the sticks, or None when there is none.

    Parameters
    ----------
    sides
        All sides of all layers.
    sticks
        Every stick that may be used, boards for sale among them.
    """
    joint = joint_ticks(rules, strip_width, any(side.end_cut == "mitre" for side in sides))
    pool = pool_of(sides, sticks, joint=joint, kerf=rules.kerf_ticks)
    found, complete = components(pool, splices_allowed=rules.splices_allowed, work_limit=COMBINATION_LIMIT)
    columns = list(found)
    forbidden: list[tuple[int, ...]] = []
    exact = complete
    for _ in range(ROUND_LIMIT):
        choice = choose(pool, columns, forbidden)
        if choice is None:
            return None
        exact &= choice.proven
        groups, numbers = _groups(pool, columns, choice.counts, sides, sticks)
        spliced = [g for g in groups if len(g.lanes) > 1]
        segments = realise(spliced, rules) if spliced else ()
        if segments is not None:
            whole = tuple(
                Segment(side.id, 0, side.length_ticks, group.lanes[0].id)
                for group in groups
                if len(group.lanes) == 1
                for side in group.sides
            )
            lanes = [lane for stick in sticks for lane in stick.lanes]
            pieces = lay_pieces((*whole, *segments), sides, lanes, rules, strip_width)
            return StripLayout(pieces, exact)
        bad = {
            n
            for g, n in zip(groups, numbers, strict=True)
            if len(g.lanes) > 1 and realise([g], rules) is None
        }
        if bad:
            columns = _without(columns, bad, pool, rules)
            forbidden = []
        else:
            forbidden.append(tuple(sorted({n for n, c in enumerate(choice.counts) if c})))
            exact = False
    return None


def _without(columns: Sequence[Component], bad: set[int], pool: Pool, rules: PlanRules) -> list[Component]:
    """The columns without the bad ones, with their extensions by one more lane instead."""
    kept = [c for n, c in enumerate(columns) if n not in bad]
    known = set(kept) | {columns[n] for n in bad}
    for n in sorted(bad):
        column = columns[n]
        most = sum(c * t.max_splices for c, t in zip(column.sides, pool.sides, strict=True))
        if column.splices >= most or not rules.splices_allowed:
            continue
        for t, lane in enumerate(pool.lanes):
            available = lane.per_stick * len(pool.sticks[lane.stick_class].members)
            if column.lanes[t] < available:
                lanes = tuple(c + (i == t) for i, c in enumerate(column.lanes))
                longer = Component(column.sides, lanes, column.left_over + lane.length)
                if longer not in known:
                    known.add(longer)
                    kept.append(longer)
    return kept


def _groups(
    pool: Pool,
    columns: Sequence[Component],
    counts: Sequence[int],
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
) -> tuple[list[Group], list[int]]:
    """Real sides and lanes for each chosen component: inner lanes first, sticks one after the other."""
    free_sides = [list(t.members) for t in pool.sides]
    free_lanes: list[list[Lane]] = [
        [
            lane
            for member in pool.sticks[t.stick_class].members
            for lane in sticks[member].lanes
            if lane.length_ticks == t.length
        ]
        for t in pool.lanes
    ]
    groups, numbers = [], []
    for number, (column, count) in enumerate(zip(columns, counts, strict=True)):
        for _ in range(count):
            own_sides = [sides[free_sides[i].pop(0)] for i, n in enumerate(column.sides) for _ in range(n)]
            own_lanes = [free_lanes[t].pop(0) for t, n in enumerate(column.lanes) for _ in range(n)]
            groups.append(Group(tuple(own_sides), tuple(own_lanes)))
            numbers.append(number)
    return groups, numbers
