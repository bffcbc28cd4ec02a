"""What sticks can hold, worked out anew: the part of the guillotine checker that knows lanes and rips.

A lane of width w and length L holds blanks with ``sum(a + kerf) <= L + kerf``; a stick holds lanes with
``sum(w + kerf) <= W + kerf``. Two nested programs over the sums that can be reached give the most points a stick holds,
in whole numbers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_steps import Steps, with_copies

__all__ = ["Face", "Sawmill", "StickGroup"]


@dataclass(frozen=True, slots=True)
class Face:
    """One way to rip a stick: length of its lanes, width across, and (blank group, size along) by lane width."""

    length: int
    across: int
    lanes: dict[int, tuple[tuple[int, int], ...]]


@dataclass(frozen=True, slots=True)
class StickGroup:
    """Sticks of one size, grain and price: ``number`` of them, of which ``most`` can be used."""

    for_sale: bool
    price: int
    number: int
    most: int
    ids: tuple[str, ...]
    area: int
    faces: tuple[Face, ...]


class Sawmill:
    """Stock, blanks and saw of one plan, equal ones put together.

    Attributes
    ----------
    wanted
        How many blanks of each group.
    group_of
        Group of a blank, by id.
    sticks
        Groups of sticks.
    """

    def __init__(self, plain: Plain) -> None:
        self.kerf: int = plain["rules"]["kerf"]
        #: Narrower than this nothing goes back to the rack.
        self.least: int = max(plain["rules"]["min_rip_width"], 1)
        sizes: dict[tuple[int, int, str | None], int] = {}
        self.group_of: dict[str, int] = {}
        self.wanted: list[int] = []
        for blank in (blank for blank in plain["blanks"] if blank["count"]):
            key = (blank["length"], blank["width"], blank["grain"])
            group = sizes.setdefault(key, len(sizes))
            if group == len(self.wanted):
                self.wanted.append(0)
            self.wanted[group] += blank["count"]
            self.group_of[blank["id"]] = group
        self.sizes = list(sizes)
        self.sticks = self._sticks(plain)

    def _sticks(self, plain: Plain) -> list[StickGroup]:
        same: dict[tuple[bool, int, int, int, str | None], list[Plain]] = {}
        grained = any(grain for _, _, grain in self.sizes)
        for rect in plain["stock"]:
            for_sale, grain = rect["source"] == "for sale", rect["grain"] if grained else None
            key = (for_sale, rect["price_cents"] * for_sale, rect["length"], rect["width"], grain)
            same.setdefault(key, []).append(rect)
        every = sum(self.wanted)
        groups = []
        for (for_sale, price, length, width, grain), rects in same.items():
            # each stick that is used gives at least one blank
            number = sum(every if rect["count"] is None else rect["count"] for rect in rects)
            ways = {"either": ("length", "width")}.get(plain["rules"]["first"], (plain["rules"]["first"],))
            faces = [
                self._face(length, width, first, grain, plain["rules"]["min_rip_width"]) for first in ways
            ]
            ids = tuple(rect["id"] for rect in rects)
            groups.append(
                StickGroup(for_sale, price, number, min(number, every), ids, length * width, tuple(faces))
            )
        return groups

    def _face(self, length: int, width: int, first: str, grain: str | None, least: int) -> Face:
        along, across = (length, width) if first == "length" else (width, length)
        lanes: dict[int, list[tuple[int, int]]] = {}
        for group, (blank_length, blank_width, blank_grain) in enumerate(self.sizes):
            ways = []
            # the blank's length lies along the lane; with grain, when both run along it or both across
            if blank_grain is None or grain is None or (blank_grain == "length") == (grain == first):
                ways.append((blank_length, blank_width))
            if blank_grain is None or grain is None or (blank_grain == "width") == (grain == first):
                ways.append((blank_width, blank_length))
            for size, lane in dict.fromkeys(ways):
                if size <= along and (lane == across or least <= lane < across):
                    lanes.setdefault(lane, []).append((group, size))
        return Face(along, across, {lane: tuple(lanes[lane]) for lane in sorted(lanes, reverse=True)})

    def holds(self, stick: StickGroup, points: Sequence[int]) -> int:
        """Most points that one such stick can hold; never more than those of all blanks."""
        every = sum(p * n for p, n in zip(points, self.wanted, strict=True))
        best = max((self.rip_steps(face, points)[-1][1] for face in stick.faces), default=0)
        return min(best, every)

    def rip_steps(self, face: Face, points: Sequence[int]) -> Steps:
        """Most points of lanes side by side, by the width they take, one kerf counted with each."""
        steps: Steps = [(0, 0)]
        for lane, items in face.lanes.items():
            value = self.lane_value(face.length, items, points)
            if value:
                # lanes of one width hold at most all blanks that can lie in them
                every = sum(points[group] * self.wanted[group] for group, _ in items)
                for worth, number in ((value, every // value), (every % value, 1)):
                    steps = with_copies(steps, lane + self.kerf, worth, number, face.across + self.kerf)
        return steps

    def lane_value(self, length: int, items: Sequence[tuple[int, int]], points: Sequence[int]) -> int:
        """Most points in one lane."""
        steps: Steps = [(0, 0)]
        for group, size in items:
            steps = with_copies(
                steps, size + self.kerf, points[group], self.wanted[group], length + self.kerf
            )
        return steps[-1][1]
