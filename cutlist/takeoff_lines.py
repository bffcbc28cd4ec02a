"""The take-off as frozen data: lines that add up, totals of each group."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from edgewright.band import Band, Factor, likely_band, total_band

__all__ = ["Takeoff", "TakeoffLine", "TakeoffTotal", "exactly", "total_of"]


@dataclass(frozen=True, slots=True)
class TakeoffLine:
    """One line of the bill; its quantity is the product of its factors.

    Attributes
    ----------
    group, name
        Like ``resin coat 1`` and ``edge``.
    quantity, unit
        In ``mm3``, ``g`` or ``count``.
    reason
        One sentence: why this much.
    """

    group: str
    name: str
    quantity: Band
    unit: str
    factors: tuple[Factor, ...]
    reason: str


@dataclass(frozen=True, slots=True)
class TakeoffTotal:
    """Total of a group.

    ``low`` and ``high`` are the sums of the lines' extremes. ``likely_low`` to ``likely_high`` is the central
    90 % of the whole group and does not add up by line. ``containers`` hold the high figure; None where
    nothing is bought by the container, or only with another total.
    """

    group: str
    expected: float
    low: float
    high: float
    likely_low: float
    likely_high: float
    unit: str
    containers: str | None


@dataclass(frozen=True, slots=True)
class Takeoff:
    """The whole bill. ``notes`` say how to read it and what it leaves out."""

    lines: tuple[TakeoffLine, ...]
    totals: tuple[TakeoffTotal, ...]
    notes: tuple[str, ...]

    def in_group(self, group: str) -> tuple[TakeoffLine, ...]:
        """Lines of one group, in order; none for ``resin in all``, which sums the coats."""
        return tuple(line for line in self.lines if line.group == group)

    def total(self, group: str) -> TakeoffTotal | None:
        """Total of one group, None where the bill has no such group."""
        return next((total for total in self.totals if total.group == group), None)


def total_of(group: str, lines: Iterable[TakeoffLine], containers: str | None = None) -> TakeoffTotal:
    """Sum lines of one unit.

    Lines that share an uncertain factor move together and do not average out: the flat of coat 1 and that of
    coat 2 are laid by the same trowel and the same hand. They count as one when it comes to what is likely;
    all others count as independent.
    """
    kept = tuple(lines)
    total = total_band(line.quantity for line in kept)
    low, high = likely_band(_moving_together(kept))
    # added in another order the two may differ by the last bit
    likely = max(low, total.low), min(high, total.high)
    return TakeoffTotal(group, total.expected, total.low, total.high, *likely, kept[0].unit, containers)


def _moving_together(lines: Iterable[TakeoffLine]) -> list[Band]:
    """Add up the lines that hang together by uncertain factors of the same name."""
    clusters: list[tuple[set[str], Band]] = []
    for line in lines:
        names = {factor.name for factor in line.factors if factor.band.width > 0}
        band, apart = line.quantity, []
        for others, sum_of_others in clusters:
            if names & others:
                names |= others
                band += sum_of_others
            else:
                apart.append((others, sum_of_others))
        clusters = [*apart, (names, band)]
    return [band for _, band in clusters]


def exactly(name: str, unit: str, value: float, origin: str) -> Factor:
    """Make a factor that is known exactly."""
    return Factor(name, unit, Band.exact(value), origin)
