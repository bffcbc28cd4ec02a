"""The two last stages on the sticks that were settled: fewer fence settings, then a larger remnant."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.guillotine.fill import every_fill
from edgewright.cutlist.guillotine.pool import RipPattern
from edgewright.cutlist.guillotine.program import Chosen, PatternProgram
from edgewright.cutlist.guillotine.search import Search

__all__ = ["finish"]


def finish(search: Search, chosen: Chosen, owned: Sequence[int]) -> Chosen:
    """A layout for the same money on as many sticks, with fewer settings and a larger remnant where one was found.

    Parameters
    ----------
    owned
        Sticks of one's own of each class, 0 for what is for sale.
    """
    problem = search.problem
    cost, sticks = search.spent(chosen)
    program = _same_sticks(search, cost, sticks)
    settings = program.settings()
    best, _ = program.minimise(settings)
    best = best or chosen
    width_of = {k: kind.width for k, kind in enumerate(problem.kinds) if kind.ripped}
    fewest = len({width_of[lane.kind] for lane, _ in best.lanes if lane.kind in width_of})
    search.pool.add(_emptier_rips(search))
    program = _same_sticks(search, cost, sticks)
    program.program.row(program.settings(), None, fewest)
    remnant = program.remnant(owned)
    return program.minimise(remnant)[0] or best if remnant else best


def _same_sticks(search: Search, cost: int, sticks: int) -> PatternProgram:
    program = PatternProgram(
        search.pool, [stick.most for stick in search.problem.sticks], search.limits.nodes
    )
    program.program.row(program.cost, None, cost)
    program.program.row(program.sticks, None, sticks)
    return program


def _emptier_rips(search: Search) -> list[RipPattern]:
    """Rips that leave a strip beside the lanes on purpose, where there are not too many."""
    problem, found = search.problem, list[RipPattern]()
    for f, face in enumerate(problem.faces):
        sizes = [problem.kinds[k].width + problem.kerf for k in face.kinds]
        counts = [search.pool.most_lanes(k) for k in face.kinds]
        fills = every_fill(sizes, counts, face.across + problem.kerf, search.limits.patterns)
        for fill in fills or ():
            found.append(RipPattern(f, tuple((k, n) for k, n in zip(face.kinds, fill, strict=True) if n)))
    return found
