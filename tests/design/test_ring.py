from __future__ import annotations

from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.design.ring import StripSpan, ring_spans

Box = tuple[int, int, int, int]


def boxes(spans: tuple[StripSpan, ...], size: tuple[int, int], w: int, p: int) -> dict[str, Box]:
    """Each strip as (x0, y0, x1, y1) from the finished south-west corner; its outer edge stands p outside."""
    length, width = size
    made: dict[str, Box] = {}
    for s in spans:
        a, b = s.start_offset, s.start_offset + s.length
        made[s.side] = {
            "south": (a, -p, b, w - p),
            "north": (a, width + p - w, b, width + p),
            "west": (-p, a, w - p, b),
            "east": (length + p - w, a, length + p, b),
        }[s.side]
    return made


def area(box: Box) -> int:
    return (box[2] - box[0]) * (box[3] - box[1])


def overlap(a: Box, b: Box) -> int:
    x = min(a[2], b[2]) - max(a[0], b[0])
    y = min(a[3], b[3]) - max(a[1], b[1])
    return max(0, x) * max(0, y)


@pytest.mark.example
@pytest.mark.parametrize(
    ("corners", "through", "lengths"),
    [
        # 72 x 36, strips of 2, proud 1: the ring is 74 x 38
        ("butt", "long", {"north": 74, "south": 74, "east": 34, "west": 34}),
        ("butt", "short", {"north": 70, "south": 70, "east": 38, "west": 38}),
        ("pinwheel", "long", {"north": 72, "south": 72, "east": 36, "west": 36}),
        ("mitre", "long", {"north": 74, "south": 74, "east": 38, "west": 38}),
    ],
)
def test_lengths_by_corner(corners: Any, through: Any, lengths: dict[str, int]) -> None:
    spans = ring_spans((72, 36), 2, corners=corners, through=through, proud=1)
    assert {s.side: s.length for s in spans} == lengths
    assert {s.mitred for s in spans} == {corners == "mitre"}


@pytest.mark.example
def test_the_long_pair_is_long_whichever_way_the_top_lies() -> None:
    tall = {s.side: s.length for s in ring_spans((36, 72), 2, corners="butt", through="long")}
    assert tall == {"north": 32, "south": 32, "east": 72, "west": 72}
    square = {s.side: s.length for s in ring_spans((40, 40), 2, corners="butt", through="long")}
    assert square == {"north": 40, "south": 40, "east": 36, "west": 36}


@pytest.mark.example
def test_offsets_by_hand() -> None:
    """Pinwheel, counter-clockwise: south and east start free (1 outside), north and west start at their neighbour."""
    spans = {s.side: s for s in ring_spans((72, 36), 2, corners="pinwheel", through="long", proud=1)}
    assert (spans["south"].start_offset, spans["south"].end_offset) == (-1, 1)
    assert (spans["east"].start_offset, spans["east"].end_offset) == (-1, 1)
    assert (spans["north"].start_offset, spans["north"].end_offset) == (1, -1)
    assert (spans["west"].start_offset, spans["west"].end_offset) == (1, -1)


sizes = st.integers(40, 2000)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(
    st.tuples(sizes, sizes),
    st.integers(2, 19),
    st.integers(0, 1),
    st.sampled_from(["butt", "pinwheel"]),
    st.sampled_from(["long", "short"]),
    st.integers(1, 3),
)
def test_square_strips_tile_the_ring(
    size: tuple[int, int], w: int, p: int, corners: Any, through: Any, layers: int
) -> None:
    """No two strips overlap and together they are the whole ring: outer rectangle less inner rectangle."""
    spans = ring_spans(size, w, corners=corners, through=through, proud=p, layers=layers)
    assert len(spans) == 4 * layers
    for layer in range(1, layers + 1):
        laid = boxes(tuple(s for s in spans if s.layer == layer), size, w, p)
        assert len(laid) == 4
        assert all(overlap(laid[a], laid[b]) == 0 for a, b in product(laid, laid) if a < b)
        outer = (size[0] + 2 * p) * (size[1] + 2 * p)
        inner = (size[0] + 2 * p - 2 * w) * (size[1] + 2 * p - 2 * w)
        assert sum(area(box) for box in laid.values()) == outer - inner
    for s in spans:
        side = size[0] if s.side in ("north", "south") else size[1]
        assert s.start_offset + s.length + s.end_offset == side


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=100)
@given(
    st.tuples(sizes, sizes),
    st.integers(2, 19),
    st.sampled_from(["butt", "pinwheel"]),
    st.sampled_from(["long", "short"]),
)
def test_alternate_layers_have_no_joint_over_a_joint(
    size: tuple[int, int], w: int, corners: Any, through: Any
) -> None:
    """At each corner the joint lies across in one layer and along in the next."""
    spans = ring_spans(size, w, corners=corners, through=through, layers=2)
    one, two = ({s.side: s for s in spans if s.layer == n} for n in (1, 2))
    for name in one:
        assert one[name].start_offset != two[name].start_offset
        assert one[name].end_offset != two[name].end_offset
    same = ring_spans(size, w, corners=corners, through=through, layers=2, alternate=False)
    assert [(s.side, s.length) for s in same[:4]] == [(s.side, s.length) for s in same[4:]]
