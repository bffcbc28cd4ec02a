"""Sides and sticks reduced to what bounds depend on, and every choice of sticks that a bound must look at."""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_search import MOST_KINDS, Search, Work, WorkLimitError, least_need
from edgewright.cutlist.check_stages import board_settings

__all__ = ["Choice", "StickKind", "Stock", "splices_of"]


@dataclass(frozen=True, slots=True, order=True)
class StickKind:
    """Sticks that are alike; they sort by the length their lanes hold, in ticks.

    ``strips`` are the lanes of each strip, longest first; ``spare`` are the lanes that can stay whole while others of
    the stick are in use; ``settings`` are those of the fence that it needs as soon as it is in use.
    """

    held: int
    lanes: tuple[int, ...]
    price: int
    for_sale: bool
    strips: tuple[tuple[int, ...], ...]
    spare: tuple[int, ...]
    settings: tuple[int, ...] = ()


#: So many sticks of each kind, in the order of ``Stock.kinds``.
Choice = tuple[int, ...]


def splices_of(rules: Plain, side: Plain) -> int:
    """Splices that a side may get: as many as are allowed, and no more than leave pieces of the least length."""
    if not rules["splices_allowed"]:
        return 0
    pieces = side["length_ticks"] // max(1, rules["min_piece_ticks"])
    return max(0, min(int(side["max_splices"]), int(pieces) - 1))


