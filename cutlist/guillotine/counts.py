"""The number of sticks of each class: the cheapest that breaks none of the inequalities known so far.

What it finds bounds every plan from below, first in cents, then in sticks. When the blanks cannot be laid out on the
sticks it chose, one more inequality says why, and it chooses again.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.guillotine.problem import Problem
from edgewright.cutlist.guillotine.relaxation import CountCut
from edgewright.cutlist.mip import IntegerProgram

__all__ = ["StickChoice", "cheapest_choice"]


@dataclass(frozen=True, slots=True)
class StickChoice:
    """Sticks of each class, with cents and how many; no plan has less of the two, in this order."""

    counts: tuple[int, ...]
    cost: int
    sticks: int


def cheapest_choice(
    problem: Problem,
    cuts: Sequence[CountCut],
    searched: Sequence[tuple[int, ...]],
    above: tuple[int, int] | None = None,
) -> StickChoice | None:
    """Cheapest choice that breaks no cut and is not contained in one that was searched.

    With ``above`` it spends more than these (cents, sticks). None where there is no such choice.

    Raises
    ------
    ArithmeticError
        The solver stopped at its limit.
    """
    program = IntegerProgram()
    use = [program.variable(0, stick.most) for stick in problem.sticks]
    for cut in cuts:
        program.row(dict(zip(use, cut.holds, strict=True)), cut.need)
    for counts in searched:
        more = {}
        for u, n in zip(use, counts, strict=True):
            if n < program.upper[u]:
                beyond = program.variable(0, 1)
                program.row({u: 1, beyond: -(n + 1)}, 0)
                more[beyond] = 1
        program.row(more, 1)
    cost = {u: stick.price for u, stick in zip(use, problem.sticks, strict=True) if stick.price}
    if above:
        dearer = program.variable(0, 1 if cost else 0)
        program.row({**cost, dearer: -1}, above[0])
        program.row({**dict.fromkeys(use, 1), dearer: above[1] + 1}, above[1] + 1)
    least = program.minimise(cost)
    if least.proven and least.values is not None:
        program.row(cost, None, sum(c * least.values[u] for u, c in cost.items()))
        least = program.minimise(dict.fromkeys(use, 1))
    if not least.proven:
        raise ArithmeticError("the number of sticks was not settled within the work limit")
    if least.values is None:
        return None
    counts = tuple(least.values[u] for u in use)
    return StickChoice(counts, sum(c * least.values[u] for u, c in cost.items()), sum(counts))
