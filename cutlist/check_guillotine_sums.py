"""The sums a guillotine plan's bounds follow from, for whoever checks them with a pencil.

Each inequality of the certificate gives a blank so many points; the sticks must hold those of all blanks.
"""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_guillotine_bounds import StickCounts
from edgewright.cutlist.check_guillotine_stock import Sawmill
from edgewright.cutlist.check_search import Work, WorkLimitError

__all__ = ["PointSum", "SumsOfPoints", "sums_of_points"]

#: Points up to this many in all are called small.
_SMALL = 1_000
#: Steps for each question whether one sum is enough.
_STEPS = 20_000


@dataclass(frozen=True, slots=True)
class PointSum:
    """One inequality: the points of all blanks against those the sticks hold.

    Attributes
    ----------
    areas
        Whether the points of a blank are its area (square ticks).
    blanks
        Ids of equal blanks, how many there are, and the points of one.
    sticks
        Ids of equal sticks, how many of them can be used, and the points that one holds at most.
    """

    areas: bool
    blanks: tuple[tuple[tuple[str, ...], int, int], ...]
    sticks: tuple[tuple[tuple[str, ...], int, int], ...]

    @property
    def need(self) -> int:
        """Points of all blanks."""
        return sum(count * points for _, count, points in self.blanks)

    @property
    def have(self) -> int:
        """Points that all sticks together hold at most."""
        return sum(count * points for _, count, points in self.sticks)


@dataclass(frozen=True, slots=True)
class SumsOfPoints:
    """Every sum that holds, and which one settles a stage by itself.

    Attributes
    ----------
    sums
        That of the areas first, then those of the certificate.
    alone
        For a stage ("shortage" where there is no plan) the place in ``sums`` of one that gives its bound without the
        others; None where several are needed together.
    searched
        Choices of sticks that were tried in every layout: (id, number) of each stick.
    """

    sums: tuple[PointSum, ...]
    alone: dict[str, int | None]
    searched: tuple[tuple[tuple[str, int], ...], ...]


def sums_of_points(plain: Plain, work_limit: int = 200_000, *, searched: bool = True) -> SumsOfPoints:
    """The sums of a well-formed plan or shortage; see `edgewright.cutlist.check_guillotine`.

    Without ``searched`` the choices that were tried in every layout are not tried again, and none is listed.
    """
    certificate = (plain["plan"] or plain["shortage"])["certificate"]
    if not searched:
        certificate = certificate | {"searched": []}
    counts = StickCounts(Sawmill(plain), certificate, Work(work_limit))
    mill = counts.mill
    names: list[list[str]] = [[] for _ in mill.wanted]
    for name, group in mill.group_of.items():
        names[group].append(name)
    sums = tuple(
        PointSum(
            number == 0,
            tuple(
                (tuple(ids), count, point)
                for ids, count, point in zip(names, mill.wanted, points, strict=True)
            ),
            tuple((stick.ids, stick.most, held) for stick, held in zip(mill.sticks, rule.holds, strict=True)),
        )
        for number, (points, rule) in enumerate(zip(counts.points, counts.rules, strict=True))
    )
    tried = tuple(
        tuple((stick.ids[0], number) for stick, number in zip(mill.sticks, choice, strict=True) if number)
        for choice in counts.searched
    )
    return SumsOfPoints(sums, _alone(plain, counts), tried)


def _alone(plain: Plain, counts: StickCounts) -> dict[str, int | None]:
    """Which one of the sums gives a bound without any other and without what was searched.

    Of several it is the one a pencil likes best: small numbers, then areas, then the others.
    """
    needs = [rule.need for rule in counts.rules]
    order = sorted(
        range(len(needs)), key=lambda n: (0 if needs[n] <= _SMALL else 1 if n == 0 else 2, needs[n])
    )
    asked: dict[str, tuple[int, int] | None] = {"shortage": None}
    if plain["plan"] is not None:
        values = {stage["name"]: stage["value"] for stage in plain["plan"]["stages"]}
        cost, sticks = values["new material cost"], values["sticks touched"]
        asked = {"new material cost": (cost, 0), "sticks touched": (cost, sticks)}
    return {
        name: next((n for n in order if _settles(counts, n, below)), None) for name, below in asked.items()
    }


def _settles(counts: StickCounts, number: int, below: tuple[int, int] | None) -> bool:
    """Whether by this one sum nothing is left below (cents, sticks), or nothing at all."""
    try:
        return counts.with_one(number, Work(_STEPS)).least(below) is None
    except WorkLimitError:
        return False
