"""The problem in classes: blanks of one size, sticks of one size, and the ways a stick can be ripped.

Equal things are counted, not listed, and everything is put in order of size, so that the order of the input changes
nothing and a hundred equal sheets are no harder than one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from edgewright.cutlist.guillotine.model import Along, Blank, GuillotineRules, StockRect

__all__ = ["BlankType", "Face", "Kind", "Problem", "StickClass", "make_problem"]

#: How the grain lies on a face: along the lanes, across them, or it does not matter.
GrainRun = Literal["along", "across", "free"]


@dataclass(frozen=True, slots=True)
class BlankType:
    """Blanks of one size and grain; ``ids`` with how many of each."""

    length: int
    width: int
    grain: Along | None
    count: int
    ids: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class StickClass:
    """Sticks of one size, grain and price; ``most`` of them can be used, ``price`` is 0 for one's own."""

    length: int
    width: int
    grain: Along | None
    for_sale: bool
    price: int
    most: int
    members: tuple[tuple[str, int | None], ...]


@dataclass(frozen=True, slots=True)
class Kind:
    """Lanes of one length, width and run of grain.

    ``items`` are the blanks that may lie in such a lane: number of the type, and its size along the lane. A lane that
    is not ``ripped`` is as wide as its stick.
    """

    grain: GrainRun
    length: int
    width: int
    ripped: bool
    items: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Face:
    """A stick class ripped one way: lanes of ``length`` side by side within ``across``; numbers of their kinds."""

    stick: int
    first: Along
    length: int
    across: int
    kinds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wanted, what there is, and every lawful way to bring the two together."""

    kerf: int
    min_rip_width: int
    blanks: tuple[BlankType, ...]
    sticks: tuple[StickClass, ...]
    kinds: tuple[Kind, ...]
    faces: tuple[Face, ...]

    @property
    def demand(self) -> tuple[int, ...]:
        """How many blanks of each type are wanted."""
        return tuple(blank.count for blank in self.blanks)


def make_problem(stock: Sequence[StockRect], blanks: Sequence[Blank], rules: GuillotineRules) -> Problem:
    """Put equal blanks and equal sticks together and find the lanes each stick can be ripped into."""
    grained = any(blank.grain for blank in blanks if blank.count)
    types = _blank_types(blanks)
    wanted = sum(blank.count for blank in types)
    sticks = _stick_classes(stock, wanted, grained=grained)
    kinds: dict[tuple[GrainRun, int, int, bool], int] = {}
    made: list[Kind] = []
    faces = []
    ways: tuple[Along, ...] = ("length", "width") if rules.first == "either" else (rules.first,)
    for number, stick in enumerate(sticks):
        for first in ways:
            length, across = (stick.length, stick.width) if first == "length" else (stick.width, stick.length)
            run: GrainRun = "free" if stick.grain is None else "along" if stick.grain == first else "across"
            by_width: dict[int, list[tuple[int, int]]] = {}
            for t, blank in enumerate(types):
                for along, width in _ways_to_lie(blank, run):
                    rippable = width == across or (rules.min_rip_width <= width < across)
                    if along <= length and rippable:
                        by_width.setdefault(width, []).append((t, along))
            own = []
            for width in sorted(by_width, reverse=True):
                key = (run, length, width, width != across)
                if key not in kinds:
                    kinds[key] = len(made)
                    made.append(Kind(*key, tuple(by_width[width])))
                own.append(kinds[key])
            if own:
                faces.append(Face(number, first, length, across, tuple(own)))
    return Problem(rules.kerf, rules.min_rip_width, types, sticks, tuple(made), tuple(faces))


def _ways_to_lie(blank: BlankType, run: GrainRun) -> list[tuple[int, int]]:
    """Size along and across the lane for each lawful way, without the same twice."""
    straight, turned = (blank.length, blank.width), (blank.width, blank.length)
    if run == "free" or blank.grain is None:
        return [straight] if straight == turned else [straight, turned]
    return [straight if (blank.grain == "length") == (run == "along") else turned]


def _blank_types(blanks: Sequence[Blank]) -> tuple[BlankType, ...]:
    same: dict[tuple[int, int, str], list[Blank]] = {}
    for blank in blanks:
        if blank.count:
            same.setdefault((blank.width, blank.length, blank.grain or ""), []).append(blank)
    return tuple(
        BlankType(
            of[0].length,
            of[0].width,
            of[0].grain,
            sum(blank.count for blank in of),
            tuple(sorted((blank.id, blank.count) for blank in of)),
        )
        for _, of in sorted(same.items(), reverse=True)
    )


def _stick_classes(stock: Sequence[StockRect], wanted: int, *, grained: bool) -> tuple[StickClass, ...]:
    same: dict[tuple[bool, int, int, int, str], list[StockRect]] = {}
    for rect in stock:
        if rect.count != 0 and rect.length > 0 and rect.width > 0:
            for_sale = rect.source == "for sale"
            price, grain = rect.price_cents if for_sale else 0, rect.grain if grained else None
            same.setdefault((for_sale, price, rect.width, rect.length, grain or ""), []).append(rect)
    return tuple(
        StickClass(
            of[0].length,
            of[0].width,
            of[0].grain if grained else None,
            key[0],
            key[1],
            # every stick that is touched gives at least one blank
            min(wanted, sum(wanted if rect.count is None else rect.count for rect in of)),
            tuple(sorted(((rect.id, rect.count) for rect in of), key=lambda member: member[0])),
        )
        for key, of in sorted(same.items())
    )
