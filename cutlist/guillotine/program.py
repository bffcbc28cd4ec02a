"""The integer program over the patterns of the pool: which rips, which lanes, for how many sticks."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.cutlist.guillotine.pool import Chosen, Pool
from edgewright.cutlist.mip import IntegerProgram

__all__ = ["PatternProgram"]


class PatternProgram:
    """Rips and lanes of a pool that cover the demand, on at most ``most`` sticks of each class.

    With ``some`` blanks may be left out; then `least_missing` is the objective.
    """

    def __init__(self, pool: Pool, most: Sequence[int], nodes: int, *, some: bool = False) -> None:
        problem = pool.problem
        program = IntegerProgram(nodes=nodes)
        self._pool, self.program = pool, program
        self.rips = [program.variable(0, most[problem.faces[r.face].stick]) for r in pool.rips]
        self.lanes = [
            program.variable(0, max(-(-problem.blanks[t].count // n) for t, n in lane.blanks))
            for lane in pool.lanes
        ]
        self.missing = [program.variable(0, blank.count) for blank in problem.blanks] if some else []
        self._demand()
        self._kinds()
        for s, number in enumerate(most):
            of = {v: 1 for v, r in zip(self.rips, pool.rips, strict=True) if problem.faces[r.face].stick == s}
            if of:
                program.row(of, None, number)

    def _demand(self) -> None:
        rows: list[dict[int, int]] = [{} for _ in self._pool.problem.blanks]
        for v, lane in zip(self.lanes, self._pool.lanes, strict=True):
            for t, n in lane.blanks:
                rows[t][v] = n
        for t, v in enumerate(self.missing):
            rows[t][v] = 1
        for row, blank in zip(rows, self._pool.problem.blanks, strict=True):
            self.program.row(row, blank.count)

    def _kinds(self) -> None:
        rows: list[dict[int, int]] = [{} for _ in self._pool.problem.kinds]
        for v, rip in zip(self.rips, self._pool.rips, strict=True):
            for k, n in rip.lanes:
                rows[k][v] = n
        for v, lane in zip(self.lanes, self._pool.lanes, strict=True):
            rows[lane.kind][v] = -1
        for row in rows:
            if row:
                self.program.row(row, 0)

    @property
    def cost(self) -> dict[int, int]:
        """Cents."""
        problem = self._pool.problem
        prices = [problem.sticks[problem.faces[rip.face].stick].price for rip in self._pool.rips]
        return {v: price for v, price in zip(self.rips, prices, strict=True) if price}

    @property
    def sticks(self) -> dict[int, int]:
        """Sticks touched."""
        return dict.fromkeys(self.rips, 1)

    @property
    def least_missing(self) -> dict[int, int]:
        """Blanks left out, by area in steps that keep the figures small."""
        areas = [blank.length * blank.width for blank in self._pool.problem.blanks]
        step = max(1, max(areas) // 10_000)
        return {v: max(1, area // step) for v, area in zip(self.missing, areas, strict=True)}

    def settings(self) -> dict[int, int]:
        """Fence settings; adds the variables and rows that count them."""
        problem, program = self._pool.problem, self.program
        ripped: dict[int, list[int]] = {}
        for v, lane in zip(self.lanes, self._pool.lanes, strict=True):
            kind = problem.kinds[lane.kind]
            if kind.ripped:
                ripped.setdefault(kind.width, []).append(v)
        count = {}
        for width in sorted(ripped):
            used = program.variable(0, 1)
            count[used] = 1
            for v in ripped[width]:
                program.row({v: 1, used: -program.upper[v]}, None, 0)
        return count

    def remnant(self, owned: Sequence[int]) -> dict[int, int]:
        """Picks one strip beside lanes, or one untouched stick, by area; adds the variables and rows it takes.

        The strips counted are those the rips leave; a lane of a rip that stays empty is not counted.
        """
        problem, program = self._pool.problem, self.program
        areas: dict[int, int] = {}
        for v, rip in zip(self.rips, self._pool.rips, strict=True):
            face = problem.faces[rip.face]
            beside = face.across - sum(n * (problem.kinds[k].width + problem.kerf) for k, n in rip.lanes)
            if beside >= max(problem.min_rip_width, 1):
                picked = program.variable(0, 1)
                program.row({picked: 1, v: -1}, None, 0)
                areas[picked] = face.length * beside
        for s, (stick, own) in enumerate(zip(problem.sticks, owned, strict=True)):
            touched = {
                v: 1
                for v, r in zip(self.rips, self._pool.rips, strict=True)
                if problem.faces[r.face].stick == s
            }
            if own:
                picked = program.variable(0, 1)
                program.row({**touched, picked: 1}, None, own)
                areas[picked] = stick.length * stick.width
        if areas:
            program.row(dict.fromkeys(areas, 1), None, 1)
        step = max(1, max(areas.values(), default=0) // 100_000)
        return {v: -(area // step) for v, area in areas.items()}

    def minimise(self, objective: dict[int, int]) -> tuple[Chosen | None, bool]:
        """Solve; what was chosen, or None, and whether that is settled."""
        outcome = self.program.minimise(objective)
        if outcome.values is None:
            return None, outcome.proven
        values = outcome.values
        chosen = Chosen(
            tuple((r, values[v]) for v, r in zip(self.rips, self._pool.rips, strict=True) if values[v]),
            tuple((p, values[v]) for v, p in zip(self.lanes, self._pool.lanes, strict=True) if values[v]),
        )
        return chosen, outcome.proven
