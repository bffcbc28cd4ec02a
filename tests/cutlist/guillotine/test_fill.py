from __future__ import annotations

from itertools import product
from random import Random

import pytest

from edgewright.cutlist.guillotine.fill import best_fill, every_fill, full_fills, near_best_fills


def by_hand(sizes, counts, room):
    """Every fill, by trying all counts."""
    fits = product(*(range(n + 1) for n in counts))
    return [fill for fill in fits if sum(s * n for s, n in zip(sizes, fill, strict=True)) <= room]


def random_fill(seed):
    pick = Random(seed)
    number = pick.randint(1, 4)
    sizes = [pick.randint(2, 12) for _ in range(number)]
    return sizes, [pick.randint(1, 4) for _ in range(number)], pick.randint(1, 40)


def is_full(fill, sizes, counts, room):
    left = room - sum(s * n for s, n in zip(sizes, fill, strict=True))
    return all(n == most or size > left for size, n, most in zip(sizes, fill, counts, strict=True))


@pytest.mark.property
def test_against_all_counts():
    for seed in range(150):
        sizes, counts, room = random_fill(seed)
        every = by_hand(sizes, counts, room)
        full = {fill for fill in every if is_full(fill, sizes, counts, room)}
        found = full_fills(sizes, counts, room, 10_000)
        assert found is not None
        assert sorted(found) == sorted(full)
        some = every_fill(sizes, counts, room, 10_000)
        assert some is not None
        assert set(some) == {fill for fill in every if any(fill)}
        values = [Random(seed + n).randint(0, 9) for n in range(len(sizes))]
        worth = {fill: sum(v * n for v, n in zip(values, fill, strict=True)) for fill in every}
        value, fill = best_fill(sizes, counts, values, room)
        assert value == max(worth.values())
        assert worth[fill] == value
        near = near_best_fills(sizes, counts, values, room, 10_000)
        assert not near or max(worth[fill] for fill in near) == value
        assert all(fill in worth for fill in near)


def test_more_than_the_limit_is_none():
    assert full_fills([2, 3, 5, 7], [9] * 4, 60, 5) is None
    assert every_fill([2, 3, 5, 7], [9] * 4, 60, 5) is None
