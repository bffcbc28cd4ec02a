"""Small guillotine cases, and an enumeration of every layout to compare with.

The enumeration knows nothing of patterns, prices or bounds: it lists what one stick can hold, lane by lane and blank by
blank, and then tries every set of sticks.
"""

from __future__ import annotations

from collections import Counter
from itertools import product
from random import Random

from edgewright.cutlist.guillotine.model import Blank, GuillotineRules, StockRect

Vector = tuple[int, ...]


def rect(
    name: str, length: int, width: int, count: int | None = 1, price: int = 0, grain: str | None = None
) -> StockRect:
    source = "for sale" if price or count is None else "on hand"
    return StockRect(name, f"board {name}", source, length, width, count, price, grain)  # type: ignore[arg-type]


def ways_to_lie(blank: Blank, grain: str | None, first: str) -> set[tuple[int, int]]:
    """(along the lane, lane width) for each lawful way."""
    ways = {(blank.length, blank.width, "length"), (blank.width, blank.length, "width")}
    if blank.grain is None or grain is None:
        return {(a, w) for a, w, _ in ways}
    # the side of the blank that lies along the lane follows the grain exactly when the side of the stick does
    return {(a, w) for a, w, side in ways if (side == blank.grain) == (first == grain)}


def held_by(stock: StockRect, blanks: tuple[Blank, ...], rules: GuillotineRules) -> set[Vector]:
    """Every choice of blanks that one stick can give, as how many of each."""
    none = (0,) * len(blanks)
    found = {none}
    for first in ("length", "width") if rules.first == "either" else (rules.first,):
        length, across = (stock.length, stock.width) if first == "length" else (stock.width, stock.length)
        lies = [ways_to_lie(blank, stock.grain, first) for blank in blanks]
        lanes: dict[int, set[Vector]] = {}
        for width in sorted({w for ways in lies for _, w in ways}):
            if width > across or (width != across and width < rules.min_rip_width):
                continue
            sizes = [next((a for a, w in ways if w == width), None) for ways in lies]
            lanes[width] = {
                v
                for v in product(*(range(b.count + 1) for b in blanks))
                if any(v)
                and all(size is not None for size, n in zip(sizes, v, strict=True) if n)
                and sum((size or 0) * n + rules.kerf * n for size, n in zip(sizes, v, strict=True))
                <= length + rules.kerf
            }
        rooms = {across + rules.kerf: {none}}
        for room in range(across + rules.kerf, -1, -1):
            for held in rooms.get(room, set()):
                found.add(held)
                for width, vectors in lanes.items():
                    if width + rules.kerf > room:
                        continue
                    for v in vectors:
                        total = tuple(a + b for a, b in zip(held, v, strict=True))
                        if all(n <= b.count for n, b in zip(total, blanks, strict=True)):
                            rooms.setdefault(room - width - rules.kerf, set()).add(total)
    return found


def best_by_enumeration(
    stock: list[StockRect], blanks: list[Blank], rules: GuillotineRules
) -> tuple[int, int] | None:
    """Least cents, and fewest sticks for that; None where no choice of sticks holds the blanks."""
    wanted = tuple(b.count for b in blanks)
    held = [held_by(s, tuple(blanks), rules) for s in stock]
    states: dict[Vector, set[tuple[int, int]]] = {(0,) * len(blanks): {(0, 0)}}
    for s, vectors in zip(stock, held, strict=True):
        price = s.price_cents if s.source == "for sale" else 0
        for _ in range(sum(wanted) if s.count is None else s.count):
            after = {state: set(spent) for state, spent in states.items()}
            for state, spent in states.items():
                for v in vectors:
                    if any(v):
                        total = tuple(min(a + b, n) for a, b, n in zip(state, v, wanted, strict=True))
                        after.setdefault(total, set()).update((c + price, n + 1) for c, n in spent)
            states = {state: {min(spent)} for state, spent in after.items()}
    return min(states[wanted]) if wanted in states else None


def sawn_apart(
    seed: int, sheets: int, length: int = 768, width: int = 384, kerf: int = 1
) -> tuple[list[StockRect], list[Blank], GuillotineRules]:
    """Blanks that fill so many sheets without waste: each sheet ripped at random, each lane crosscut at random."""
    pick = Random(seed)
    sizes: Counter[tuple[int, int]] = Counter()
    for _ in range(sheets):
        for lane in _parts(pick, width, 30, kerf):
            for piece in _parts(pick, length, 60, kerf):
                sizes[(piece, lane)] += 1
    blanks = [
        Blank(f"b{n:03}", a, w, count, "length") for n, ((a, w), count) in enumerate(sorted(sizes.items()))
    ]
    stock = [StockRect("sheet", "sheet", "for sale", length, width, None, 100, "length")]
    return stock, blanks, GuillotineRules(kerf, 0, "length")


def _parts(pick: Random, whole: int, least: int, kerf: int) -> list[int]:
    """Random sizes that fill a length exactly, one kerf between them."""
    parts, left = [], whole
    while left >= 3 * least and pick.random() < 0.85:
        part = pick.randint(least, left - least - kerf)
        parts.append(part)
        left -= part + kerf
    return [*parts, left]


def random_case(seed: int) -> tuple[list[StockRect], list[Blank], GuillotineRules]:
    """A few blanks and sticks small enough to enumerate; some have no layout."""
    pick = Random(seed)
    kerf = pick.choice((0, 1, 1, 2))
    grain = pick.random() < 0.4
    first = pick.choice(("length", "length", "width", "either"))
    rules = GuillotineRules(kerf, pick.choice((0, 0, 2)), first)  # type: ignore[arg-type]
    stock = [
        rect(
            f"s{i}",
            pick.randint(6, 20),
            pick.randint(4, 14),
            pick.choice((1, 1, 2)),
            pick.choice((0, 0, 3, 5)),
            pick.choice(("length", "width")) if grain else None,
        )
        for i in range(pick.randint(1, 3))
    ]
    blanks = [
        Blank(
            f"b{i}",
            pick.randint(2, 12),
            pick.randint(1, 8),
            pick.randint(1, 3),
            pick.choice(("length", None)),
        )
        for i in range(pick.randint(1, 3))
    ]
    return stock, blanks, rules
