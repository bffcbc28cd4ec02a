"""Stick after stick, lane after lane: a plan in no time, and good patterns for the program to choose from."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import Literal

from edgewright.cutlist.guillotine.fill import best_fill
from edgewright.cutlist.guillotine.pool import LanePattern, RipPattern
from edgewright.cutlist.guillotine.problem import Face, Problem
from edgewright.cutlist.guillotine.program import Chosen

__all__ = ["greedy_layouts"]

_Choice = Literal["wide first", "full first"]


def greedy_layouts(problem: Problem) -> list[tuple[Chosen, tuple[int, ...]]]:
    """Layouts found by a few fixed orders of sticks and lanes, each with the blanks of each type it leaves out."""
    orders = [
        sorted(range(len(problem.sticks)), key=lambda s: _by_price(problem, s)),
        sorted(range(len(problem.sticks)), key=lambda s: _by_size(problem, s)),
    ]
    ways: tuple[_Choice, ...] = ("wide first", "full first")
    return [_lay(problem, order, way) for order, way in product(orders, ways)]


def _by_price(problem: Problem, s: int) -> tuple[bool, float]:
    stick = problem.sticks[s]
    area = stick.length * stick.width
    return stick.for_sale, stick.price / area if stick.for_sale else -area


def _by_size(problem: Problem, s: int) -> tuple[bool, int]:
    stick = problem.sticks[s]
    return stick.for_sale, -stick.length * stick.width


def _lay(problem: Problem, order: Sequence[int], way: _Choice) -> tuple[Chosen, tuple[int, ...]]:
    left = list(problem.demand)
    rips: list[tuple[RipPattern, int]] = []
    lanes: list[tuple[LanePattern, int]] = []
    for s in order:
        faces = [f for f, face in enumerate(problem.faces) if face.stick == s]
        for _ in range(problem.sticks[s].most):
            best: tuple[int, int, list[LanePattern]] = (0, 0, [])
            for f in faces:
                laid = _rip(problem, problem.faces[f], left, way)
                area = sum(_area(problem, lane) for lane in laid)
                if area > best[0]:
                    best = (area, f, laid)
            if not best[0]:
                break
            _, f, laid = best
            kinds = sorted(lane.kind for lane in laid)
            rips.append((RipPattern(f, tuple((k, kinds.count(k)) for k in dict.fromkeys(kinds))), 1))
            for lane in laid:
                lanes.append((lane, 1))
                for t, n in lane.blanks:
                    left[t] -= n
    return Chosen(tuple(rips), tuple(lanes)), tuple(left)


def _area(problem: Problem, lane: LanePattern) -> int:
    return sum(n * problem.blanks[t].length * problem.blanks[t].width for t, n in lane.blanks)


def _rip(problem: Problem, face: Face, left: Sequence[int], way: _Choice) -> list[LanePattern]:
    """Lanes for one stick, one after the other, each the best that is left for its width."""
    kerf, room, now = problem.kerf, face.across + problem.kerf, list(left)
    laid: list[LanePattern] = []
    while True:
        best: tuple[tuple[float, float], LanePattern] | None = None
        for k in face.kinds:
            kind = problem.kinds[k]
            if kind.width + kerf > room:
                continue
            counts = [now[t] for t, _ in kind.items]
            if not any(counts):
                continue
            sizes = [along + kerf for _, along in kind.items]
            filled, fill = best_fill(sizes, counts, sizes, kind.length + kerf)
            share = filled / (kind.length + kerf)
            key = (kind.width, share) if way == "wide first" else (share, kind.width)
            if best is None or key > best[0]:
                items = zip(kind.items, fill, strict=True)
                best = (key, LanePattern(k, tuple((t, n) for (t, _), n in items if n)))
        if best is None:
            return laid
        laid.append(best[1])
        room -= problem.kinds[best[1].kind].width + kerf
        for t, n in best[1].blanks:
            now[t] -= n
