"""What the proof of a cutting of whole pieces is worth: the bound of each stage, recomputed in whole numbers."""

from __future__ import annotations

import math
from dataclasses import dataclass

from edgewright.cutlist.check_faults import Plain
from edgewright.cutlist.check_packing import SearchLimitError, dearest, pack

__all__ = ["recompute_whole_bounds"]

_Box = dict[tuple[tuple[int, ...], tuple[int, ...]], tuple[int, int]]


def recompute_whole_bounds(problem: Plain, result: Plain, work_limit: int) -> list[int | None]:
    """Return the bound of each stage: the least over all leaves of its proof; None when no leaf holds a cutting.

    A stage takes the values reached in the stages before it as given. Sticks that nothing is cut from only add to
    what is counted, so there need be no more sticks than pieces.

    Parameters
    ----------
    problem, result
        Plain data as in `check_whole`.
    work_limit
        Steps allowed for each search.
    """
    given = _Given.read(problem)
    found: list[int | None] = []
    reached: list[int] = []
    for number, stage in enumerate(result["stages"]):
        bound = _Stage(given, number, tuple(reached), work_limit, {}).bound(stage["proof"], dict(given.box))
        found.append(None if bound == math.inf else int(bound))
        reached.append(stage["value"] if stage["value"] is not None else 0)
    return found


@dataclass(frozen=True, slots=True)
class _Given:
    """The problem with equal sticks put together, in units of the factor that all piece lengths share."""

    places: tuple[int, ...]
    sizes: tuple[int, ...]
    demand: tuple[int, ...]
    lanes: tuple[int, ...]
    group_of: dict[str, tuple[tuple[int, ...], tuple[int, ...]]]
    box: _Box

    @classmethod
    def read(cls, problem: Plain) -> _Given:
        kerf = problem["kerf"]
        pieces = [piece for piece in problem["pieces"] if piece["count"]]
        unit = math.gcd(*(piece["length"] + kerf for piece in pieces))
        shortest = min(piece["length"] + kerf for piece in pieces) // unit
        total = sum(piece["count"] for piece in pieces)
        lengths = {(length + kerf) // unit for kind in problem["kinds"] for length, _ in kind["lanes"]}
        lanes = tuple(sorted(length for length in lengths if length >= shortest))
        group_of = {}
        most: dict[tuple[tuple[int, ...], tuple[int, ...]], int] = {}
        for kind in problem["kinds"]:
            held = [0] * len(lanes)
            for length, number in kind["lanes"]:
                if (length + kerf) // unit >= shortest:
                    held[lanes.index((length + kerf) // unit)] += number
            if not any(held) or kind["count"] == 0:
                continue
            group = group_of[kind["name"]] = (tuple(kind["weights"]), tuple(held))
            count = total if kind["count"] is None else kind["count"]
            most[group] = min(total, most.get(group, 0) + count)
        return cls(
            tuple(at for at, piece in enumerate(problem["pieces"]) if piece["count"]),
            tuple((piece["length"] + kerf) // unit for piece in pieces),
            tuple(piece["count"] for piece in pieces),
            lanes,
            group_of,
            {group: (0, number) for group, number in most.items()},
        )


@dataclass(frozen=True, slots=True)
class _Stage:
    given: _Given
    number: int
    reached: tuple[int, ...]
    work_limit: int
    worth_of: dict[tuple[int, ...], list[int]]

    def bound(self, proof: Plain, box: _Box) -> float:
        """Bound of a box from the proof that is given for it."""
        if "stick" in proof:
            group = self.given.group_of[proof["stick"]]
            low, high = box[group]
            if not low <= proof["at"] < high:
                raise ValueError(f"branch at {proof['at']} of {low} to {high} sticks")
            fewer = self.bound(proof["fewer"], {**box, group: (low, proof["at"])})
            return min(fewer, self.bound(proof["more"], {**box, group: (proof["at"] + 1, high)}))
        values = self._values(proof)
        if proof["searched"] is True:
            return math.inf if self._nothing_fits(box, values) else 0
        return self._by_prices(proof, box, values)

    def _values(self, leaf: Plain) -> tuple[int, ...]:
        values = tuple(leaf["values"][at] for at in self.given.places)
        if min(values) < 0 or leaf["scale"] < 0 or min(leaf["multipliers"], default=0) < 0:
            raise ValueError("a price, scale or multiplier below 0")
        if len(leaf["multipliers"]) != self.number:
            raise ValueError(f"{len(leaf['multipliers'])} multipliers in stage {self.number + 1}")
        return values

    def _by_prices(self, leaf: Plain, box: _Box, values: tuple[int, ...]) -> float:
        given, scale = self.given, leaf["scale"]
        if values not in self.worth_of:
            self.worth_of[values] = dearest(given.sizes, given.demand, values, given.lanes)
        worth = self.worth_of[values]
        least = sum(value * wanted for value, wanted in zip(values, given.demand, strict=True))
        least -= sum(m * v for m, v in zip(leaf["multipliers"], self.reached, strict=True))
        for (weights, held), (low, high) in box.items():
            over = scale * weights[self.number] - sum(n * w for n, w in zip(held, worth, strict=True))
            over += sum(m * w for m, w in zip(leaf["multipliers"], weights, strict=False))
            least += over * (low if over >= 0 else high)
        if scale == 0:
            return math.inf if least > 0 else 0
        return self._next_value(-(-least // scale), box)

    def _next_value(self, least: int, box: _Box) -> float:
        """The first value from ``least`` on that stick counts within the box can come to, by its remainder."""
        start = sum(weights[self.number] * low for (weights, _), (low, _) in box.items())
        step = math.gcd(*(w[self.number] for (w, _), (low, high) in box.items() if low < high))
        if least <= start:
            return start
        return math.inf if step == 0 else start + -(-(least - start) // step) * step

    def _nothing_fits(self, box: _Box, values: tuple[int, ...]) -> bool:
        if any(low != high for low, high in box.values()):
            raise ValueError("a search of more than one choice of sticks")
        given = self.given
        lanes = [
            length
            for (_, held), (number, _) in box.items()
            for length, each in zip(given.lanes, held, strict=True)
            for _ in range(number * each)
        ]
        order = sorted(range(len(given.sizes)), key=lambda at: -given.sizes[at])
        try:
            packed = pack(
                [given.sizes[at] for at in order],
                [given.demand[at] for at in order],
                lanes,
                [values[at] for at in order],
                self.work_limit,
            )
        except SearchLimitError:
            return False
        return packed is None
