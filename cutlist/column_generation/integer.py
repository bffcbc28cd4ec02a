"""The integer choice among the columns: how often each component is used, stage by stage, and which sticks.

It is the same program as the relaxation, in whole numbers and over the columns that were found. Sides may be covered
more than once, for a component without one of its sides is still possible (`trimmed`); a stage that is settled
becomes a row of the next.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass

from edgewright.cutlist.column_generation.pool import Column, SplicePool
from edgewright.cutlist.column_generation.weights import Budget, Weights
from edgewright.cutlist.mip import IntegerProgram

__all__ = ["Choice", "IntegerMaster", "length_rows", "trimmed"]


@dataclass(frozen=True, slots=True)
class Choice:
    """How often each of the columns is used and each way of ripping taken; ``value`` is that of the last stage."""

    columns: tuple[Column, ...]
    counts: tuple[int, ...]
    ways: tuple[int, ...]
    value: int
    exact: bool


class IntegerMaster:
    """The integer program over a list of columns.

    Parameters
    ----------
    most_ways
        Most sticks ripped in each way, if not as many as there are.
    group_counts
        Most sticks of each group, if not as many as there are.
    families
        Only the sides of these are covered, if not all.
    """

    def __init__(
        self,
        pool: SplicePool,
        columns: Sequence[Column],
        budgets: Sequence[Budget] = (),
        *,
        most_ways: Sequence[int] | None = None,
        group_counts: Sequence[int] | None = None,
        families: Container[int] | None = None,
    ) -> None:
        if most_ways is None:
            most_ways = [pool.group_counts[way.group] for way in pool.ways]
        available = [lane.per_stick * most_ways[lane.way] for lane in pool.lanes]
        if families is not None:
            columns = [c for c in columns if all(available[t] >= n for t, n in c.lanes)]
        self.pool, self.columns = pool, tuple(columns)
        self.program = program = IntegerProgram()
        self.use = [
            program.variable(
                0,
                min(
                    max(-(-pool.sides[i].count // n) for i, n in column.sides),
                    min(available[t] // n for t, n in column.lanes),
                ),
            )
            for column in self.columns
        ]
        self.ways = [program.variable(0, most) for most in most_ways]
        rows: list[dict[int, int]] = [{} for _ in pool.sides]
        taken: list[dict[int, int]] = [{} for _ in pool.lanes]
        for use, column in zip(self.use, self.columns, strict=True):
            for i, n in column.sides:
                rows[i][use] = n
            for t, n in column.lanes:
                taken[t][use] = n
        for side, row in zip(pool.sides, rows, strict=True):
            if families is None or side.family in families:
                program.row(row, side.count)
        for lane, row in zip(pool.lanes, taken, strict=True):
            if row:
                program.row({**row, self.ways[lane.way]: -lane.per_stick}, None, 0)
        for members, count in zip(pool.ways_of_groups, group_counts or pool.group_counts, strict=True):
            free = [self.ways[n] for n in members if most_ways[n]]
            if len(free) > 1:
                program.row(dict.fromkeys(free, 1), None, count)
        if families is None:
            length_rows(program, pool, self.ways)
        for budget in budgets:
            self.settle(budget)

    def terms(self, weights: Weights) -> dict[int, int]:
        """What a stage counts, by variable."""
        found = {}
        for use, column in zip(self.use, self.columns, strict=True):
            if spent := weights.of(column):
                found[use] = spent
        if weights.ways:
            found |= {way: n for way, n in zip(self.ways, weights.ways, strict=True) if n}
        return found

    def fence_terms(self) -> dict[int, int]:
        """Variables that say which fence settings are needed, each counting one."""
        pool, found = self.pool, {}
        for setting in sorted({setting for way in pool.ways for setting in way.settings}):
            needed = self.program.variable(0, 1)
            for way, kind in zip(self.ways, pool.ways, strict=True):
                if setting in kind.settings:
                    self.program.row({way: 1, needed: -pool.group_counts[kind.group]}, None, 0)
            found[needed] = 1
        return found

    def settle(self, budget: Budget) -> None:
        """A stage may not get worse than this."""
        terms = self.fence_terms() if budget.weights.fence else self.terms(budget.weights)
        self.program.row(terms, None, budget.most)

    def forbid(self, together: Mapping[Column, int]) -> None:
        """At least one of these columns is used less often."""
        fewer: dict[int, int] = {}
        for use, column in zip(self.use, self.columns, strict=True):
            if column in together:
                less, most = self.program.variable(0, 1), self.program.upper[use]
                self.program.row({use: 1, less: most - together[column] + 1}, None, most)
                fewer[less] = 1
        self.program.row(fewer, 1)

    def minimise(self, weights: Weights, nodes: int = 50_000) -> Choice | None:
        """Best choice for a stage under those that are settled; None where none was found within so many nodes."""
        terms = self.fence_terms() if weights.fence else self.terms(weights)
        outcome = self.program.minimise(terms, nodes)
        if outcome.values is None:
            return None
        values = outcome.values
        return Choice(
            self.columns,
            tuple(values[u] for u in self.use),
            tuple(values[w] for w in self.ways),
            sum(n * values[v] for v, n in terms.items()),
            outcome.proven,
        )


def length_rows(program: IntegerProgram, pool: SplicePool, ways: Sequence[int]) -> None:
    """Redundant but strong: the sticks taken hold the sides, in steps of 256 ticks to keep coefficients small."""
    steps = [min(joint, pool.kerf) for joint in pool.joints]
    needs = [0] * len(steps)
    for side in pool.sides:
        needs[side.family] += (side.length + steps[side.family]) * side.count
    # each family alone, and those together that lanes have in common
    for families in sorted({(n,) for n in range(len(steps))} | {lane.families for lane in pool.lanes}):
        held: dict[int, int] = {}
        for lane in pool.lanes:
            if not set(families).isdisjoint(lane.families):
                way = ways[lane.way]
                most = max(0, *(steps[n] for n in families))
                held[way] = held.get(way, 0) + (lane.length + most) * lane.per_stick
        need = sum(needs[n] for n in families)
        program.row({way: -(-n // 256) for way, n in held.items()}, need // 256)


def trimmed(pool: SplicePool, columns: Sequence[Column], counts: Sequence[int]) -> tuple[Column, ...]:
    """Each use of a component, after every side is taken off that is covered once too often."""
    uses = [column for column, n in zip(columns, counts, strict=True) for _ in range(n)]
    # off those with the most splices first: a side less may save a lane
    uses.sort(key=lambda column: (-column.splices, column.sides, column.lanes))
    surplus = [-side.count for side in pool.sides]
    for column in uses:
        for i, n in column.sides:
            surplus[i] += n
    found = []
    for column in uses:
        sides, lanes = dict(column.sides), dict(column.lanes)
        for i in sorted(sides):
            off = min(surplus[i], sides[i])
            sides[i] -= off
            surplus[i] -= off
        if sides == dict(column.sides):
            found.append(column)
        elif any(sides.values()):
            found.append(_with_fewer_lanes(pool, {i: n for i, n in sides.items() if n}, lanes))
    return tuple(found)


def _with_fewer_lanes(pool: SplicePool, sides: dict[int, int], lanes: dict[int, int]) -> Column:
    """The component without the lanes that it does not need."""
    need = sum((pool.sides[i].length + pool.kerf) * n for i, n in sides.items()) - pool.kerf
    held = sum(pool.lanes[t].length * n for t, n in lanes.items())
    for t in sorted(lanes, key=lambda t: pool.lanes[t].length):
        while lanes[t] and held - pool.lanes[t].length >= need:
            held -= pool.lanes[t].length
            lanes[t] -= 1
    return Column(tuple(sorted(sides.items())), tuple(sorted((t, n) for t, n in lanes.items() if n)))
