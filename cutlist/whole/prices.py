"""What a set of prices proves about a box of stick counts, in whole numbers."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.whole.instance import Instance

__all__ = ["NONE_FITS", "Box", "Goal", "Prices", "prices_of"]

#: Fewest and most sticks of each group.
Box = tuple[tuple[int, int], ...]

#: Bound of a box that holds no cutting at all.
NONE_FITS = math.inf


@dataclass(frozen=True, slots=True)
class Goal:
    """The objective of one stage, and what the earlier ones may come to at most."""

    stage: int
    reached: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Prices:
    """Prices by type, their scale and multipliers as in `Leaf`, and what follows from them.

    ``over`` is what a stick of each group costs more than its dearest patterns are worth, ``base`` what the demand is
    worth less what the earlier stages take.
    """

    values: tuple[int, ...]
    scale: int
    multipliers: tuple[int, ...]
    over: tuple[int, ...]
    base: int

    def bound(self, inst: Instance, goal: Goal, box: Box) -> float:
        """Return the least value that a cutting within the box can have: a whole number, or `NONE_FITS`."""
        least = self.base + sum(
            over * (low if over >= 0 else high) for over, (low, high) in zip(self.over, box, strict=True)
        )
        if not self.scale:
            return NONE_FITS if least > 0 else 0
        return on_lattice(inst, goal, box, -(-least // self.scale))


def on_lattice(inst: Instance, goal: Goal, box: Box, least: int) -> float:
    """Raise a bound to the next value that stick counts within the box can give; `NONE_FITS` if there is none."""
    weights = [group.weights[goal.stage] for group in inst.groups]
    start = sum(weight * low for weight, (low, _) in zip(weights, box, strict=True))
    step = math.gcd(*(weight for weight, (low, high) in zip(weights, box, strict=True) if high > low))
    if least <= start:
        return start
    return start - (start - least) // step * step if step else NONE_FITS


def prices_of(
    inst: Instance,
    goal: Goal,
    values: Sequence[int],
    scale: int,
    multipliers: Sequence[int],
    worth: Sequence[int],
) -> Prices:
    """What the prices prove, from the worth of each lane: that of its dearest pattern."""
    over = []
    for group in inst.groups:
        cost = scale * group.weights[goal.stage]
        cost += sum(m * w for m, w in zip(multipliers, group.weights[: goal.stage], strict=True))
        over.append(cost - sum(n * w for n, w in zip(group.lanes, worth, strict=True)))
    base = sum(v * d for v, d in zip(values, inst.demand, strict=True))
    base -= sum(m * reached for m, reached in zip(multipliers, goal.reached, strict=True))
    return Prices(tuple(values), scale, tuple(multipliers), tuple(over), base)
