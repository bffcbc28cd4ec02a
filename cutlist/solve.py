"""Plan strips of one width: choose components, realise them under the splice rules, lay out the pieces.

Components with few splices are tried first; more are looked at only where they could make a better plan. A component
whose pieces cannot be placed is replaced, and the choice is made again. What comes out is checked by a checker that
shares no code with this, and its bounds are recomputed there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.columns import Columns
from edgewright.cutlist.components import Component, Pool, components, pool_of
from edgewright.cutlist.fill import Group, Segment, fill_lanes
from edgewright.cutlist.layout import lay_pieces
from edgewright.cutlist.master import Choice, choose, least_cost
from edgewright.cutlist.model import Lane, Piece, PlanRules, RingSide, Stick

__all__ = ["StripLayout", "joint_ticks", "solve_strips"]

#: Work limits, counts and never seconds: lane combinations looked at, and rounds of choose and realise.
COMBINATION_LIMIT = 20_000
ROUND_LIMIT = 12
#: Rounds where any plan will do, as when widths or lengths to buy are tried.
_FEW_ROUNDS = 6
#: Most splices in one component, at the first tries; the last try has no such limit.
_FEW_SPLICES = (2, 4)
#: Ways to deal out sides that are alike but for their layer, tried before a combination is refused.
_TURNS = 4


@dataclass(frozen=True, slots=True)
class StripLayout:
    """Pieces in the order of the lanes; ``exact`` is False at a work limit, or when a rule cut one off."""

    pieces: tuple[Piece, ...]
    exact: bool


def joint_ticks(rules: PlanRules, strip_width: int, mitred: bool) -> int:
    """What one joint between two sides in a lane costs, ticks; negative when mitred ends nest."""
    return rules.mitre_kerf_ticks - strip_width if mitred and rules.nest_mitres else rules.kerf_ticks


def solve_strips(
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    rules: PlanRules,
    strip_width: int,
    *,
    any_plan: bool = False,
) -> StripLayout | None:
    """Best layout of all sides from the sticks, or None when there is none.

    Parameters
    ----------
    sides
        All sides of all layers.
    sticks
        Every stick that may be used, boards for sale among them.
    any_plan
        Any layout will do, and none is looked for long.
    """
    joint = joint_ticks(rules, strip_width, any(side.end_cut == "mitre" for side in sides))
    pool = pool_of(sides, sticks, joint=joint, kerf=rules.kerf_ticks, min_piece=rules.min_piece_ticks)
    cheapest = least_cost(pool)
    if cheapest is None:
        return None
    columns = Columns(pool, splices_allowed=rules.splices_allowed)
    most = sum(side.max_splices for side in sides) if rules.splices_allowed else 0
    best: StripLayout | None = None
    for limit in (*(few for few in _FEW_SPLICES if few < most), most):
        found, complete = components(
            pool, splices_allowed=rules.splices_allowed, work_limit=COMBINATION_LIMIT, splice_limit=limit
        )
        columns.add(found)
        chosen = _choose_and_fill(columns, sides, sticks, rules, any_plan)
        if chosen is None:
            continue
        choice, segments, exact = chosen
        lanes = [lane for stick in sticks for lane in stick.lanes]
        pieces = lay_pieces(segments, sides, lanes, rules, strip_width)
        best = StripLayout(pieces, exact and complete)
        # A component with more splices could only help a plan that has more, or that buys less.
        if any_plan or (choice.cost == cheapest and len(pieces) - len(sides) <= limit):
            break
    if best is None and not any_plan:
        # What was found for one width while trying stands: own wood first, so that nothing is bought in vain.
        own = [stick for stick in sticks if stick.source != "for sale"]
        for stock in (own, sticks):
            best = best or solve_strips(sides, stock, rules, strip_width, any_plan=True)
    return best


def _choose_and_fill(
    columns: Columns,
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    rules: PlanRules,
    any_plan: bool,
) -> tuple[Choice, tuple[Segment, ...], bool] | None:
    """Choose components until their pieces can be placed; whether nothing was refused on the way."""
    turns = range(_TURNS if any(side.layer > 1 for side in sides) else 1)
    lawful: dict[tuple[Group, ...], bool] = {}
    for number in range(_FEW_ROUNDS if any_plan else ROUND_LIMIT):
        choice = choose(columns.pool, columns.now, columns.forbidden, any_plan=any_plan)
        if choice is None:
            return None
        failed: list[set[int]] = []
        for turn in turns:
            groups, numbers = _groups(columns.pool, columns.now, choice.counts, sides, sticks, turn)
            spliced = [group for group in groups if len(group.lanes) > 1]
            for group in spliced:
                if (group,) not in lawful:
                    lawful[(group,)] = fill_lanes([group], rules) is not None
            failed.append({n for g, n in zip(groups, numbers, strict=True) if not lawful.get((g,), True)})
            clashing = set() if failed[-1] else _clashing(spliced, rules, lawful)
            segments = None if failed[-1] or clashing else fill_lanes(spliced, rules)
            if segments is not None:
                whole = tuple(
                    Segment(side.id, 0, side.length_ticks, group.lanes[0].id)
                    for group in groups
                    if len(group.lanes) == 1
                    for side in group.sides
                )
                return choice, (*whole, *segments), number == 0 and choice.proven
        alone = set.intersection(*failed)
        blamed = {
            n
            for g, n in zip(groups, numbers, strict=True)
            if g in clashing or (not clashing and g in spliced)
        }
        columns.refuse({n: choice.counts[n] for n in blamed}, alone)
    return None


def _clashing(groups: Sequence[Group], rules: PlanRules, lawful: dict[tuple[Group, ...], bool]) -> set[Group]:
    """Groups of which two alone cannot keep their splices apart; what is found goes into ``lawful``."""
    clashing: set[Group] = set()
    for i, a in enumerate(groups):
        for b in groups[i + 1 :]:
            near = any(
                s.side == t.side and abs(s.layer - t.layer) == 1 for s in a.sides for t in b.sides
            )  # fmt: skip
            if near and (a, b) not in lawful:
                lawful[(a, b)] = fill_lanes([a, b], rules) is not None
            if near and not lawful[(a, b)]:
                clashing |= {a, b}
    return clashing


def _dealt(members: Sequence[int], sides: Sequence[RingSide], turn: int, number: int) -> list[int]:
    """Sides of one type in the order in which they are dealt out: as listed, by odd or even layers, or turned on."""
    if turn in (1, 2):
        return sorted(members, key=lambda member: (sides[member].layer + turn + 1) % 2)
    first = (number + 1) % len(members) if turn else 0
    return [*members[first:], *members[:first]]


def _groups(
    pool: Pool,
    columns: Sequence[Component],
    counts: Sequence[int],
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    turn: int,
) -> tuple[list[Group], list[int]]:
    """Real sides and lanes for each chosen component: inner lanes first, sticks one after the other."""
    free_sides = [_dealt(t.members, sides, turn, number) for number, t in enumerate(pool.sides)]
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
            groups.append(Group(tuple(own_sides), tuple(own_lanes), column.loops))
            numbers.append(number)
    return groups, numbers
