"""Plan a batch: it is settled how each stick is ripped, then each family is planned by itself, and bounds are proven.

Where every stick has one way only, the batch is one problem and is planned as such. Else a few ways of settling it are
tried (each stick for its own job; by a dive), and the best plan is kept. The
bounds come from the linear program of all jobs together, so what is proven holds for every way of ripping.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from edgewright.cutlist.column_generation.dive import Part, apart, combined, dive, part_of, seeds
from edgewright.cutlist.column_generation.generate import Generated, Limits, Settled, generate
from edgewright.cutlist.column_generation.integer import Choice, IntegerMaster
from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.column_generation.relaxation import Relaxation
from edgewright.cutlist.column_generation.weights import Budget, Weights, material_cost, sticks_touched
from edgewright.cutlist.fill import Segment
from edgewright.cutlist.realise import Realised

__all__ = ["PLAN_IN_HAND", "generate_batch"]

Place = Callable[[Sequence[Column], Sequence[int]], Realised]
Values = tuple[int, int, int, int]
_NAMES = ("new material cost", "splices", "sticks touched", "strips ripped")
#: What is told once there is a plan, before it is made better and proven.
PLAN_IN_HAND = "a first plan for all jobs is in hand"
_FEW_LANES = 3
_MANY_LANES = 7
#: Up to so many ways in all, each stick for its own job is tried too.
_FEW_WAYS = 400
#: Nodes of the one program that looks at all families at once.
_GLANCE = 1


def generate_batch(
    pool: SplicePool,
    place: Place,
    measure: Callable[[Generated], Values],
    own: Sequence[int],
    *,
    limits: Limits,
    ticking: Callable[[str], None],
) -> Generated | None:
    """Best plan found for all families together, or None where none was.

    Parameters
    ----------
    measure
        Value of each stage of a plan.
    own
        How many sticks are ripped in each way when each serves its own job.
    """
    if len(pool.ways) == len(pool.group_counts):
        found = generate(pool, place, limits=limits, ticking=ticking)
        if found is not None:
            return replace(found, stages=(_by_length_too(pool, found.stages[0]), *found.stages[1:]))
    best: tuple[Values, Generated] | None = None

    def consider(fixed: Sequence[int] | None) -> None:
        nonlocal best
        plan = None if fixed is None else _by_families(pool, place, fixed, limits, ticking)
        if plan is not None and (best is None or measure(plan) < best[0]):
            best = measure(plan), plan
            ticking(PLAN_IN_HAND)

    relaxation = Relaxation(pool, list(seeds(pool)))
    weights = combined(pool)
    relaxation.solve(
        weights,
        most_rounds=limits.pricing // 4,
        most_lanes=_FEW_LANES,
        ticking=lambda: ticking("pricing components for all jobs"),
    )
    consider(dive(relaxation, weights, ticking))
    if best is None or len(pool.ways) <= _FEW_WAYS:
        ticking("each job with its own wood")
        consider(own)
    if best is None:
        return None
    if best[0][0] and len(pool.ways) <= _FEW_WAYS:
        ticking("looking for a plan that costs less")
        consider(_cheaper(relaxation, best[0][0], limits))
    values, plan = best
    return replace(plan, stages=_proven(relaxation, values, limits, ticking))


def _cheaper(relaxation: Relaxation, cost: int, limits: Limits) -> tuple[int, ...] | None:
    """How many sticks are ripped in each way in a plan that costs less, chosen for all families at once."""
    pool = relaxation.pool
    price = material_cost(pool)
    cheaper = Budget(price, cost - 1)
    relaxation.solve(Weights(splice=1), (cheaper,), most_rounds=limits.pricing // 4, most_lanes=_FEW_LANES)
    choice = IntegerMaster(pool, relaxation.columns, (cheaper,)).minimise(price, min(limits.nodes, _GLANCE))
    return None if choice is None else choice.ways


def _by_families(
    pool: SplicePool, place: Place, fixed: Sequence[int], limits: Limits, ticking: Callable[[str], None]
) -> Generated | None:
    """Plan each family with the sticks that are ripped for it as fixed; with others too where those do not do."""
    free = [
        count - sum(fixed[n] for n in ways)
        for ways, count in zip(pool.ways_of_groups, pool.group_counts, strict=True)
    ]
    used = list(fixed)
    segments: list[Segment] = []
    parts = apart(pool)
    for number, families in enumerate(parts, 1):
        if not any(side.family in families for side in pool.sides):
            continue
        found = None
        for spare in (None, free):
            part = part_of(pool, families, used, spare)
            found = generate(
                part.pool,
                _Placing(part, place, used),
                limits=limits,
                ticking=lambda words, number=number: ticking(f"{words}, strips {number} of {len(parts)}"),  # type: ignore[misc]
            )
            if found is not None:
                for n, more in part.beyond(found.ways, used).items():
                    used[n] += more
                    free[pool.ways[n].group] -= more
                break
        if found is None:
            return None
        segments += found.segments
    return Generated(Choice((), (), tuple(used), 0, False), tuple(segments), (), ())


class _Placing:
    """Places the components of a part with the sticks of the whole."""

    def __init__(self, part: Part, place: Place, used: Sequence[int]) -> None:
        self.part, self.whole, self.used = part, place, tuple(used)

    def __call__(self, uses: Sequence[Column], ways: Sequence[int]) -> Realised:
        """As `Realiser.realise`."""
        now = list(self.used)
        for n, more in self.part.beyond(ways, self.used).items():
            now[n] += more
        return self.whole([self.part.whole(use) for use in uses], now)


def _proven(
    relaxation: Relaxation, values: Values, limits: Limits, ticking: Callable[[str], None]
) -> tuple[Settled, ...]:
    """The stages with the bounds that the linear program proves, each under the values of those before."""
    pool = relaxation.pool
    every = (
        material_cost(pool),
        Weights(splice=1),
        sticks_touched(pool),
        Weights(lane=1),
    )
    budgets: list[Budget] = []
    stages = []
    for name, weights, value in zip(_NAMES, every, values, strict=True):
        proof = None
        for most_lanes in (_FEW_LANES, _MANY_LANES):
            proof = proof or relaxation.solve(
                weights,
                budgets,
                most_lanes=most_lanes,
                splice_cap=value - 1 if name == "splices" and value else None,
                enough=value,
                most_rounds=limits.pricing // 4,
                ticking=lambda name=name: ticking(f"proving {name}"),  # type: ignore[misc]
            )
        stages.append(Settled(name, value, proof))
        budgets.append(Budget(weights, value))
    return _by_length_too(pool, stages[0]), *stages[1:]


def _by_length_too(pool: SplicePool, stage: Settled) -> Settled:
    """The cost with the better proof, where length alone gives it."""
    plain = Relaxation(pool).by_length(material_cost(pool), ())
    better = plain is not None and (stage.proof is None or plain.bound > stage.proof.bound)
    return replace(stage, proof=plain) if better else stage
