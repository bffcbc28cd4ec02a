"""The two last stages on the sticks that were settled: fewer fence settings, then a larger remnant."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.guillotine.fill import every_fill
from edgewright.cutlist.guillotine.pool import Chosen, RipPattern
from edgewright.cutlist.guillotine.problem import Problem
from edgewright.cutlist.guillotine.program import PatternProgram
from edgewright.cutlist.guillotine.search import Search

__all__ = ["fewest_settings", "finish"]


def finish(search: Search, chosen: Chosen, owned: Sequence[int]) -> Chosen:
    """A layout for the same money on as many sticks, with fewer settings and a larger remnant where one was found.

    Parameters
    ----------
    owned
        Sticks of one's own of each class, 0 for what is for sale.
    """
    problem = search.problem
    cost, sticks = search.spent(chosen)
    best = chosen
    if len(search.pool.lanes) + len(search.pool.rips) > search.limits.patterns // 3:
        return best  # too many to choose from for what is at stake
    if _settings(problem, chosen) > fewest_settings(problem):
        program = _same_sticks(search, cost, sticks)
        best = program.minimise(program.settings())[0] or chosen
    search.pool.add(_emptier_rips(search))
    program = _same_sticks(search, cost, sticks)
    program.program.row(program.settings(), None, _settings(problem, best))
    remnant = program.remnant(owned)
    return program.minimise(remnant)[0] or best if remnant else best


def _settings(problem: Problem, chosen: Chosen) -> int:
    """Widths that are ripped; lanes that turn out to be too many count too."""
    kinds = {problem.kinds[lane.kind] for lane, _ in chosen.lanes}
    return len({kind.width for kind in kinds if kind.ripped})


def fewest_settings(problem: Problem) -> int:
    """Settings that no plan does without: widths of blanks that can lie in ripped lanes of one width only."""
    widths: list[set[int]] = [set() for _ in problem.blanks]
    for kind in problem.kinds:
        for t, _ in kind.items:
            # 0 stands for no rip at all
            widths[t].add(kind.width if kind.ripped else 0)
    return len({min(some) for some in widths if len(some) == 1} - {0})


def _same_sticks(search: Search, cost: int, sticks: int) -> PatternProgram:
    program = PatternProgram(
        search.pool, [stick.most for stick in search.problem.sticks], search.limits.nodes
    )
    program.program.row(program.cost, None, cost)
    program.program.row(program.sticks, None, sticks)
    return program


def _emptier_rips(search: Search) -> list[RipPattern]:
    """Rips that leave a strip beside the lanes on purpose, where there are not too many."""
    found: list[RipPattern] = []
    for f in range(len(search.problem.faces)):
        sizes, counts, room = search.pool.rip_fill(f)
        fills = every_fill(sizes, counts, room, search.limits.patterns // 6)
        found += [search.pool.rip(f, fill) for fill in fills or ()]
    return found
