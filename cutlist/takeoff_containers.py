"""Round a volume up to containers as they are commonly sold, by plain volume."""

from __future__ import annotations

from itertools import combinations_with_replacement
from typing import Final

from edgewright.design.coating import FLUID_OUNCE
from edgewright.display import show_volume
from edgewright.units import Units

__all__ = ["FOR_HIGH", "containers"]

FOR_HIGH: Final = ", for the high figure of "

_LITRE: Final = 1e6
SIZES: Final[dict[Units, tuple[tuple[str, float], ...]]] = {
    "in": (
        ("gallon", 128 * FLUID_OUNCE),
        ("quart", 32 * FLUID_OUNCE),
        ("pint", 16 * FLUID_OUNCE),
        ("8 fl oz", 8 * FLUID_OUNCE),
    ),
    "mm": (("4 l", 4 * _LITRE), ("1 l", _LITRE), ("500 ml", 0.5 * _LITRE), ("250 ml", 0.25 * _LITRE)),
}
"""Largest first, mm³."""
SMALL_BOTTLE: Final[dict[Units, tuple[str, float]]] = {
    "in": ("4 fl oz", 4 * FLUID_OUNCE),
    "mm": ("125 ml", 0.125 * _LITRE),
}
"""Glue is also sold by so little."""
ROUNDING: Final = 1e-9
"""Relative: a need that is a whole container but for rounding fits it."""


def containers(high_mm3: float, units: Units, *, small_bottles: bool = False, high_text: str = "") -> str:
    """Say what to buy: as many of the largest container as it takes, with at most two smaller ones.

    Of all such choices the one with the least volume is taken, and of these the one with the fewest pieces.

    Parameters
    ----------
    high_mm3
        The most that may be needed over the whole job, mm³, greater than 0.
    small_bottles
        Whether there is a bottle of 4 fl oz (125 ml) too.
    high_text
        The need as the bill's total shows it; "" for the need as it is, rounded.

    Returns
    -------
    str
        Like ``1 gallon + 1 quart: 160.0 fl oz, for the high figure of 155.9 fl oz``.
    """
    sizes = SIZES[units] + ((SMALL_BOTTLE[units],) if small_bottles else ())
    largest, smaller = sizes[0], sizes[1:]
    need = high_mm3 * (1 - ROUNDING)
    choices = []
    for extra in range(3):
        for beside in combinations_with_replacement(smaller, extra):
            rest = max(0.0, need - sum(size for _, size in beside))
            picked = (largest,) * int(-(-rest // largest[1])) + beside
            choices.append((sum(size for _, size in picked), len(picked), picked))
    volume, _, picked = min(choices, key=lambda choice: choice[:2])
    names = [name for name, _ in picked]
    said = " + ".join(_said(names.count(name), name) for name in dict.fromkeys(names))
    return f"{said}: {show_volume(volume, units)}{FOR_HIGH}{high_text or show_volume(high_mm3, units)}"


def _said(count: int, name: str) -> str:
    if name[0].isdigit():
        return f"{count} × {name}"
    return f"{count} {name}" + ("s" if count > 1 else "")
