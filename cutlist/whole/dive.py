"""Whole cuttings out of a relaxation: take the surest patterns, solve what is left again, and so on.

Patterns that the relaxation uses at least once are taken that often; otherwise those it uses nearly once, and
otherwise the one it uses most. New patterns join as the demand shrinks, so that the last lanes are not left with
what nobody wanted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.whole.cutting import Cutting, make_cutting, value_of
from edgewright.cutlist.whole.prices import Box
from edgewright.cutlist.whole.pricing import Counts
from edgewright.cutlist.whole.relaxation import Relaxation, Relaxed

__all__ = ["dive"]

#: How many single patterns are tried in one place, when what was sure led nowhere.
_WIDTH: Final = 3


@dataclass(frozen=True, slots=True)
class _State:
    """What is left of each type, lanes taken, what was cut for that, and the relaxation of what is left."""

    left: tuple[int, ...]
    taken: tuple[int, ...]
    cut: tuple[tuple[tuple[int, Counts], int], ...]
    relaxed: Relaxed


def dive(
    relaxation: Relaxation, box: Box, start: Relaxed, below: float, sure: float = 0.7, turns: int = 0
) -> Cutting | None:
    """Look for a cutting within the box that comes to less than ``below``.

    Parameters
    ----------
    relaxation
        The patterns known; more are added.
    start
        The box, solved.
    below
        What a cutting has to come to less than, to be worth anything.
    sure
        Patterns used at least this often, though not once, are taken together.
    turns
        How often another way may be taken where a relaxation shows that this one leads nowhere.
    """
    inst = relaxation.inst
    first = _State(tuple(inst.demand), (0,) * len(inst.capacities), (), start)
    path = [(first, iter(_choices(relaxation.patterns, first, sure)))]
    while path and turns >= 0:
        state, choices = path[-1]
        chosen = next(choices, None)
        if chosen is None:
            path.pop()
            continue
        left, taken = list(state.left), list(state.taken)
        for (lane, counts), number in chosen:
            taken[lane] += number
            left = [rest - count * number for rest, count in zip(left, counts, strict=True)]
        cut = (*state.cut, *chosen)
        if not any(left):
            return _finish(relaxation, box, cut, below)
        now = relaxation.solve(box, left, taken)
        if now.value <= below - 1 + 1e-6:
            state = _State(tuple(left), tuple(taken), cut, now)
            path.append((state, iter(_choices(relaxation.patterns, state, sure))))
        else:
            turns -= 1
    return None


def _finish(
    relaxation: Relaxation, box: Box, cut: Sequence[tuple[tuple[int, Counts], int]], below: float
) -> Cutting | None:
    times: dict[tuple[int, Counts], int] = {}
    for pattern, number in cut:
        times[pattern] = times.get(pattern, 0) + number
    cutting = make_cutting(relaxation.inst, relaxation.goal, box, times)
    if cutting is None or value_of(relaxation.inst, cutting.sticks, relaxation.goal.stage) >= below:
        return None
    return cutting


def _choices(
    patterns: Sequence[tuple[int, Counts]], state: _State, sure: float
) -> Iterator[list[tuple[tuple[int, Counts], int]]]:
    """What may be taken next, the likeliest first: all that is sure, or else one pattern at a time."""
    rest = list(state.left)
    chosen = []
    parts = []
    for at, number in enumerate(state.relaxed.times):
        whole = math.floor(number + 1e-6)
        if whole:
            chosen.append((patterns[at], whole))
            rest = [r - c * whole for r, c in zip(rest, patterns[at][1], strict=True)]
        if number - whole > 1e-6:
            parts.append((whole - number, at))
    parts.sort()
    single = []
    for part, at in parts:
        counts = patterns[at][1]
        if all(count <= r for count, r in zip(counts, state.left, strict=True)):
            single.append([(patterns[at], 1)])
        if (not chosen or -part >= sure) and all(count <= r for count, r in zip(counts, rest, strict=True)):
            chosen.append((patterns[at], 1))
            rest = [r - c for r, c in zip(rest, counts, strict=True)]
    if chosen:
        yield chosen
    yield from (one for one in single[:_WIDTH] if one != chosen)
