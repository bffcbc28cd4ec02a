"""Problems of whole pieces for many tests: published classes, shop cases, and the slow way to solve small ones.

Triplets and uniform: E. Falkenauer, "A hybrid grouping genetic algorithm for bin packing", Journal of Heuristics 2
(1996), pages 5-30, from memory of the recipe. Triplets as used here: capacity 1000; of the three items of each bin the
first is drawn evenly from 380 to 490, the second from 250 to half of what is left, the third fills the bin exactly,
so that the optimum is a third of the items. Uniform: capacity 150, items drawn evenly from 20 to 100. The draws are
our own, seeded; the published instances are not used.
"""

from __future__ import annotations

import dataclasses
import itertools
import json
import random
from collections import Counter
from typing import Any

from edgewright.cutlist.whole.model import PieceKind, StickKind, WholeProblem


def plain(value: Any) -> dict[str, Any]:
    """As the checker reads it."""
    read: dict[str, Any] = json.loads(json.dumps(dataclasses.asdict(value)))
    return read


def one_stock(length: int, lengths: list[int], kerf: int = 0) -> WholeProblem:
    """Any number of sticks of one length, fewest wanted."""
    pieces = tuple(PieceKind(f"p{size}", size, count) for size, count in sorted(Counter(lengths).items()))
    return WholeProblem((StickKind("stick", None, (1,), ((length, 1),)),), pieces, kerf)


def triplets(items: int, seed: int) -> WholeProblem:
    draw = random.Random(seed)
    lengths: list[int] = []
    for _ in range(items // 3):
        first = draw.randint(380, 490)
        second = draw.randint(250, (1000 - first) // 2)
        lengths += [first, second, 1000 - first - second]
    return one_stock(1000, lengths)


def uniform(items: int, seed: int) -> WholeProblem:
    draw = random.Random(seed)
    return one_stock(150, [draw.randint(20, 100) for _ in range(items)])


def paper_rolls() -> WholeProblem:
    """The classic example of paper rolls, from memory: 13 widths from rolls of 5600 mm; the optimum is 73 rolls."""
    wanted = {
        1380: 22, 1520: 25, 1560: 12, 1710: 14, 1820: 18, 1880: 18, 1930: 20,
        2000: 10, 2050: 12, 2100: 14, 2140: 16, 2150: 18, 2200: 20,
    }  # fmt: skip
    return one_stock(5600, [width for width, count in wanted.items() for _ in range(count)])


def shop(seed: int) -> WholeProblem:
    """12 to 90 pieces from 4 to 12 stick lengths: own wood that costs nothing, and sticks for sale; least money first.

    Lengths are ticks in steps of 1/16 in, kerfs from 3/32 in to 1/8 in; the longest stick can always be bought.
    """
    draw = random.Random(seed)
    sixteenth = 508
    number, lengths = draw.randint(12, 90), draw.randint(4, 12)
    inches = draw.sample([36, 40, 48, 54, 60, 66, 72, 78, 84, 90, 96, 102, 108, 120, 144], lengths)
    kerf = draw.choice([762, 889, 1016])
    longest = max(inches)
    sizes = [
        draw.randint(8 * 16, (longest - 4 if draw.random() < 0.2 else min(50, longest - 4)) * 16) * sixteenth
        for _ in range(draw.randint(3, min(number, 25)))
    ]
    counts = Counter(draw.randrange(len(sizes)) for _ in range(number))
    kinds = []
    for inch in sorted(inches):
        own = draw.random() < 0.35 and inch != longest
        count = draw.randint(1, 4) if own else draw.choice([None, None, draw.randint(2, 10)])
        price = 0 if own else round(inch * draw.uniform(0.8, 1.3)) * draw.choice([10, 25, 50])
        kinds.append(
            StickKind(f"{inch} in", None if inch == longest else count, (price, 1), ((inch * 8128, 1),))
        )
    pieces = tuple(PieceKind(f"p{at}", sizes[at], count) for at, count in sorted(counts.items()))
    return WholeProblem(tuple(kinds), pieces, kerf)


def slow_best(problem: WholeProblem) -> tuple[int, ...] | None:
    """The best values by trying every choice of sticks and every way to put the pieces into them."""
    pieces = sorted((p.length for p in problem.pieces for _ in range(p.count)), reverse=True)
    ranges = [
        range((len(pieces) if kind.count is None else min(kind.count, len(pieces))) + 1)
        for kind in problem.kinds
    ]
    stages = range(len(problem.kinds[0].weights))
    choices = sorted(
        (
            tuple(sum(k.weights[s] * n for k, n in zip(problem.kinds, taken, strict=True)) for s in stages),
            taken,
        )
        for taken in itertools.product(*ranges)
    )
    for value, taken in choices:
        rooms = [
            length + problem.kerf
            for kind, number in zip(problem.kinds, taken, strict=True)
            for length, each in kind.lanes
            for _ in range(number * each)
        ]
        if _fits([length + problem.kerf for length in pieces], rooms):
            return value
    return None


def _fits(sizes: list[int], rooms: list[int]) -> bool:
    if not sizes:
        return True
    if sum(sizes) > sum(rooms):
        return False
    for room in sorted(set(rooms)):
        if room >= sizes[0]:
            at = rooms.index(room)
            if _fits(sizes[1:], [*rooms[:at], room - sizes[0], *rooms[at + 1 :]]):
                return True
    return False
