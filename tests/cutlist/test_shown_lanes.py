"""A lane as it is shown adds up, and no piece reads otherwise than alone."""

from itertools import accumulate, pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.shown_lanes import kerf_words, shown_parts
from edgewright.display import fitted_run, show_ticks, shown_ticks
from edgewright.units import read_length

UNITS = st.sampled_from(["in", "mm"])


def mm(text):
    return read_length(text.removeprefix("~")).exact_mm


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    st.lists(st.integers(60_000, 300_000), min_size=1, max_size=12),
    st.integers(160, 2048),
    st.one_of(st.just(0), st.integers(1, 40_000)),
    UNITS,
)
def test_pieces_kerfs_and_rest_are_the_lane(sizes, kerf, left, units):
    starts = list(accumulate((size + kerf for size in sizes[:-1]), initial=0))
    ends = [(f"N{n}", at, at + size) for n, (at, size) in enumerate(zip(starts, sizes, strict=True))]
    length = ends[-1][2] + left
    parts = shown_parts(ends, length, kerf, units).parts
    assert sum(mm(part.text(units)) for part in parts) == mm(show_ticks(length, units))
    assert (parts[0].shown_start, parts[-1].shown_end) == (0, shown_ticks(length, units))
    for before, after in pairwise(parts):
        assert before.shown_end == after.shown_start
    named = [part for part in parts if part.name.startswith("N")]
    assert [part.text(units) for part in named] == [show_ticks(size, units) for size in sizes]
    assert [part.name for part in parts if part.name == "rest"] == ["rest"] * (left > kerf)
    # what is shown stays within a step and a half of what is
    step = 127 if units == "in" else 32
    for part in parts:
        assert part.shown_end >= part.shown_start
        assert abs(part.shown_start - part.start) <= 1.5 * step
        assert abs(part.shown_end - part.end) <= 1.5 * step


@pytest.mark.example
def test_kerfs_take_up_the_rounding_and_say_so():
    # three pieces of 20 in and kerfs of 0.1 in = 813 ticks = 6.4/64 in: starts at 0, 20.1 and 40.2 in = 40 12.8/64
    inch = 8128
    ends = [
        ("a", 0, 20 * inch),
        ("b", 20 * inch + 813, 40 * inch + 813),
        ("c", 40 * inch + 1626, 60 * inch + 1626),
    ]
    shown = shown_parts(ends, 72 * inch, 813, "in")
    assert [part.text("in") for part in shown.parts] == [
        *("20 in", "~3/32 in", "20 in", "~7/64 in", "20 in", "~3/32 in", "~11 45/64 in"),
    ]
    assert shown.part("c").end_text("in") == "~60 13/64 in"
    assert kerf_words(shown, 813, "in") == ("kerfs read ~3/32 in, ~7/64 in, ~3/32 in here",)
    # an eighth can be written, so nothing needs to be said
    even = shown_parts([("a", 0, inch), ("b", inch + 1016, 2 * inch)], 4 * inch, 1016, "in")
    assert kerf_words(even, 1016, "in") == ()
    with pytest.raises(KeyError):
        even.part("z")


@pytest.mark.example
def test_nested_mitres_begin_where_they_do_and_keep_their_length():
    # b begins before a ends: both share a slanting cut
    shown = shown_parts([("a", 0, 10_000), ("b", 9_000, 20_001)], 30_000, 1016, "mm")
    assert shown.nested
    assert [part.name for part in shown.parts] == ["a", "b", "kerf", "rest"]
    b, rest = shown.part("b"), shown.rest
    assert b.text("mm") == show_ticks(11_001, "mm")
    assert rest.shown_start == b.shown_end + 1016
    assert rest.shown_end == 30_000


@pytest.mark.example
def test_a_run_that_is_kept_whole_and_one_without_end():
    # 1/3 in = 2709 ticks reads ~21/64: three of them read 63/64, for each is kept
    assert fitted_run([0, 2709, 5418, 8127], (True,) * 3, "in") == [0, 21 * 127, 42 * 127, 63 * 127]
    assert fitted_run([5], (), "mm") == [0]
    assert fitted_run([], (), "mm") == []
    with pytest.raises(ValueError, match="ascend"):
        fitted_run([5, 4], (True,), "in")
