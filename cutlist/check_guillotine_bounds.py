"""Recomputes the bounds of a guillotine plan from its certificate, in whole numbers, without a solver.

Points for each blank make an inequality on the sticks: together they hold at least the points of all blanks. The
cheapest choice of sticks that keeps every inequality bounds cost and sticks. A choice named as searched is searched
here again.
"""

from __future__ import annotations

import copy
from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_guillotine_search import can_lay
from edgewright.cutlist.check_guillotine_stock import Sawmill
from edgewright.cutlist.check_search import Work, WorkLimitError

__all__ = ["StickCounts", "recompute_guillotine_bounds", "shortage_is_proven"]

Bound = tuple[int | None, str]
#: Cents and sticks.
Spent = tuple[int, int]


@dataclass(frozen=True, slots=True)
class _Rule:
    """The sticks must hold ``need`` points; each of a group holds so many."""

    holds: tuple[int, ...]
    need: int


class StickCounts:
    """Choices of sticks that keep all rules and are not contained in one that was searched."""

    def __init__(self, mill: Sawmill, certificate: Plain, work: Work) -> None:
        self.mill, self.work = mill, work
        points = [_points(mill, cut) for cut in certificate["cuts"]]
        self.points = [_areas(mill), *points]
        self.rules = [_rule(mill, p) for p in self.points]
        named = [dict(choice) for choice in certificate["searched"]]
        # a group has the sticks of all its ids together
        choices = [
            tuple(sum(choice.get(name, 0) for name in stick.ids) for stick in mill.sticks) for choice in named
        ]
        self.searched = [counts for counts in choices if _has_none(mill, counts, points, work.limit)]

    def with_one(self, number: int, work: Work) -> StickCounts:
        """The same choices held by one rule alone."""
        one = copy.copy(self)
        one.work, one.searched = work, []
        one.points, one.rules = [self.points[number]], [self.rules[number]]
        return one

    def least(self, below: Spent | None, spare: int | None = None) -> Spent | None:
        """Least (cents, sticks) of a choice, if there is one below; None otherwise.

        ``spare`` is a group of which one stick is not to be touched.
        """
        sticks = self.mill.sticks
        # what is bought first: it decides the cost
        order = sorted(range(len(sticks)), key=lambda s: (not sticks[s].for_sale, -max(self._holds(s)), s))
        best = below
        found = False
        chosen = [0] * len(sticks)

        def go_on(place: int, cost: int, number: int, missing: list[int]) -> None:
            nonlocal best, found
            self.work.spend()
            if best is not None and (cost, number) >= best:
                return
            if all(m <= 0 for m in missing) and not self._was_searched(chosen):
                best, found = (cost, number), True
                return
            if place == len(order) or not self._could(order[place:], cost, number, missing, best):
                return
            s = order[place]
            most = min(sticks[s].most, sticks[s].number - 1) if s == spare else sticks[s].most
            for n in range(most + 1):
                if best is not None and (cost + n * sticks[s].price, number + n) >= best:
                    break
                chosen[s] = n
                left = [m - n * rule.holds[s] for m, rule in zip(missing, self.rules, strict=True)]
                go_on(place + 1, cost + n * sticks[s].price, number + n, left)
            chosen[s] = 0

        go_on(0, 0, 0, [rule.need for rule in self.rules])
        return best if found else None

    def _holds(self, s: int) -> list[int]:
        return [rule.holds[s] for rule in self.rules]

    def _was_searched(self, chosen: Sequence[int]) -> bool:
        return any(all(n <= m for n, m in zip(chosen, most, strict=True)) for most in self.searched)

    def _could(
        self, rest: Sequence[int], cost: int, number: int, missing: Sequence[int], best: Spent | None
    ) -> bool:
        """Whether what is missing could come from the rest below ``best``, each rule for itself."""
        sticks = self.mill.sticks
        for rule, need in zip(self.rules, missing, strict=True):
            if need <= 0:
                continue
            if sum(rule.holds[s] * sticks[s].most for s in rest) < need:
                return False
            if best is None:
                continue
            own = sum(rule.holds[s] * sticks[s].most for s in rest if not sticks[s].price)
            more = 0
            if need > own:
                # at the best price for a point; in whole numbers: least cost = ceil(need * price / points)
                bought = [s for s in rest if sticks[s].price and rule.holds[s]]
                more = min(-(-(need - own) * sticks[s].price // rule.holds[s]) for s in bought)
            if cost + more > best[0]:
                return False
            if cost + more == best[0] and number + self._fewest(rule, rest, need) >= best[1]:
                return False
        return True

    def _fewest(self, rule: _Rule, rest: Sequence[int], need: int) -> int:
        number = 0
        for s in sorted(rest, key=lambda s: -rule.holds[s]):
            if need <= 0 or not rule.holds[s]:
                break
            take = min(self.mill.sticks[s].most, -(-need // rule.holds[s]))
            number += take
            need -= take * rule.holds[s]
        return number


def _has_none(mill: Sawmill, counts: Sequence[int], points: Sequence[Sequence[int]], steps: int) -> bool:
    """Whether the sticks have no layout; a search that does not end shows nothing, and nothing is built on it."""
    try:
        return not can_lay(mill, counts, points, Work(steps))
    except WorkLimitError:
        return False


def _points(mill: Sawmill, cut: Plain) -> list[int]:
    given = dict(cut["points"])
    points: list[int | None] = [None] * len(mill.wanted)
    for name, group in mill.group_of.items():
        # of equal blanks with unequal points the least counts: any points make a true inequality
        now, had = max(0, given.get(name, 0)), points[group]
        points[group] = now if had is None else min(had, now)
    return [p or 0 for p in points]


def _rule(mill: Sawmill, points: Sequence[int]) -> _Rule:
    need = sum(p * n for p, n in zip(points, mill.wanted, strict=True))
    return _Rule(tuple(mill.holds(stick, points) for stick in mill.sticks), need)


def _areas(mill: Sawmill) -> list[int]:
    return [length * width for length, width, _ in mill.sizes]


def recompute_guillotine_bounds(plain: Plain, work_limit: int = 200_000) -> dict[str, Bound]:
    """Bound of each stage and one short sentence why.

    Parameters
    ----------
    plain
        Stock, blanks, rules and plan as plain data, well formed.
    work_limit
        Steps allowed for all.

    Returns
    -------
    dict
        Stage name to (bound, why): cents, counts, square ticks. None where nothing is known. The bound on sticks holds
        for plans of the cost given.
    """
    mill = Sawmill(plain)
    values = {stage["name"]: stage["value"] for stage in plain["plan"]["stages"]}
    cost, sticks = values["new material cost"], values["sticks touched"]
    stopped: Bound = (None, f"the search was stopped after {work_limit} steps")
    counts = StickCounts(mill, plain["plan"]["certificate"], Work(work_limit))
    bounds = dict.fromkeys(("new material cost", "sticks touched", "largest remnant"), stopped)
    bounds["fence settings"] = _fewest_settings(mill)
    try:
        bounds |= _stick_bounds(counts, cost, sticks)
        bounds["largest remnant"] = _largest_remnant(counts, cost, sticks)
    except WorkLimitError:
        pass
    return bounds


def _stick_bounds(counts: StickCounts, cost: int, sticks: int) -> dict[str, Bound]:
    """Bounds on the cost and, where that is met, on the sticks."""
    less = counts.least((cost, sticks))
    if less is not None and less[0] < cost:
        return {
            "new material cost": (less[0], f"sticks for {less[0]} cents are not shown to hold too little"),
            "sticks touched": (None, "the cost is not settled"),
        }
    number, why = sticks, "every choice of fewer sticks for that cost holds too little"
    if less is not None:
        number, why = less[1], f"{less[1]} sticks are not shown to hold too little"
    cheaper = "every cheaper choice of sticks holds too little" if cost else "nothing need be bought"
    return {"new material cost": (cost, cheaper), "sticks touched": (number, why)}


def _largest_remnant(counts: StickCounts, cost: int, number: int) -> Bound:
    """Largest area that so many sticks for so much money can leave in one strip, or in one stick that is not touched.

    What a strip is taken from must still hold the points that all the other sticks together cannot.
    """
    best, why = 0, "every stick is used up by its lanes"
    held_at_most = []
    for rule in counts.rules:
        every = [
            h for h, s in zip(rule.holds, counts.mill.sticks, strict=True) for _ in range(min(s.most, number))
        ]
        held_at_most.append(sum(sorted(every, reverse=True)[: max(0, number - 1)]))
    for s, stick in enumerate(counts.mill.sticks):
        if not stick.for_sale and stick.area > best and counts.least((cost, number + 1), spare=s):
            best, why = stick.area, "a stick that is not touched"
        if stick.price > cost:
            continue
        for face in stick.faces:
            taken = min((lane + counts.mill.kerf for lane in face.lanes), default=None)
            if taken is None or not number:
                continue
            for points, rule, held in zip(counts.points, counts.rules, held_at_most, strict=True):
                steps = counts.mill.rip_steps(face, points)
                enough = [used for used, worth in steps if worth >= rule.need - held]
                # not even all of it is enough: such a stick is not among them
                taken = max(taken, enough[0] if enough else face.across + 1)
            strip = face.across - taken
            if min(strip, face.length) >= counts.mill.least and strip * face.length > best:
                best, why = strip * face.length, "the lanes take up the rest of the stick"
    return best, why


def shortage_is_proven(plain: Plain, work_limit: int = 200_000) -> bool:
    """Whether no choice of sticks, not even all of them, keeps the rules of the certificate."""
    mill = Sawmill(plain)
    try:
        counts = StickCounts(mill, plain["shortage"]["certificate"], Work(work_limit))
        return counts.least(None) is None
    except WorkLimitError:
        return False


def _fewest_settings(mill: Sawmill) -> Bound:
    """Fewest lane widths that every blank finds its own among; blanks as wide as a stick may need none."""
    choices: list[set[int]] = [set() for _ in mill.wanted]
    free = set()
    for stick in mill.sticks:
        for face in stick.faces:
            for lane, items in face.lanes.items():
                for group, _ in items:
                    choices[group].add(lane)
                    if lane == face.across:
                        free.add(group)
    asked = [choice for group, choice in enumerate(choices) if group not in free]
    single = {next(iter(choice)) for choice in asked if len(choice) == 1}
    # blanks that share no width with one another need one each
    apart = set(single)
    number = len(single)
    for choice in sorted(map(sorted, asked)):
        if not apart.intersection(choice):
            apart.update(choice)
            number += 1
    return number, "so many blanks have no lane width in common"
