"""Arcs that bend the wrong way: a bulge whose sign was lost, or an arc drawn on the other side of its chord.

Two things show it. Mirrored about its chord the arc would run on into both neighbours, and as it is drawn it makes a
corner with them: so does a rounded corner that was flipped, but also one that was meant to be hollow, hence arcs of the
same size that are hollow alike are left in peace. Or all its twins, three at least of the same chord and bend, turn
one way round the loop, and it alone the other.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.dxf_audit.chains import Run
from edgewright.dxf_audit.paths import Edge, Place

__all__ = ["FlippedArc", "flipped_arcs"]

_SMOOTH: Final = math.radians(0.5)
_CORNER: Final = math.radians(2)
_TWINS: Final = 3


@dataclass(frozen=True, slots=True)
class FlippedArc:
    """An arc that seems to bend the wrong way: its run, the middle of its chord (mm), and what shows it."""

    run: int
    at: Place
    why: str


def flipped_arcs(runs: Sequence[Run]) -> Iterator[FlippedArc]:
    """Arcs of closed runs that seem to bend the wrong way."""
    hollow: list[tuple[int, int]] = []
    smooth: Counter[tuple[float, float]] = Counter()
    alike: Counter[tuple[float, float]] = Counter()
    told: set[tuple[int, int]] = set()
    for number, run in enumerate(runs):
        if not run.closed or len(run.edges) < 2:
            continue
        for at, edge in enumerate(run.edges):
            if abs(edge[2]) < 1e-9:
                continue
            before, after = run.edges[at - 1], run.edges[(at + 1) % len(run.edges)]
            as_drawn, mirrored = (
                [abs(_kink(before, one)), abs(_kink(one, after))] for one in (edge, (*edge[:2], -edge[2]))
            )
            if max(as_drawn) <= _SMOOTH:
                smooth[_size(edge)] += 1
            elif max(mirrored) <= _SMOOTH and min(as_drawn) > _CORNER:
                hollow.append((number, at))
                alike[_size(edge)] += 1
    for number, at in hollow:
        size = _size(runs[number].edges[at])
        if smooth[size] or alike[size] == 1:
            told.add((number, at))
            yield _flipped(runs, number, at, "mirrored it would run on into both neighbours")
    for number, at in _against_twins(runs):
        if (number, at) not in told:
            yield _flipped(runs, number, at, "all other arcs of its size turn the other way")


def _flipped(runs: Sequence[Run], number: int, at: int, why: str) -> FlippedArc:
    (x0, y0), (x1, y1), _ = runs[number].edges[at]
    return FlippedArc(number, ((x0 + x1) / 2, (y0 + y1) / 2), why)


def _size(edge: Edge) -> tuple[float, float]:
    """Chord and bend of an arc, rounded so that twins agree."""
    return round(math.dist(edge[0], edge[1]), 2), round(abs(edge[2]), 4)


def _against_twins(runs: Sequence[Run]) -> Iterator[tuple[int, int]]:
    for number, run in enumerate(runs):
        if not run.closed:
            continue
        twins: dict[tuple[float, float], list[int]] = {}
        for at, edge in enumerate(run.edges):
            if abs(edge[2]) >= 1e-9:
                twins.setdefault(_size(edge), []).append(at)
        for same in twins.values():
            for left in (True, False):
                odd = [at for at in same if (run.edges[at][2] > 0) == left]
                if len(odd) == 1 and len(same) > _TWINS:
                    yield number, odd[0]


def _kink(before: Edge, after: Edge) -> float:
    """Turn from the end of one edge to the start of the next (radians, -π to π)."""
    turn = _heading(after, -1) - _heading(before, 1)
    return math.remainder(turn, math.tau)


def _heading(edge: Edge, end: int) -> float:
    """Direction of an edge at its start (-1) or its end (1), radians from x."""
    (x0, y0), (x1, y1), bulge = edge
    return math.atan2(y1 - y0, x1 - x0) + end * 2 * math.atan(bulge)
