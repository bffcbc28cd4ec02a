"""The search: sticks first, then lanes on them, with inequalities that tell why fewer or cheaper sticks do not do."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from edgewright.cutlist.guillotine.counts import StickChoice, cheapest_choice
from edgewright.cutlist.guillotine.model import GuillotineLimits
from edgewright.cutlist.guillotine.pool import Chosen, Pool
from edgewright.cutlist.guillotine.problem import Problem
from edgewright.cutlist.guillotine.program import PatternProgram
from edgewright.cutlist.guillotine.relaxation import CountCut, Relaxation
from edgewright.cutlist.guillotine.revalue import first_layouts, lay_by_values

__all__ = ["Progress", "Search", "most_blanks", "search_sticks"]

Progress = Callable[[str], None]


@dataclass(slots=True)
class Search:
    """What is known so far.

    Attributes
    ----------
    best
        Cheapest layout, or None.
    cuts, searched
        Why no better choice of sticks does.
    floor
        The least (cents, sticks) that breaks none of these; None where no choice of sticks does.
    impossible
        Whether no choice of sticks is left.
    """

    problem: Problem
    pool: Pool
    limits: GuillotineLimits
    progress: Progress
    best: Chosen | None
    cuts: list[CountCut]
    searched: list[tuple[int, ...]]
    floor: tuple[int, int] | None = None
    impossible: bool = False

    def spent(self, chosen: Chosen) -> tuple[int, int]:
        """Cents and sticks."""
        sticks = [(self.problem.sticks[self.problem.faces[r.face].stick], n) for r, n in chosen.rips]
        return sum(stick.price * n for stick, n in sticks), sum(n for _, n in sticks)

    def offer(self, chosen: Chosen | None) -> None:
        """Keep a layout that spends less."""
        if chosen and (self.best is None or self.spent(chosen) < self.spent(self.best)):
            self.best = chosen


def search_sticks(problem: Problem, limits: GuillotineLimits, progress: Progress) -> Search:
    """Find the layout that costs least and touches fewest sticks, with the reasons why nothing better is possible."""
    pool = Pool(problem, limits.patterns)
    search = Search(problem, pool, limits, progress, None, [], [])
    for chosen, left in first_layouts(pool):
        pool.add_layout(chosen)
        if not any(left):
            search.offer(chosen)
    alone = _lie_nowhere(problem)
    if alone:
        search.cuts, search.impossible = alone, True
        return search
    relaxation = Relaxation(pool, limits.rounds)
    most = [stick.most for stick in problem.sticks]
    cut = relaxation.cut(_weights(problem), most)
    if cut:
        search.cuts.append(cut)
        pool.enrich(cut.points)
    _climb(search, relaxation)
    return search


def _climb(search: Search, relaxation: Relaxation) -> None:
    """Raise the floor until the blanks can be laid out on its sticks, or why they cannot is not to be shown.

    A choice that even the relaxation cannot use gives one more inequality. One that has no layout among the patterns is
    named as searched where the patterns are all there are.
    """
    problem, pool = search.problem, search.pool
    for number in range(search.limits.cuts):
        search.progress(f"choosing sticks, round {number + 1}")
        try:
            choice = cheapest_choice(problem, search.cuts, search.searched)
        except ArithmeticError:
            break
        if choice is None:
            search.impossible, search.floor = True, None
            return
        search.floor = (choice.cost, choice.sticks)
        if search.best and search.spent(search.best) <= search.floor:
            return
        cut = relaxation.cut(None, choice.counts)
        if cut and cut.broken_by(choice.counts):
            search.cuts.append(cut)
            continue
        chosen, settled = _laid(search, choice), False
        if chosen is None:
            chosen, settled = _on_level(search, choice)
        if chosen is None and settled and not pool.complete:
            refined = relaxation.cut([float(s.length * s.width) for s in problem.sticks], choice.counts)
            if refined and pool.enrich(refined.points):
                chosen, settled = _on_level(search, choice)
        search.offer(chosen)
        if chosen is None and settled and pool.complete:
            search.searched.append(choice.counts)
        elif chosen is None:
            break
    if search.floor:
        _narrow(search, search.floor)


def _narrow(search: Search, low: tuple[int, int]) -> None:
    """Without proof: look for a layout between the floor and the best, each time a third of the way up."""
    for number in range(search.limits.levels):
        search.progress(f"looking for cheaper sticks, round {number + 1}")
        high = search.spent(search.best) if search.best else None
        step = (high[0] - low[0]) // 3 if high else 0
        choice = None
        for above in dict.fromkeys(((low[0] + step, 0) if step else low, low)):
            try:
                choice = cheapest_choice(search.problem, search.cuts, search.searched, above)
            except ArithmeticError:
                return
            if choice and (high is None or (choice.cost, choice.sticks) < high):
                break
        if choice is None or (high and (choice.cost, choice.sticks) >= high):
            return
        chosen = _laid(search, choice)
        if chosen is None and number == 0:
            chosen, _ = _on_level(search, choice)
        search.offer(chosen)
        if chosen is None:
            low = (choice.cost, choice.sticks)


def _laid(search: Search, choice: StickChoice) -> Chosen | None:
    """A layout on the sticks of the choice by changing values; its patterns go into the pool either way."""
    chosen, tried = lay_by_values(search.pool, choice.counts, search.limits.tries)
    for some in tried:
        search.pool.add_layout(some)
    return chosen


def _lie_nowhere(problem: Problem) -> list[CountCut]:
    """For every blank that lies in no lane of any stick: it counts one point, and no stick holds any."""
    placed = {t for kind in problem.kinds for t, _ in kind.items}
    return [
        CountCut(
            tuple(int(t == u) for u in range(len(problem.blanks))), (0,) * len(problem.sticks), blank.count
        )
        for t, blank in enumerate(problem.blanks)
        if t not in placed
    ]


def most_blanks(search: Search) -> Chosen:
    """The layout that leaves the least area of blanks out, among the patterns found so far."""
    problem = search.problem
    areas = [blank.length * blank.width for blank in problem.blanks]
    tries = [
        (sum(a * n for a, n in zip(areas, left, strict=True)), chosen)
        for chosen, left in first_layouts(search.pool)
    ]
    best = min(tries, key=lambda some: some[0])[1]
    program = PatternProgram(
        search.pool, [stick.most for stick in problem.sticks], search.limits.nodes, some=True
    )
    return program.minimise(program.least_missing)[0] or best


def _weights(problem: Problem) -> list[float]:
    """Cost of a stick in the first program: a stick of one's own a little, against what is bought."""
    least = min((stick.price for stick in problem.sticks if stick.price), default=50)
    return [stick.price or least / 50 for stick in problem.sticks]


def _on_level(search: Search, choice: StickChoice) -> tuple[Chosen | None, bool]:
    """A layout by any sticks that cost no more and are no more than those of the choice, and whether it is settled."""
    if len(search.pool.lanes) + len(search.pool.rips) > 3 * search.limits.patterns // 2:
        return None, False  # would not be settled within the nodes
    program = PatternProgram(
        search.pool, [stick.most for stick in search.problem.sticks], search.limits.nodes
    )
    program.program.row(program.cost, None, choice.cost)
    program.program.row(program.sticks, None, choice.sticks)
    return program.minimise({})
