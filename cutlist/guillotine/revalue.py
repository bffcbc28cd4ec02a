"""Lays blanks on given sticks again and again, each time worth more where they were hard to place.

A blank that was left over, or lay in a lane with much waste, is worth more the next time, so it is placed while there
is still room for it. The values follow from the last layout alone; nothing is drawn at random.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from edgewright.cutlist.guillotine.pool import Chosen, LanePattern, Pool, RipPattern
from edgewright.cutlist.guillotine.problem import Face

__all__ = ["first_layouts", "lay_by_values"]

_Values = npt.NDArray[np.float64]
_Counts = npt.NDArray[np.int64]


def first_layouts(pool: Pool) -> list[tuple[Chosen, tuple[int, ...]]]:
    """Layouts by area on as many sticks as it takes, one's own first, and the blanks of each type left over."""
    problem = pool.problem
    areas = np.array([float(blank.length * blank.width) for blank in problem.blanks])
    number = range(len(problem.sticks))
    size = [stick.length * stick.width for stick in problem.sticks]
    orders = (
        sorted(
            number, key=lambda s: (problem.sticks[s].for_sale, problem.sticks[s].price / size[s], -size[s])
        ),
        sorted(number, key=lambda s: (problem.sticks[s].for_sale, -size[s])),
    )
    found = []
    for order in orders:
        chosen, left, _ = _lay(pool, [s for s in order for _ in range(problem.sticks[s].most)], areas)
        found.append((chosen, tuple(int(n) for n in left)))
    return found


def lay_by_values(pool: Pool, counts: Sequence[int], tries: int) -> tuple[Chosen | None, list[Chosen]]:
    """A layout of all blanks on so many sticks of each class, or None; and every layout tried, for its patterns."""
    problem = pool.problem
    areas = np.array([float(blank.length * blank.width) for blank in problem.blanks])
    values: _Values = areas.copy()
    tried = []
    orders = [sorted(range(len(counts)), key=lambda s: -problem.sticks[s].length * problem.sticks[s].width)]
    orders.append(orders[0][::-1])
    for number in range(tries):
        chosen, left, waste = _lay(pool, [s for s in orders[number % 2] for _ in range(counts[s])], values)
        tried.append(chosen)
        if not left.any():
            return chosen, tried
        # half of what a blank was worth, half of what it took with its waste; a quarter more when left over
        values = 0.5 * values + 0.5 * areas * waste
        values *= np.where(left > 0, 1.25, 1.0)
        values *= areas.sum() / values.sum()
    return None, tried


def _lay(pool: Pool, sticks: Sequence[int], values: _Values) -> tuple[Chosen, _Counts, _Values]:
    problem = pool.problem
    left: _Counts = np.array(problem.demand, dtype=np.int64)
    taken = np.zeros(len(left))
    placed = np.zeros(len(left))
    rips: list[tuple[RipPattern, int]] = []
    lanes: list[tuple[LanePattern, int]] = []
    for s in sticks:
        if not left.any():
            break
        faces = [(f, face) for f, face in enumerate(problem.faces) if face.stick == s]
        laid = [(f, face, _rip(pool, face, left, values)) for f, face in faces]
        laid = [some for some in laid if some[2]]
        if not laid:
            continue
        f, face, best = max(
            laid, key=lambda some: sum(values[t] * n for lane in some[2] for t, n in lane.blanks)
        )
        kinds = sorted(lane.kind for lane in best)
        rips.append((RipPattern(f, tuple((k, kinds.count(k)) for k in dict.fromkeys(kinds))), 1))
        for lane in best:
            lanes.append((lane, 1))
            along = dict(problem.kinds[lane.kind].items)
            share = face.length / sum(along[t] * n for t, n in lane.blanks)
            for t, n in lane.blanks:
                left[t] -= n
                placed[t] += n
                taken[t] += n * share
    return Chosen(tuple(rips), tuple(lanes)), left, np.where(placed > 0, taken / np.maximum(placed, 1), 1.0)


def _rip(pool: Pool, face: Face, left: _Counts, values: _Values) -> list[LanePattern]:
    """Lanes one after the other, each worth most for its width."""
    problem, laid, now = pool.problem, list[LanePattern](), left.copy()
    room = face.across + problem.kerf
    # worth and fill of the best lane of each kind, as long as none of its blanks was placed since
    known: dict[int, tuple[float, list[int]]] = {}
    while True:
        best: tuple[float, int] | None = None
        for k in face.kinds:
            size = problem.kinds[k].width + problem.kerf
            if size <= room:
                if k not in known:
                    known[k] = pool.lane_for(k, now, values)
                # a lane that just fills what is left wastes none of it
                score = known[k][0] / (room if room - size < problem.kerf else size)
                if score > 0 and (best is None or score > best[0]):
                    best = (score, k)
        if best is None:
            return laid
        lane = pool.lane(best[1], known[best[1]][1])
        laid.append(lane)
        room -= problem.kinds[lane.kind].width + problem.kerf
        for t, n in lane.blanks:
            now[t] -= n
        placed = {t for t, _ in lane.blanks}
        known = {k: some for k, some in known.items() if pool.types[k].isdisjoint(placed)}
