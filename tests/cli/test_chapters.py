"""Sheets as data: main figures are high enough to be read from two metres, and stay as wide as the page allows."""

from __future__ import annotations

import pytest

from edgewright.cli.chapters import PAGES, chapter, figure_room, table

#: Height of a capital, of the size of the type: 1493 of 2048 units (read from the font).
CAPITAL = 1493 / 2048
POINT = 25.4 / 72


def caps(one: dict[str, object], column: int) -> float:
    sizes = one["sizes"]
    assert isinstance(sizes, list)
    return float(sizes[column]) * POINT * CAPITAL


@pytest.mark.example
@pytest.mark.parametrize("figure", ["2 in", "120 63/64 in", "12345.6 mm and more than any tape"])
def test_capitals_of_main_figures_are_at_least_7_mm_high(figure: str):
    one = table("t", "", ["cut", "keep", "words"], [["1", figure, "w"]], large=(0, 1))
    assert caps(one, 0) == caps(one, 1) >= 6.999
    assert one["sizes"][2] == 11.0


@pytest.mark.example
def test_short_figures_are_set_larger():
    short, long = (
        table("t", "", ["a", "b"], [[text, text]], large=(0, 1)) for text in ("2 in", "120 63/64 in")
    )
    assert caps(short, 0) > caps(long, 0)


@pytest.mark.example
def test_a_table_without_rows_is_left_out_and_a_sheet_without_anything_too():
    empty = table("t", "", ["a"], [])
    assert chapter("k", (), [empty]) == []
    (one,) = chapter("k", (), [empty, table("t", "", ["a"], [["x"]])])
    assert [t["rows"] for t in one["tables"]] == [[["x"]]]


@pytest.mark.example
@pytest.mark.parametrize("paper", PAGES)
def test_a_figure_gets_what_tables_leave_or_the_whole_page(paper: str):
    wide, high = PAGES[paper]
    few = table("t", "", ["a"], [["x"]] * 3, large=(0,))
    many = table("t", "", ["a"], [["x"]] * 30, large=(0,))
    assert figure_room(paper, [], 100.0) == (wide, high)
    assert 100 <= figure_room(paper, [few], 100.0)[1] < high
    assert figure_room(paper, [many], 100.0) == (wide, high)
