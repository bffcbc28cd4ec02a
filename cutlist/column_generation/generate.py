"""Plan large strip problems: columns are generated and chosen stage by stage, and placed under the splice rules.

Stages, each settled before the next: cost of new material, splices, sticks touched, fence settings, strips ripped.
Each but the fence settings leaves the duals that prove its bound. What cannot be placed is refused, what might do
instead is put in, and the choice is made again. All limits are counts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from typing import Final

from edgewright.cutlist.column_generation.integer import Choice, IntegerMaster, length_rows, trimmed
from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.column_generation.relaxation import Proof, Relaxation
from edgewright.cutlist.column_generation.weights import Budget, Weights, material_cost, sticks_touched
from edgewright.cutlist.fill import Segment
from edgewright.cutlist.mip import IntegerProgram
from edgewright.cutlist.realise import Realised

__all__ = ["Generated", "Limits", "Search", "Settled", "generate"]


@dataclass(frozen=True, slots=True)
class Limits:
    """Work limits, counts: rounds of choose and place, nodes of an integer program, rounds of pricing a stage.

    ``gap`` is how many hundredths of its value a stage may be from its bound and be left at that.
    """

    rounds: int = 8
    nodes: int = 1000
    pricing: int = 120
    gap: int = 0


@dataclass(frozen=True, slots=True)
class Settled:
    """A stage: its value, and the proof of its bound (None where there is none)."""

    name: str
    value: int
    proof: Proof | None


@dataclass(frozen=True, slots=True)
class Generated:
    """The plan: what was chosen, its segments, and the stages settled."""

    choice: Choice
    segments: tuple[Segment, ...]
    stages: tuple[Settled, ...]
    budgets: tuple[Budget, ...]

    @property
    def ways(self) -> tuple[int, ...]:
        """How many sticks are ripped in each way."""
        return self.choice.ways


Place = Callable[[Sequence[Column], Sequence[int]], Realised]

_SPLICES: Final = Weights(splice=1)
#: Components of up to so many splices, so many of them, are looked at before they are chosen.
_ASKED_SPLICES: Final = 4
_MOST_ASKED: Final = 1000
#: Components that are put in for one that was refused.
_MOST_INSTEAD: Final = 60
#: Rounds of choose and place in the stages behind the splices; where none can be placed the plan before stands.
_LATER_ROUNDS: Final = 3
#: Lanes in the components that are generated: few at first, more where that settles nothing.
_FEW_LANES: Final = 3
_MANY_LANES: Final = 14


def generate(
    pool: SplicePool,
    place: Place,
    columns: Sequence[Column] = (),
    *,
    lawful: Callable[[Column], bool] | None = None,
    splices_allowed: bool = True,
    labour: tuple[int, int, int] | None = None,
    any_plan: bool = False,
    limits: Limits = Limits(),
    ticking: Callable[[str], None] = lambda words: None,
) -> Generated | None:
    """Best plan found, or None where none was.

    Parameters
    ----------
    place
        Places the pieces of the uses of components, given how many sticks are ripped in each way.
    columns
        Components known beforehand; others are generated.
    lawful
        Whether the pieces of a component alone can be placed; asked for those of few splices before they are chosen.
    labour
        Cents for a splice, a stick and a strip: then material and labour together are the one stage.
    any_plan
        The first plan that can be placed will do.
    ticking
        Called with a few words before each step; may raise to stop.
    """
    search = Search(pool, columns, lawful, splices_allowed, limits, ticking)
    ticking("pricing components")
    first = search.relaxation.solve(search.cost, most_rounds=limits.pricing, most_lanes=_FEW_LANES)
    if not search.relaxation.columns or (first is not None and first.impossible):
        return None
    plan = (
        search.with_labour(labour, place)
        if labour and not any_plan
        else search.in_order(first, place, any_plan)
    )
    if plan is None or labour or any_plan:
        return plan
    return search.later_stages(plan, place)


class Search:
    """Columns, what was refused of them, and the weights of the stages."""

    def __init__(
        self,
        pool: SplicePool,
        columns: Sequence[Column],
        lawful: Callable[[Column], bool] | None,
        splices_allowed: bool,
        limits: Limits,
        ticking: Callable[[str], None],
    ) -> None:
        self.pool, self.splices_allowed, self.limits, self.ticking = pool, splices_allowed, limits, ticking
        self.relaxation = Relaxation(pool, columns, splices_allowed=splices_allowed)
        self.lawful, self.asked = lawful, set[Column]()
        self.refused: set[Column] = set()
        self.forbidden: list[dict[Column, int]] = []
        self.cost = material_cost(pool)
        self.least_cost = least_cost(pool)

    def with_labour(self, labour: tuple[int, int, int], place: Place) -> Generated | None:
        """Plan of the least cost of material and labour together."""
        each_splice, each_stick, each_strip = labour
        ways = tuple(way.price + each_stick for way in self.pool.ways)
        weights = Weights(splice=each_splice, lane=each_strip, ways=ways)
        for _ in range(self.limits.rounds):
            choice, proof = self.stage("cost with labour", weights, ())
            if choice is None:
                return None
            placed = self.placed(choice, place)
            if placed is not None:
                return Generated(choice, placed, (Settled("cost with labour", choice.value, proof),), ())
        return None

    def in_order(self, first: Proof | None, place: Place, any_plan: bool) -> Generated | None:
        """Plan of least cost, and of those with the fewest splices."""
        for _ in range(self.limits.rounds):
            cheapest = self.cheapest(any_plan)
            if cheapest is None:
                return None
            budget = Budget(self.cost, cheapest.value)
            found, proof = self.stage("splices", _SPLICES, (budget,))
            choice = found or cheapest
            placed = self.placed(choice, place)
            if placed is not None:
                spliced = _SPLICES.total(choice.columns, choice.counts, choice.ways)
                stages = (
                    Settled("new material cost", cheapest.value, first),
                    Settled("splices", spliced, proof),
                )
                return Generated(choice, placed, stages, (budget, Budget(_SPLICES, spliced)))
        return None

    def later_stages(self, plan: Generated, place: Place) -> Generated:
        """The plan with sticks, fence settings and strips made few; where nothing better can be placed it stands."""
        stages = {
            "sticks touched": sticks_touched(self.pool),
            "fence settings": Weights(fence=True),
            "strips ripped": Weights(lane=1),
        }
        for name, weights in stages.items():
            if weights.fence and not any(way.settings for way in self.pool.ways):
                continue
            proof = None
            for _ in range(_LATER_ROUNDS):
                choice, proof = self.stage(name, weights, plan.budgets)
                placed = None if choice is None else self.placed(choice, place)
                if choice is not None and placed is not None:
                    plan = replace(plan, choice=choice, segments=placed)
                    break
            value = self._value(weights, plan.choice)
            plan = replace(
                plan,
                stages=(*plan.stages, Settled(name, value, proof)),
                budgets=(*plan.budgets, Budget(weights, value)),
            )
        return plan

    def _value(self, weights: Weights, choice: Choice) -> int:
        if not weights.fence:
            return weights.total(choice.columns, choice.counts, choice.ways)
        taken = [way for way, n in zip(self.pool.ways, choice.ways, strict=True) if n]
        return len({setting for way in taken for setting in way.settings})

    def placed(self, choice: Choice, place: Place) -> tuple[Segment, ...] | None:
        """Segments of a choice; None where it cannot be placed, and then what failed is refused."""
        self.ticking("placing splices")
        uses = trimmed(self.pool, choice.columns, choice.counts)
        placed = place(uses, choice.ways)
        if placed.segments is None:
            self.refuse(uses, placed)
        return placed.segments

    def cheapest(self, any_plan: bool) -> Choice | None:
        """Cheapest choice; while it may be too dear, columns for a cheaper one are generated."""
        choice = self._integer(()).minimise(self.cost, self.limits.nodes)
        for lanes in () if any_plan and choice is not None else (_FEW_LANES, _MANY_LANES, _MANY_LANES):
            if choice is not None and choice.value <= self.least_cost:
                return choice
            limit = self.least_cost if choice is None else choice.value - 1
            for most in dict.fromkeys((self.least_cost, limit)):
                budget = Budget(self.cost, most)
                self._relax(_SPLICES, (budget,), lanes)
                cheaper = self._integer((budget,)).minimise(self.cost, self.limits.nodes)
                if cheaper is not None:
                    # the same columns again, for the numbers of another program do not fit this one
                    choice = cheaper
                    break
        if choice is None:
            self._relax(_SPLICES, (), _MANY_LANES)
            choice = self._integer(()).minimise(self.cost, self.limits.nodes)
        return choice

    def stage(
        self, name: str, weights: Weights, budgets: Sequence[Budget]
    ) -> tuple[Choice | None, Proof | None]:
        """Best choice of a stage under those that are settled, and the proof of its bound."""
        self.ticking(f"settling {name}")
        if weights.fence:
            return self._integer(budgets).minimise(weights, self.limits.nodes), None
        proof = self._relax(weights, budgets, _FEW_LANES)
        choice = self._integer(budgets).minimise(weights, self.limits.nodes)
        for lanes in (_FEW_LANES, _MANY_LANES):
            if choice is None or (proof is not None and proof.bound >= choice.value):
                break
            if proof is not None and 100 * (choice.value - proof.bound) <= self.limits.gap * choice.value:
                break
            known = len(self.relaxation.columns)
            # of interest are plans with fewer splices only: so components with fewer lanes
            cap = choice.value - 1 if name == "splices" else None
            again = self._relax(weights, budgets, lanes, cap)
            if again is not None and (proof is None or again.bound > proof.bound):
                proof = again
            if len(self.relaxation.columns) > known or not choice.exact:
                choice = self._integer(budgets).minimise(weights, self.limits.nodes) or choice
        return choice, proof

    def _relax(
        self, weights: Weights, budgets: Sequence[Budget], most_lanes: int, splice_cap: int | None = None
    ) -> Proof | None:
        return self.relaxation.solve(
            weights,
            [budget for budget in budgets if not budget.weights.fence],
            most_lanes=most_lanes,
            splice_cap=splice_cap,
            most_rounds=self.limits.pricing,
            ticking=lambda: self.ticking("pricing components"),
        )

    def _integer(self, budgets: Sequence[Budget]) -> IntegerMaster:
        if self.lawful is not None:
            unasked = [
                c for c in self.relaxation.columns if 0 < c.splices <= _ASKED_SPLICES and c not in self.asked
            ]
            for column in unasked[: _MOST_ASKED - len(self.asked)]:
                self.asked.add(column)
                if not self.lawful(column):
                    self.refused.add(column)
        columns = [c for c in self.relaxation.columns if c not in self.refused]
        master = IntegerMaster(self.pool, columns, budgets)
        for together in self.forbidden:
            master.forbid(together)
        return master

    def refuse(self, uses: Sequence[Column], placed: Realised) -> None:
        """Take out what cannot be placed alone, or bar what cannot be placed together; put in what might do."""
        failed = {uses[n] for n in placed.alone or placed.together}
        known = set(self.relaxation.columns)
        instead = dict.fromkeys(
            column
            for use in sorted(failed, key=_order)
            for column in islice((c for c in self._instead(use) if c not in known), _MOST_INSTEAD)
        )
        if placed.alone:
            self.refused |= failed
        else:
            counts = {use: sum(other == use for other in uses) for use in failed}
            if counts.keys() <= known:
                self.forbidden.append(counts)
            else:  # a component that was trimmed: without it, the same choice may not come again
                self.refused |= failed
        self.relaxation.columns += list(instead)

    def _instead(self, failed: Column) -> Iterator[Column]:
        """The same with a loop, with one lane more, or with the sides of a lane that is cut whole."""
        pool, kerf, family = self.pool, self.pool.kerf, self.pool.family_of(failed)
        most = sum(pool.sides[i].splices * n for i, n in failed.sides)
        held = sum(pool.lanes[t].length * n for t, n in failed.lanes)
        need = sum((pool.sides[i].length + kerf) * n for i, n in failed.sides) - kerf
        left_over = held - need - failed.loops * kerf
        if not self.splices_allowed:
            return
        if failed.splices < most:
            if left_over >= kerf and sum(n for _, n in failed.sides) > 1:
                yield replace(failed, loops=failed.loops + 1)
            for t in (n for n, lane in enumerate(pool.lanes) if family in lane.families):
                lanes = _merged(failed.lanes, ((t, 1),))
                if dict(lanes)[t] <= pool.available(t):
                    yield Column(failed.sides, lanes, failed.loops)
        singles = [c for c in self.relaxation.columns if c.strips == 1 and c not in self.refused]
        for single in [c for c in singles if pool.family_of(c) == family]:
            sides, lanes = _merged(failed.sides, single.sides), _merged(failed.lanes, single.lanes)
            taken = sum((pool.sides[i].length + kerf) * n for i, n in single.sides)
            spare = left_over + sum(pool.lanes[t].length * n for t, n in single.lanes) - taken
            if (
                spare >= 0
                and failed.splices < sum(pool.sides[i].splices * n for i, n in sides)
                and all(n <= pool.sides[i].count for i, n in sides)
                and all(n <= pool.available(t) for t, n in lanes)
            ):
                yield Column(sides, lanes, failed.loops)


def least_cost(pool: SplicePool) -> int:
    """Cents that cannot be saved, by length alone; 0 where nothing is known."""
    program = IntegerProgram()
    ways = [program.variable(0, pool.group_counts[way.group]) for way in pool.ways]
    for members, count in zip(pool.ways_of_groups, pool.group_counts, strict=True):
        if len(members) > 1:
            program.row(dict.fromkeys((ways[n] for n in members), 1), None, count)
    length_rows(program, pool, ways)
    cost = {way: kind.price for way, kind in zip(ways, pool.ways, strict=True) if kind.price}
    outcome = program.minimise(cost)
    if outcome.values is None or not outcome.proven:
        return 0
    return sum(n * outcome.values[way] for way, n in cost.items())


def _merged(a: tuple[tuple[int, int], ...], b: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    counts = dict(a)
    for kind, n in b:
        counts[kind] = counts.get(kind, 0) + n
    return tuple(sorted(counts.items()))


def _order(column: Column) -> tuple[object, ...]:
    return column.sides, column.lanes, column.loops
