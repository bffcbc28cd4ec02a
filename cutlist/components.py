"""Components: which sides are cut from which lanes, before any piece is placed.

Draw the pieces of a plan as edges between lanes and sides. A connected component with N sides and B lanes has at least
N + B - 1 pieces, so B - 1 splices, and it can be cut exactly when

    sum(side lengths) + (N - 1) j <= sum(lane lengths)

where j is what one joint between two sides in a lane costs: one kerf. B lanes joined end to end behave like one
long lane, and no kerf is lost at a splice. Where mitred ends nest with one piece turned end for end, j is the kerf
along the mitre less the strip width; that is used for sides cut whole from one lane, while spliced mitred sides are
planned with a plain kerf, because whether their ends can face each other depends on which way each one lies. Equal
sides and equal lanes are counted, never told apart.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from edgewright.cutlist.column_generation.pool import Column, LaneKind, SideKind, SplicePool, Way
from edgewright.cutlist.model import RingSide, Stick

__all__ = [
    "Component",
    "LaneType",
    "Pool",
    "SideType",
    "StickClass",
    "can_cover",
    "components",
    "most_splices",
    "pool_of",
    "splice_pool",
]

_MOST_HALVES = 500


@dataclass(frozen=True, slots=True)
class SideType:
    """Sides that are alike in everything that matters to a plan, by their positions in the side list."""

    length: int
    max_splices: int
    members: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class StickClass:
    """Sticks that are alike: same price, same lanes, same settings of the fence."""

    price_cents: int
    for_sale: bool
    members: tuple[int, ...]
    settings: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class LaneType:
    """Lanes of one length in one class of sticks: ``per_stick`` of them in each."""

    length: int
    stick_class: int
    per_stick: int


@dataclass(frozen=True, slots=True)
class Pool:
    """The problem by types, in an order that does not depend on the order of the input."""

    sides: tuple[SideType, ...]
    sticks: tuple[StickClass, ...]
    lanes: tuple[LaneType, ...]
    joint: int
    kerf: int

    def available(self, lane: int) -> int:
        """How many lanes of a type there are."""
        lane_type = self.lanes[lane]
        return lane_type.per_stick * len(self.sticks[lane_type.stick_class].members)


@dataclass(frozen=True, slots=True)
class Component:
    """How many sides of each type are cut from how many lanes of each type, and what is left over (ticks).

    ``loops`` counts the pieces beyond those of a tree; where the splice rules leave no tree, each costs one splice and
    one kerf more.
    """

    sides: tuple[int, ...]
    lanes: tuple[int, ...]
    left_over: int
    loops: int = 0

    @property
    def splices(self) -> int:
        """Splices: one less than the lanes, and one for each loop."""
        return sum(self.lanes) - 1 + self.loops

    @property
    def column(self) -> Column:
        """The same with its kinds named."""
        return Column(_named(self.sides), _named(self.lanes), self.loops)


def _named(counts: Sequence[int]) -> tuple[tuple[int, int], ...]:
    return tuple((kind, n) for kind, n in enumerate(counts) if n)


def pool_of(
    sides: Sequence[RingSide], sticks: Sequence[Stick], *, joint: int, kerf: int, min_piece: int
) -> Pool:
    """Group sides and sticks that are alike; a side is spliced no oftener than its shortest pieces allow."""
    side_groups: dict[tuple[object, ...], list[int]] = {}
    for i, side in enumerate(sides):
        key = (
            -side.length_ticks, side.max_splices, side.start_offset_ticks, side.end_offset_ticks, side.seams_ticks
        )  # fmt: skip
        side_groups.setdefault(key, []).append(i)
    stick_groups: dict[tuple[bool, int, tuple[int, ...], tuple[int, ...]], list[int]] = {}
    for i, stick in enumerate(sticks):
        lengths = tuple(sorted((lane.length_ticks for lane in stick.lanes), reverse=True))
        if lengths:
            for_sale = stick.source == "for sale"
            group = (for_sale, stick.price_cents, tuple(-n for n in lengths), _fence_settings(stick))
            stick_groups.setdefault(group, []).append(i)
    side_types = tuple(
        SideType(sides[members[0]].length_ticks, _splices(sides[members[0]], min_piece), tuple(members))
        for _, members in sorted(side_groups.items(), key=lambda item: repr(item[0]))
    )
    classes: list[StickClass] = []
    lanes: list[LaneType] = []
    for alike, members in sorted(stick_groups.items()):
        stick = sticks[members[0]]
        counts: dict[int, int] = {}
        for lane in stick.lanes:
            counts[lane.length_ticks] = counts.get(lane.length_ticks, 0) + 1
        lanes += [LaneType(n, len(classes), counts[n]) for n in sorted(counts, reverse=True)]
        classes.append(StickClass(stick.price_cents, alike[0], tuple(members), alike[3]))
    return Pool(side_types, tuple(classes), tuple(lanes), joint, kerf)


def _fence_settings(stick: Stick) -> tuple[int, ...]:
    """Settings of the fence that a board needs as soon as it is in use: to skim its old edge, and for its strips."""
    if stick.source == "offcut":
        return ()
    strip, left = stick.lanes[0].width_ticks, stick.width_ticks - stick.edge_waste_ticks
    skim = (left,) if stick.edge_waste_ticks else ()
    return skim + ((strip,) if skim or strip != left else ())


def _splices(side: RingSide, min_piece: int) -> int:
    return max(0, min(side.max_splices, side.length_ticks // max(1, min_piece) - 1))


def splice_pool(pool: Pool) -> SplicePool:
    """The same problem as the column generation states it: each class of sticks is ripped in one way."""
    return SplicePool(
        tuple(SideKind(side.length, len(side.members), side.max_splices) for side in pool.sides),
        tuple(
            Way(n, stick.price_cents if stick.for_sale else 0, stick.settings)
            for n, stick in enumerate(pool.sticks)
        ),
        tuple(len(stick.members) for stick in pool.sticks),
        tuple(LaneKind(lane.length, lane.stick_class, lane.per_stick) for lane in pool.lanes),
        (pool.joint,),
        pool.kerf,
    )


def components(
    pool: Pool, *, splices_allowed: bool, work_limit: int, splice_limit: int
) -> tuple[tuple[Component, ...], bool]:
    """All components with no lane to spare that do not fall into two, and whether the list is complete.

    No lane to spare: without its shortest lane the component would not fit any more. One that falls into two (some
    sides whole from one lane, the others from the other lanes) has a splice too many.

    Parameters
    ----------
    work_limit
        Most lane combinations that are looked at.
    splice_limit
        Most splices in one component.
    """
    found: list[Component] = []
    work = 0
    for counts in _multisets([len(t.members) for t in pool.sides]):
        n = sum(counts)
        total = sum(c * t.length for c, t in zip(counts, pool.sides, strict=True))
        work += 1
        if work > work_limit:
            return tuple(found), False
        most = most_splices(pool, counts) if splices_allowed else 0
        whole, spliced = total + (n - 1) * pool.joint, total + (n - 1) * pool.kerf
        for t, lane in enumerate(pool.lanes):
            if lane.length >= whole:
                single = tuple(int(i == t) for i in range(len(pool.lanes)))
                found.append(Component(counts, single, lane.length - whole))
        halves = _Halves(pool, counts)
        for lanes, have in _covers(pool, spliced, 1 + min(most, splice_limit)):
            work += 1
            if work > work_limit:
                return tuple(found), False
            if sum(lanes) > 1 and can_cover(pool, counts, lanes) and not halves.part(lanes, have):
                found.append(Component(counts, lanes, have - spliced))
    return tuple(found), True


def most_splices(pool: Pool, counts: Sequence[int]) -> int:
    """Splices allowed in so many sides of each type."""
    return sum(c * t.max_splices for c, t in zip(counts, pool.sides, strict=True))


def can_cover(pool: Pool, sides: Sequence[int], lanes: Sequence[int]) -> bool:
    """Whether each side alone could be covered from the longest lanes with the splices it is allowed."""
    longest = [t for t in sorted(range(len(lanes)), key=lambda t: -pool.lanes[t].length) if lanes[t]]
    for count, side in zip(sides, pool.sides, strict=True):
        pieces, reach = side.max_splices + 1, 0
        for t in longest if count else ():
            reach += min(pieces, lanes[t]) * pool.lanes[t].length
            pieces -= min(pieces, lanes[t])
        if count and reach < side.length:
            return False
    return True


class _Halves:
    """The ways to part some sides into those cut whole from one lane and the others."""

    def __init__(self, pool: Pool, counts: Sequence[int]) -> None:
        self.pool, self.counts = pool, counts
        self.known: dict[int, tuple[list[int], list[int]]] = {}

    def part(self, lanes: Sequence[int], have: int) -> bool:
        """Whether one of the lanes, which hold ``have``, can be parted from the others with sides of its own."""
        splices = sum(lanes) - 2
        if splices not in self.known:
            self.known[splices] = self._needs(splices)
        whole, others = self.known[splices]
        for count, lane in zip(lanes, self.pool.lanes, strict=True):
            at = bisect_right(whole, lane.length) if count else 0
            if at and others[at - 1] <= have - lane.length:
                return True
        return False

    def _needs(self, splices: int) -> tuple[list[int], list[int]]:
        """What sides cut whole need, ascending, and the least that the others need beside at most as much."""
        pairs = []
        for part in _multisets(self.counts):
            rest = [c - p for c, p in zip(self.counts, part, strict=True)]
            if any(rest) and most_splices(self.pool, rest) >= splices:
                pairs.append((self._need(part, self.pool.joint), self._need(rest, self.pool.kerf)))
            if len(pairs) == _MOST_HALVES:
                break  # fewer are known, so more columns stay: slower, never wrong
        pairs.sort()
        return [whole for whole, _ in pairs], list(accumulate((rest for _, rest in pairs), min))

    def _need(self, counts: Sequence[int], joint: int) -> int:
        total = sum(c * t.length for c, t in zip(counts, self.pool.sides, strict=True))
        return total + (sum(counts) - 1) * joint


def _multisets(limits: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """All counts up to the limits, except none at all."""
    counts = [0] * len(limits)
    while True:
        for i in range(len(limits)):
            if counts[i] < limits[i]:
                counts[i] += 1
                break
            counts[i] = 0
        else:
            return
        yield tuple(counts)


def _covers(pool: Pool, need: int, most: int) -> Iterator[tuple[tuple[int, ...], int]]:
    """Multisets of at most ``most`` lanes that add up to ``need`` with no lane to spare."""
    order = sorted(range(len(pool.lanes)), key=lambda t: -pool.lanes[t].length)
    available = [pool.available(t) for t in range(len(pool.lanes))]

    def extend(at: int, chosen: list[int], total: int, number: int) -> Iterator[tuple[tuple[int, ...], int]]:
        # Lanes are added longest first, so the last one added is the shortest: stop as soon as the need is met.
        if total >= need:
            yield tuple(chosen), total
            return
        if number == most:
            return
        for k in range(at, len(order)):
            lane = order[k]
            longest = pool.lanes[lane].length
            if total + (most - number) * longest < need:
                return
            if chosen[lane] < available[lane]:
                chosen[lane] += 1
                yield from extend(k, chosen, total + longest, number + 1)
                chosen[lane] -= 1

    return extend(0, [0] * len(pool.lanes), 0, 0)
