from __future__ import annotations

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.check_packing import SearchLimitError, dearest, pack
from edgewright.cutlist.whole import pricing
from edgewright.cutlist.whole.pricing import fill_lanes

quick = settings(derandomize=True, deadline=None, max_examples=150)

ITEMS = st.lists(
    st.tuples(st.integers(1, 15), st.integers(1, 3), st.integers(0, 9)),
    min_size=1,
    max_size=4,
    unique_by=lambda item: item[0],
).map(lambda items: sorted(items, reverse=True))
LANES = st.sets(st.integers(15, 40), min_size=1, max_size=3).map(sorted)


def slow(items: list[tuple[int, int, int]], capacity: int) -> int:
    return max(
        sum(n * value for n, (_, _, value) in zip(counts, items, strict=True))
        for counts in itertools.product(*(range(wanted + 1) for _, wanted, _ in items))
        if sum(n * size for n, (size, _, _) in zip(counts, items, strict=True)) <= capacity
    )


@pytest.mark.property
@pytest.mark.parametrize("dense", [0, 1000])
@quick
@given(items=ITEMS, lanes=LANES, spread=st.booleans())
def test_dearest_patterns(
    dense: int, items: list[tuple[int, int, int]], lanes: list[int], spread: bool
) -> None:
    sizes, demand, values = zip(*items, strict=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(pricing, "DENSE", dense)
        knapsack = fill_lanes(sizes, demand, values, lanes, spread=spread)
    assert list(knapsack.worth) == [slow(items, lane) for lane in lanes]
    assert {lane for lane, _, _ in knapsack.patterns} == set(range(len(lanes)))
    for lane, worth, counts in knapsack.patterns:
        assert all(n <= wanted for n, wanted in zip(counts, demand, strict=True))
        assert sum(n * size for n, size in zip(counts, sizes, strict=True)) <= lanes[lane]
        assert sum(n * value for n, value in zip(counts, values, strict=True)) == worth


@pytest.mark.property
@quick
@given(ITEMS, LANES)
def test_checker_finds_the_same_worth(items: list[tuple[int, int, int]], lanes: list[int]) -> None:
    sizes, demand, values = zip(*items, strict=True)
    assert dearest(sizes, demand, values, lanes) == [slow(items, lane) for lane in lanes]
    full = fill_lanes(sizes, demand, sizes, lanes, wanted=False)
    assert list(full.worth) == dearest(sizes, demand, sizes, lanes)


def goes_in(sizes: list[int], rooms: list[int]) -> bool:
    if not sizes:
        return True
    return any(
        room >= sizes[0] and goes_in(sizes[1:], [*rooms[:at], room - sizes[0], *rooms[at + 1 :]])
        for at, room in enumerate(rooms)
        if room not in rooms[:at]
    )


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=400)
@given(ITEMS, st.lists(st.integers(5, 30), min_size=1, max_size=4))
def test_search_finds_a_packing_exactly_when_there_is_one(
    items: list[tuple[int, int, int]], lanes: list[int]
) -> None:
    sizes, demand, values = zip(*items, strict=True)
    packed = pack(sizes, demand, lanes, values, 10**6)
    each = [size for size, wanted, _ in items for _ in range(wanted)]
    assert (packed is not None) == goes_in(each, lanes)
    if packed is not None:
        left = sorted(lanes)
        for lane, counts in packed:
            left.remove(lane)
            assert sum(n * size for n, size in zip(counts, sizes, strict=True)) <= lane
        assert [sum(counts[at] for _, counts in packed) for at in range(len(sizes))] == list(demand)


@pytest.mark.example
def test_search_stops_at_its_limit() -> None:
    with pytest.raises(SearchLimitError):
        pack([7, 6, 5, 4], [3, 3, 3, 3], [12] * 6, [1, 1, 1, 1], 3)
    with pytest.raises(SearchLimitError):
        pack([1], [300], [1] * 300, [1], 10**6)
