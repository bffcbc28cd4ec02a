"""Largest value of a function that rises and then falls: golden section, no derivative needed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import Final

__all__ = ["peak", "peak_between"]

_SHARE: Final = (math.sqrt(5) - 1) / 2


def peak(value: Callable[[float], float], low: float, high: float, steps: int = 60) -> float:
    """Place of the largest value between two bounds; where there are several hills, of one of them."""
    a, b = high - _SHARE * (high - low), low + _SHARE * (high - low)
    at_a, at_b = value(a), value(b)
    for _ in range(steps):
        if at_a >= at_b:
            high, b, at_b = b, a, at_a
            a = high - _SHARE * (high - low)
            at_a = value(a)
        else:
            low, a, at_a = a, b, at_b
            b = low + _SHARE * (high - low)
            at_b = value(b)
    return max((low, a, b, high), key=value)


def peak_between(
    value: Callable[[float], float], bounds: Sequence[float], samples: int = 16, steps: int = 50
) -> float:
    """Place of the largest value over neighbouring intervals: samples in each, then golden section at the best.

    Between two bounds the function is taken to have no hill narrower than two samples.
    """
    if len(bounds) == 1:
        return bounds[0]
    places = sorted(
        {low + (high - low) * at / samples for low, high in pairwise(bounds) for at in range(samples + 1)}
    )
    values = [value(at) for at in places]
    best = max(range(len(places)), key=values.__getitem__)
    found = places[best]
    for low, high in ((best - 1, best), (best, best + 1)):
        if low >= 0 and high < len(places):
            at = peak(value, places[low], places[high], steps)
            if value(at) > value(found):
                found = at
    return found
