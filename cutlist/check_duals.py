"""Recomputes the bound of a stage from whole-number duals: prices of sides, lanes and settled stages.

A component of sides S and B lanes M is possible only if ``sum(L + k) <= sum(l) + k``. If no component's sides are
worth more than its lanes and its B - 1 splices, then every plan costs at least what all sides are worth, less what
the settled stages and the sticks take off::

    bound = ceil((sum(side prices) - sum(stage prices * values) - sum(excess of a stick kind * sticks)) / scale)

All is done in integers: the best sides for each room by a knapsack, the cheapest lanes for each room by a frontier.
Components of many lanes are covered by the worth of a tick: sides are worth at most ``a`` a tick, so once every
further lane costs more than ``a`` times its length, no larger component can pay.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from edgewright.cutlist.check_steps import Steps, with_copies

__all__ = ["Offer", "PricedSide", "dual_excess", "holds_beyond"]


@dataclass(frozen=True, slots=True)
class PricedSide:
    """``count`` sides of one length (ticks) and what one is worth."""

    length: int
    count: int
    worth: int


@dataclass(frozen=True, slots=True)
class Offer:
    """Lanes of one length (ticks) and what one costs."""

    length: int
    cost: int


def dual_excess(
    sides: Sequence[PricedSide],
    offers: Sequence[Offer],
    splice: int,
    joint: int,
    kerf: int,
    most_lanes: int,
    spend: Callable[[int], None],
) -> int:
    """Most by which the sides of any component of up to ``most_lanes`` lanes are worth more than it costs.

    Parameters
    ----------
    splice
        Price of a splice.
    joint
        What a joint between two sides costs at least; negative where mitres nest.
    spend
        Called with the work done, steps; may raise to stop.

    Returns
    -------
    int
        0 where the prices hold.
    """
    if not offers:
        return 0
    step = min(joint, kerf)
    longest = max(offer.length for offer in offers)
    room = longest * most_lanes + max(0, step)
    worth = _knapsack([(side.length + step, side.count, side.worth) for side in sides], room, spend)
    lengths = [length for length, _ in worth]

    def best(space: int) -> int:
        at = bisect_right(lengths, space)
        return worth[at - 1][1] if at else 0

    most = max(best(offer.length + joint) - offer.cost for offer in offers)
    # nested mitres: one splice more may give one joint more
    extra, spare = (splice, 0) if joint < 0 else (0, kerf)
    if joint < 0:
        most = max(most, *(best(offer.length) - offer.cost - splice for offer in offers))
    single = _cheapest([(offer.length, offer.cost) for offer in offers])
    front = single
    for _ in range(2, most_lanes + 1):
        spend(len(front) * len(single))
        front = _cheapest([(a + c, b + d + splice) for a, b in front for c, d in single])
        most = max(most, *(best(length + spare) - cost - extra for length, cost in front))
    return max(0, most)


def holds_beyond(
    sides: Sequence[PricedSide], offers: Sequence[Offer], splice: int, joint: int, kerf: int, most_lanes: int
) -> bool:
    """Whether components of more lanes cannot pay, whatever their sides, by the worth of a tick."""
    step = min(joint, kerf)
    worth = max((Fraction(side.worth, side.length + step) for side in sides), default=Fraction(0))
    lost = min((offer.cost + splice - worth * offer.length for offer in offers), default=Fraction(0))
    return (most_lanes + 1) * lost >= worth * max(0, joint) + splice


def _knapsack(items: Sequence[tuple[int, int, int]], room: int, spend: Callable[[int], None]) -> Steps:
    """Best worth within each room: items are (size, count, worth)."""
    steps: Steps = [(0, 0)]
    for size, count, worth in items:
        steps = with_copies(steps, size, worth, count, room, spend)
    return steps


def _cheapest(points: Sequence[tuple[int, int]]) -> Steps:
    """Points that nothing longer and as cheap beats, by rising length."""
    out: Steps = []
    least: int | None = None
    for length, cost in sorted(points, key=lambda point: (-point[0], point[1])):
        if least is None or cost < least:
            out.append((length, cost))
            least = cost
    return out[::-1]
