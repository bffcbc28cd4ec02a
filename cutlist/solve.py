"""Plan strips of one width: choose components, realise them under the splice rules, lay out the pieces.

Components with few splices are tried first; more are looked at only where they could make a better plan. A component
whose pieces cannot be placed is replaced, and the choice is made again. What comes out is checked by a checker that
shares no code with this, and its bounds are recomputed there.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from edgewright.cutlist.columns import Columns
from edgewright.cutlist.components import Component, Pool, components, pool_of, splice_pool
from edgewright.cutlist.fill import Segment
from edgewright.cutlist.layout import lay_pieces
from edgewright.cutlist.master import Choice, choose, least_cost
from edgewright.cutlist.model import Certificate, Lane, Piece, PlanRules, RingSide, Stick
from edgewright.cutlist.realise import Realiser

__all__ = ["StripLayout", "joint_ticks", "solve_strips"]

#: Work limits, counts and never seconds: lane combinations looked at, and rounds of choose and realise.
COMBINATION_LIMIT = 3_000
ROUND_LIMIT = 12
#: Rounds where any plan will do, as when widths or lengths to buy are tried.
_FEW_ROUNDS = 6
_FEW_GENERATED = 3
#: Components that are listed and chosen from all at once; where there are more, they are generated as they pay.
_MOST_LISTED = 400
#: Most splices in one component, at the first tries; the last try has no such limit.
_FEW_SPLICES = (2, 4)


@dataclass(frozen=True, slots=True)
class StripLayout:
    """Pieces in the order of the lanes; ``exact`` is False at a work limit, or when a rule cut one off.

    ``certificates`` of the stages, by their names, are there where columns were generated.
    """

    pieces: tuple[Piece, ...]
    exact: bool
    certificates: Mapping[str, Certificate] = field(default_factory=dict)


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
    realiser = Realiser(sides, [kind.members for kind in pool.sides], rules)
    labour, best, too_many = rules.labour_cents, None, False
    lanes = [lane for stick in sticks for lane in stick.lanes]
    for limit in (*(few for few in _FEW_SPLICES if few < most), most):
        found, complete = components(
            pool,
            splices_allowed=rules.splices_allowed,
            work_limit=_share(COMBINATION_LIMIT, rules),
            splice_limit=limit,
        )
        if not too_many and (not complete or len(found) > _MOST_LISTED):
            too_many = True
            layout = _generated(pool, found, realiser, sides, sticks, rules, strip_width, any_plan)
            if layout is not None:
                return layout
        columns.add(found)
        chosen = _choose_and_fill(columns, realiser, sticks, rules, any_plan)
        if chosen is None:
            continue
        choice, segments, exact = chosen
        pieces = lay_pieces(segments, sides, lanes, rules, strip_width)
        best = StripLayout(pieces, exact and complete)
        # A component with more splices could only help a plan that has more, or that buys less.
        if any_plan or (not labour and choice.cost == cheapest and len(pieces) - len(sides) <= limit):
            break
    if best is None and not any_plan and rules.effort_percent:
        # What was found for one width while trying stands: own wood first, so that nothing is bought in vain.
        own = [stick for stick in sticks if stick.source != "for sale"]
        for stock in (own, sticks):
            best = best or solve_strips(sides, stock, rules, strip_width, any_plan=True)
    return best


def _generated(
    pool: Pool,
    found: Sequence[Component],
    realiser: Realiser,
    sides: Sequence[RingSide],
    sticks: Sequence[Stick],
    rules: PlanRules,
    strip_width: int,
    any_plan: bool,
) -> StripLayout | None:
    """Plan with columns that are generated, where there are too many to list."""
    # most jobs never get here, and should not wait for what only large ones need
    from edgewright.cutlist.certificates import certificates
    from edgewright.cutlist.column_generation.generate import Limits, generate
    from edgewright.cutlist.whole_columns import whole_columns

    lanes, by_kind, usual = _lanes(pool, sticks), splice_pool(pool), Limits()
    known = sorted(found, key=lambda component: component.splices)[:_MOST_LISTED]
    generated = generate(
        by_kind,
        lambda uses, ways: realiser.realise(uses, lanes),
        [*whole_columns(by_kind, rules.effort_percent), *(component.column for component in known)],
        lawful=lambda column: realiser.realise([column], lanes).segments is not None,
        splices_allowed=rules.splices_allowed,
        labour=rules.labour_cents,
        any_plan=any_plan,
        limits=Limits(
            rounds=_share(_FEW_GENERATED if any_plan else usual.rounds, rules),
            nodes=_share(usual.nodes, rules),
            pricing=_share(usual.pricing, rules),
        ),
    )
    if generated is None:
        return None
    in_order = [lane for stick in sticks for lane in stick.lanes]
    pieces = lay_pieces(generated.segments, sides, in_order, rules, strip_width)
    return StripLayout(pieces, False, certificates(generated.stages, pool, sides, sticks))


def _choose_and_fill(
    columns: Columns,
    realiser: Realiser,
    sticks: Sequence[Stick],
    rules: PlanRules,
    any_plan: bool,
) -> tuple[Choice, tuple[Segment, ...], bool] | None:
    """Choose components until their pieces can be placed; whether nothing was refused on the way."""
    lanes = _lanes(columns.pool, sticks)
    for number in range(_share(_FEW_ROUNDS if any_plan else ROUND_LIMIT, rules)):
        choice = choose(
            columns.pool, columns.now, columns.forbidden, labour=rules.labour_cents, any_plan=any_plan
        )
        if choice is None:
            return None
        numbers = [n for n, count in enumerate(choice.counts) for _ in range(count)]
        placed = realiser.realise([columns.now[n].column for n in numbers], lanes)
        if placed.segments is not None:
            return choice, placed.segments, number == 0 and choice.proven
        blamed = {numbers[n] for n in placed.together}
        columns.refuse({n: choice.counts[n] for n in blamed}, {numbers[n] for n in placed.alone})
    return None


def _share(limit: int, rules: PlanRules) -> int:
    """A work limit at the effort that the job asks for, rounded up."""
    return -(-limit * rules.effort_percent // 100)


def _lanes(pool: Pool, sticks: Sequence[Stick]) -> list[list[Lane]]:
    """Real lanes of each kind, inner ones first, sticks one after the other."""
    return [
        [
            lane
            for member in pool.sticks[t.stick_class].members
            for lane in sticks[member].lanes
            if lane.length_ticks == t.length
        ]
        for t in pool.lanes
    ]
