"""The knapsack of the checkers, in whole numbers: the most worth that fits within each room."""

from __future__ import annotations

from collections.abc import Callable

__all__ = ["Steps", "rising", "with_copies"]

#: (room taken, worth) in ascending order; the worth ascends too.
Steps = list[tuple[int, int]]


def with_copies(
    steps: Steps,
    size: int,
    worth: int,
    number: int,
    room: int,
    spend: Callable[[int], None] = lambda steps: None,
) -> Steps:
    """Steps when up to ``number`` more things of this size and worth may be put in; ``spend`` is told the work."""
    left = min(number, room // size if size > 0 else number) if worth > 0 else 0
    block = 1
    while left > 0:
        take = min(block, left)
        spend(len(steps))
        more = [(s + take * size, w + take * worth) for s, w in steps if s + take * size <= room]
        steps = rising(steps, more)
        left -= take
        block *= 2
    return steps


def rising(one: Steps, other: Steps) -> Steps:
    """Both together, without those that something no longer matches."""
    kept: Steps = []
    best = -1
    for used, worth in sorted(one + other, key=lambda step: (step[0], -step[1])):
        if worth > best:
            kept.append((used, worth))
            best = worth
    return kept
