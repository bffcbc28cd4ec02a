"""Which components to use: the lexicographic choice, stage by stage.

Stages, each fixed before the next: cost of new material; splices; sticks touched; strips ripped; then the largest
single remnant. Components are counted by type; every side is covered exactly once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.components import Component, Pool
from edgewright.cutlist.mip import IntegerProgram

__all__ = ["Choice", "choose"]


@dataclass(frozen=True, slots=True)
class Choice:
    """How often each component is used; ``proven`` is False when a solve stopped at its work limit."""

    counts: tuple[int, ...]
    proven: bool


def choose(
    pool: Pool,
    columns: Sequence[Component],
    forbidden: Sequence[tuple[int, ...]] = (),
) -> Choice | None:
    """Best combination of components, or None when there is none.

    Parameters
    ----------
    forbidden
        Combinations (sets of column numbers used) that turned out not to be realisable together.
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
        program.row({use[j]: 1 for j in combination}, None, len(combination) - 1)

    cost = {y: s.price_cents for y, s in zip(touched, pool.sticks, strict=True) if s.for_sale}
    splices = {u: c.splices for u, c in zip(use, columns, strict=True)}
    sticks = dict.fromkeys(touched, 1)
    ripped = {u: sum(c.lanes) for u, c in zip(use, columns, strict=True)}
    proven = True
    values: tuple[int, ...] = ()
    for objective in (cost, splices, sticks, ripped):
        outcome = program.minimise(objective)
        if outcome.values is None:
            return None
        proven &= outcome.proven
        values = outcome.values
        program.row(objective, None, sum(c * values[i] for i, c in objective.items()))
    outcome = program.minimise(_largest_remnant(program, pool, columns, use, touched))
    if outcome.values is not None:
        values, proven = outcome.values, proven and outcome.proven
    return Choice(tuple(values[u] for u in use), proven)


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


def _largest_remnant(
    program: IntegerProgram,
    pool: Pool,
    columns: Sequence[Component],
    use: Sequence[int],
    touched: Sequence[int],
) -> dict[int, int]:
    """Variables and rows that pick one remnant; minimise the negative of its length."""
    objective: dict[int, int] = {}
    for u, column in zip(use, columns, strict=True):
        if column.left_over > pool.kerf:
            pick = program.variable(0, 1)
            program.row({pick: 1, u: -1}, None, 0)
            objective[pick] = pool.kerf - column.left_over
    for t, lane in enumerate(pool.lanes):
        stick = pool.sticks[lane.stick_class]
        pick = program.variable(0, 1)
        terms = {u: c.lanes[t] for u, c in zip(use, columns, strict=True) if c.lanes[t]}
        if stick.for_sale:
            program.row({**terms, pick: 1, touched[lane.stick_class]: -lane.per_stick}, None, 0)
        else:
            program.row({**terms, pick: 1}, None, lane.per_stick * len(stick.members))
        objective[pick] = -lane.length
    program.row(dict.fromkeys(objective, 1), None, 1)
    return objective
