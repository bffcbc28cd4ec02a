"""Which components to use: the lexicographic choice, stage by stage.

Stages, each fixed before the next: cost of new material; splices; sticks touched; fence settings; strips ripped; then
the largest single remnant. Where labour is weighed, all but the last are one sum. Components are counted by type;
every side is covered exactly once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from edgewright.cutlist.components import Component, Pool
from edgewright.cutlist.mip import IntegerProgram

__all__ = ["Choice", "choose", "least_cost"]


@dataclass(frozen=True, slots=True)
class Choice:
    """How often each component is used, and cents; ``proven`` is False when a solve stopped at its work limit."""

    counts: tuple[int, ...]
    cost: int
    proven: bool


def least_cost(pool: Pool) -> int | None:
    """Cents that cannot be saved, by length alone; None where all sticks together are too short."""
    program = IntegerProgram()
    touched = [program.variable(0, len(s.members)) for s in pool.sticks]
    _add_length_cut(program, pool, touched)
    cost = _cost(pool, touched)
    outcome = program.minimise(cost)
    if outcome.values is None:
        return None if outcome.proven else 0
    return sum(c * outcome.values[y] for y, c in cost.items())


def _cost(pool: Pool, touched: Sequence[int]) -> dict[int, int]:
    return {y: s.price_cents for y, s in zip(touched, pool.sticks, strict=True) if s.for_sale}


def choose(
    pool: Pool,
    columns: Sequence[Component],
    forbidden: Sequence[Mapping[int, int]] = (),
    *,
    labour: tuple[int, int, int] | None = None,
    any_plan: bool = False,
) -> Choice | None:
    """Best combination of components, or None when there is none.

    Parameters
    ----------
    forbidden
        Combinations (how often each column is used) that turned out not to be realisable together.
    labour
        Cents for a splice, a stick and a strip: then cost and labour are one stage. None for stage after stage.
    any_plan
        Only the splices are kept few.
    """
    program = IntegerProgram()
    use = [
        program.variable(0, min(len(t.members) // n for n, t in zip(c.sides, pool.sides, strict=True) if n))
        for c in columns
    ]
    touched = [program.variable(0, len(s.members)) for s in pool.sticks]
    for i, side in enumerate(pool.sides):
        n = len(side.members)
        program.row({u: c.sides[i] for u, c in zip(use, columns, strict=True) if c.sides[i]}, n, n)
    for t, lane in enumerate(pool.lanes):
        terms = {u: c.lanes[t] for u, c in zip(use, columns, strict=True) if c.lanes[t]}
        if terms:
            program.row({**terms, touched[lane.stick_class]: -lane.per_stick}, None, 0)
    _add_length_cut(program, pool, touched)
    for combination in forbidden:
        _forbid(program, use, combination)

    cost = _cost(pool, touched)
    splices = {u: c.splices for u, c in zip(use, columns, strict=True)}
    sticks = dict.fromkeys(touched, 1)
    ripped = {u: sum(c.lanes) for u, c in zip(use, columns, strict=True)}
    proven = True
    values: tuple[int, ...] = ()
    stages: tuple[dict[int, int], ...]
    if any_plan:
        stages = (splices,)
    elif labour is not None:
        stages = (_together((cost, 1), *zip((splices, sticks, ripped), labour, strict=True)),)
    else:
        fence = _fence(program, pool, touched)
        stages = tuple(stage for stage in (cost, splices, sticks, fence, ripped) if stage)
    for objective in stages:
        outcome = program.minimise(objective)
        if outcome.values is None:
            return None
        proven &= outcome.proven
        values = outcome.values
        program.row(objective, None, sum(c * values[i] for i, c in objective.items()))
    better = {} if any_plan else _larger_remnants(program, pool, columns, use, touched, values)
    if better:
        outcome = program.minimise(better)
        values, proven = outcome.values or values, proven and outcome.proven
    paid = sum(c * values[y] for y, c in cost.items())
    return Choice(tuple(values[u] for u in use), paid, proven)


def _together(*parts: tuple[Mapping[int, int], int]) -> dict[int, int]:
    """Weighted sum of objectives."""
    total: dict[int, int] = {}
    for objective, weight in parts:
        for variable, value in objective.items():
            total[variable] = total.get(variable, 0) + weight * value
    return {variable: value for variable, value in total.items() if value}


def _fence(program: IntegerProgram, pool: Pool, touched: Sequence[int]) -> dict[int, int]:
    """Variables that say which fence settings are needed; nothing where no choice of sticks changes them."""
    settings = {setting for stick in pool.sticks for setting in stick.settings}
    if len(settings) < 2 and all(stick.settings for stick in pool.sticks):
        return {}
    found = {}
    for setting in sorted(settings):
        needed = program.variable(0, 1)
        for y, stick in zip(touched, pool.sticks, strict=True):
            if setting in stick.settings:
                program.row({y: 1, needed: -len(stick.members)}, None, 0)
        found[needed] = 1
    return found


def _forbid(program: IntegerProgram, use: Sequence[int], combination: Mapping[int, int]) -> None:
    """At least one of these columns is used less often."""
    fewer = {}
    for column, count in combination.items():
        less = program.variable(0, 1)
        most = program.upper[use[column]]
        program.row({use[column]: 1, less: most - count + 1}, None, most)
        fewer[less] = 1
    program.row(fewer, 1)


def _add_length_cut(program: IntegerProgram, pool: Pool, touched: Sequence[int]) -> None:
    """Redundant but strong: the sticks touched hold at least the length the sides need.

    Lengths go into the row in steps of 256 ticks, sticks rounded up and the need down, to keep coefficients small.
    """
    number = sum(len(side.members) for side in pool.sides)
    need = sum(side.length * len(side.members) for side in pool.sides) + (number - 1) * min(pool.joint, 0)
    holds = [0] * len(pool.sticks)
    for lane in pool.lanes:
        holds[lane.stick_class] += lane.length * lane.per_stick
    program.row({y: -(-h // 256) for y, h in zip(touched, holds, strict=True)}, need // 256)


def _larger_remnants(
    program: IntegerProgram,
    pool: Pool,
    columns: Sequence[Component],
    use: Sequence[int],
    touched: Sequence[int],
    values: Sequence[int],
) -> dict[int, int]:
    """Variables and rows that pick one remnant larger than those of ``values``; minimise the negative of its length."""
    spare = []
    for t, lane in enumerate(pool.lanes):
        stick = pool.sticks[lane.stick_class]
        terms = {u: c.lanes[t] for u, c in zip(use, columns, strict=True) if c.lanes[t]}
        if stick.for_sale:
            spare.append((lane.length, {**terms, touched[lane.stick_class]: -lane.per_stick}, 0))
        else:
            spare.append((lane.length, terms, lane.per_stick * len(stick.members)))
    largest = max(
        (length for length, terms, most in spare if sum(c * values[i] for i, c in terms.items()) < most),
        default=0,
    )
    ends = [(column.left_over - pool.kerf, u) for u, column in zip(use, columns, strict=True)]
    largest = max([largest, *(length for length, u in ends if values[u])])
    objective: dict[int, int] = {}
    for length, u in ends:
        if length > largest:
            pick = program.variable(0, 1)
            program.row({pick: 1, u: -1}, None, 0)
            objective[pick] = -length
    for length, terms, most in spare:
        if length > largest:
            pick = program.variable(0, 1)
            program.row({**terms, pick: 1}, None, most)
            objective[pick] = -length
    program.row(dict.fromkeys(objective, 1), 1, 1)
    return objective
