"""Wrapping, labelled rows and figures that add up."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cli.text import paragraph, rows, screen_width, ticks_in_words
from edgewright.display import marked_run
from edgewright.units import read_length


@pytest.mark.parametrize(
    ("columns", "width"), [("1", 40), ("40", 40), ("72", 72), ("500", 100), ("x", 80), ("", 80)]
)
def test_screen_width(monkeypatch, columns, width):
    monkeypatch.setattr("sys.__stdout__", None)
    monkeypatch.setenv("COLUMNS", columns)
    assert screen_width() == width


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(
    st.integers(40, 100),
    st.lists(st.sampled_from(["keep", "line", "at", "1 27/32 in", "~3 mm", "8 fl oz", "2.40 in²"])),
)
def test_no_figure_is_parted_from_its_fraction_or_unit(width, words):
    lines = paragraph(" ".join(words), width, 2, 4)
    assert " ".join(line.strip() for line in lines) == " ".join(words)
    for line in lines:
        assert len(line) <= width
        assert not re.search(r"\d$", line)


def test_rows_are_aligned_and_wrap_in_their_column():
    assert rows([("a", "one two three four five six seven"), ("long", "x")], 28) == [
        "  a     one two three four",
        "        five six seven",
        "  long  x",
    ]


def test_long_labels_on_a_narrow_screen():
    assert rows([("top.finished_edge.north.depth", "given 10 mm")], 40) == [
        "  top.finished_edge.north.depth: given",
        "      10 mm",
    ]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.lists(st.integers(0, 900_000), min_size=2, max_size=6), st.sampled_from(["in", "mm"]))
def test_shown_widths_add_up_and_rounding_is_marked(numbers, units):
    positions = sorted(numbers)
    places, widths = marked_run(positions, units)
    mm = [read_length(text.lstrip("~")).exact_mm for text in places]
    assert sum(read_length(text.lstrip("~")).exact_mm for text in widths) == mm[-1] - mm[0]
    for text, ticks in zip(places, positions, strict=True):
        assert text.startswith("~") == (read_length(text.lstrip("~")).exact_mm * 320 != ticks)


def test_ticks_are_written_as_lengths():
    # 8128 ticks are 1 in, 320 are 1 mm
    assert ticks_in_words("2 strips hold at most 16256 ticks, 8128 of 12192 ticks", "in") == (
        "2 strips hold at most 2 in, 1 in of 1 1/2 in"
    )
    assert ticks_in_words("at most 320 ticks", "mm") == "at most 1 mm"
    assert ticks_in_words("no plan has fewer than none", "in") == "no plan has fewer than none"


def test_cents_are_written_as_a_price():
    assert ticks_in_words("for 905 cents there are 8128 ticks", "in") == "for 9.05 there are 1 in"