class Stock:
    """The sides and sticks of a plan, reduced to what bounds depend on."""

    def __init__(self, plan: Plain, work: Work) -> None:
        rules = plan["rules"]
        self.work = work
        self.labour: list[int] | None = rules["labour_cents"]
        self.kerf: int = rules["kerf_ticks"]
        self.joint = self.kerf
        if plan["corners"] == "mitre" and rules["nest_mitres"]:
            self.joint = min(self.kerf, rules["mitre_kerf_ticks"] - plan["strip_width_ticks"])
        sides = [(side["length_ticks"], splices_of(rules, side)) for side in plan["sides"]]
        self.sides = len(sides)
        self.total = sum(length for length, _ in sides)
        self.shortest_piece = min([rules["min_piece_ticks"], *(length for length, _ in sides)])
        self.most_splices = sum(cap for _, cap in sides)
        self.search = Search(sides, self.joint, work)
        #: The same with the least piece in mind; only where no mitres nest, for those are not looked at as trees.
        self.strict: Search | None = None
        if self.joint == self.kerf and rules["splices_allowed"]:
            self.strict = Search(sides, self.joint, work, rules["min_piece_ticks"])
        self.longest_stub = 0  # lanes too short for any piece stay over whatever the plan
        kinds = Counter(self._kind(stick) for stick in plan["sticks"])
        self.kinds = sorted((kind for kind in kinds if kind.lanes), reverse=True)
        self.counts = tuple(kinds[kind] for kind in self.kinds)

    def _kind(self, stick: Plain) -> StickKind:
        # a lane shorter than any piece may be is no stock
        lengths = sorted((lane["length_ticks"] for lane in stick["lanes"]), reverse=True)
        lanes = tuple(length for length in lengths if length >= self.shortest_piece)
        for_sale = stick["source"] == "for sale"
        if lengths and (lanes or not for_sale) and lengths[-1] < self.shortest_piece:
            self.longest_stub = max(self.longest_stub, lengths[len(lanes)])
        strips: dict[str, list[int]] = {}
        for lane in stick["lanes"]:
            if lane["length_ticks"] >= self.shortest_piece:
                strips.setdefault(lane["strip"], []).append(lane["length_ticks"])
        runs = tuple(sorted((tuple(sorted(strip, reverse=True)) for strip in strips.values()), reverse=True))
        as_listed = [lane["length_ticks"] for lane in stick["lanes"]]
        # pieces are drawn to the inner lanes, which only defects can make shorter than the outer ones
        spare = lanes[1:] if as_listed == lengths and len(strips) == len(lanes) else lanes
        price = stick["price_cents"] if for_sale else 0
        return StickKind(sum(lanes), lanes, price, for_sale, runs, spare, board_settings(stick))

    def need(self, lanes: int, splices: int) -> int:
        """Least length in ticks that the sides take from at most so many lanes."""
        return least_need(self.total, self.sides, lanes, self.joint, splices > 0)

    @property
    def need_with_kerfs(self) -> int:
        """All sides with a joint to each (ticks): what the strips with a kerf to each, as `held_for` counts, must hold.

        Pieces that hang together take one joint less than they have sides, and there are at most as many such sets
        as strips.
        """
        return int(self.total + self.sides * self.joint)

    def held_for(self, most: int) -> list[tuple[int, int]]:
        """Most length (ticks, a kerf to each strip) that may be had for each sum (cents) up to ``most``; both rise."""
        spare = max(0, self.joint)
        own, bought = 0, []
        for kind, count in zip(self.kinds, self.counts, strict=True):
            held = kind.held + spare * len(kind.lanes)
            if kind.for_sale and kind.price:
                bought.append((kind.price, held, count))
            else:
                own += held * count
        steps = [(0, own)]
        for price, held, count in bought:
            left, copies = min(count, most // price), 1
            while left > 0:
                copies = min(copies, left)
                self.work.spend_all(len(steps))
                more = [
                    (c + price * copies, h + held * copies) for c, h in steps if c + price * copies <= most
                ]
                rising, best = [], -1
                for cost, length in sorted(steps + more, key=lambda step: (step[0], -step[1])):
                    if length > best:
                        rising.append((cost, length))
                        best = length
                steps = rising
                left -= copies
                copies *= 2
        return steps

    def lanes(self, choice: Choice) -> list[int]:
        """Lane lengths in ticks of a choice of sticks, longest first."""
        return sorted(
            (lane for kind, count in zip(self.kinds, choice, strict=True) for lane in kind.lanes * count),
            reverse=True,
        )

    def most(self, choice: Choice, strips: int) -> tuple[int, int]:
        """Most length (ticks) and most lanes that so many strips of a choice of sticks hold, each taken by itself."""
        every = self._strips(choice)
        held = sorted(map(sum, every), reverse=True)
        lanes = sorted(map(len, every), reverse=True)
        return sum(held[:strips]), sum(lanes[:strips])

    def strip_sets(self, choice: Choice, strips: int) -> Iterator[list[int]]:
        """Lanes of every set of so many strips; of strips that are one lane each the search itself takes the best."""
        every = self._strips(choice)
        if all(len(strip) == 1 for strip in every):
            yield self.lanes(choice)
            return
        kinds = Counter(every)
        names = sorted(kinds, reverse=True)

        def pick(index: int, left: int) -> Iterator[list[int]]:
            self.work.spend()
            if left == 0:
                yield []
                return
            if sum(kinds[name] for name in names[index:]) < left:
                return
            for count in range(min(left, kinds[names[index]]), -1, -1):
                for more in pick(index + 1, left - count):
                    yield [*names[index] * count, *more]

        yield from pick(0, min(strips, len(every)))

    def _strips(self, choice: Choice) -> list[tuple[int, ...]]:
        return [
            strip for kind, count in zip(self.kinds, choice, strict=True) for strip in kind.strips * count
        ]

    def own(self) -> Choice:
        """Every stick that need not be bought."""
        return tuple(
            0 if kind.for_sale else count for kind, count in zip(self.kinds, self.counts, strict=True)
        )

    def purchases(self) -> Iterator[tuple[int, Choice]]:
        """Own sticks with every purchase, cheapest first."""
        if len(self.kinds) > MOST_KINDS:
            raise WorkLimitError
        heap: list[tuple[int, Choice, int]] = [(0, self.own(), 0)]
        while heap:
            self.work.spend()
            cost, choice, start = heapq.heappop(heap)
            yield cost, choice
            for index in range(start, len(self.kinds)):
                if self.kinds[index].for_sale and choice[index] < self.counts[index]:
                    self.work.spend()
                    more = (*choice[:index], choice[index] + 1, *choice[index + 1 :])
                    heapq.heappush(heap, (cost + self.kinds[index].price, more, index))

    def largest_purchases(self, cost: int) -> Iterator[Choice]:
        """Own sticks with every purchase within ``cost`` to which nothing can be added."""
        for paid, choice in self.purchases():
            if paid > cost:
                return
            addable = (
                kind.for_sale and count < most and paid + kind.price <= cost
                for kind, count, most in zip(self.kinds, choice, self.counts, strict=True)
            )
            if not any(addable):
                yield choice

    def choices(self, sticks: int, cost: int, need: int) -> Iterator[Choice]:
        """Every choice of so many sticks within ``cost`` whose lanes hold ``need`` ticks."""
        if len(self.kinds) > MOST_KINDS:
            raise WorkLimitError

        def pick(index: int, left: int, money: int, short: int) -> Iterator[Choice]:
            self.work.spend()
            if index == len(self.kinds):
                if left == 0 and short <= 0:
                    yield ()
                return
            kind = self.kinds[index]
            if short > left * kind.held:
                return  # the kinds that follow hold no more
            most = min(left, self.counts[index])
            if kind.price:
                most = min(most, money // kind.price)
            for count in range(most, -1, -1):
                rest = pick(index + 1, left - count, money - count * kind.price, short - count * kind.held)
                for tail in rest:
                    yield (count, *tail)

        yield from pick(0, sticks, cost, need)
