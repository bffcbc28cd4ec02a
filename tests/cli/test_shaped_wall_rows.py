"""Main figures of the cut sheet: keep line and guide from one edge, so that they add up with offset and kerf."""

from __future__ import annotations

import pytest
from new_top_jobs import new_shape, planned
from shaped_jobs import FOLDER, SHAPES, shaped_plan

from edgewright.cli.shaped_cut_rows import cut_rows
from edgewright.cli.shaped_wall_rows import guide_note, radius_rows, wall_cut_rows, wall_guide_rows


def job(name: str, saw: str) -> str:
    return (FOLDER / f"{name}.toml").read_text(encoding="utf-8") + f"\n{saw}\n"


@pytest.mark.example
def test_guide_of_a_cut_from_an_edge_that_stays():
    # 28 1/4 in from the south, the guide 4 1/2 in nearer to it
    ((number, keep, guide, words),) = wall_cut_rows(shaped_plan("tapered"))
    assert (number, keep, guide) == ("1", "28 1/4 in", "23 3/4 in")
    assert "from south, at both ends" in words
    assert "28 1/4 in" not in words.partition("Ends:")[0]


@pytest.mark.example
def test_guide_of_a_cut_measured_in_from_the_edge_that_comes_off():
    # 2 in off, the guide on the wood that stays 4 1/2 in further in
    assert [row[1:3] for row in wall_cut_rows(shaped_plan("boat"))] == [["2 in", "6 1/2 in"]] * 2


@pytest.mark.example
def test_guide_on_the_waste_side_lies_beyond_kerf_and_offset():
    waste = '[saw]\nguide_side = "waste"\nkerf = "1/8 in"\nguide_offset_wide = "4 1/2 in"'
    # 28 1/4 + 1/8 + 4 1/2
    plan = shaped_plan(job("tapered", waste))
    assert wall_cut_rows(plan)[0][1:3] == ["28 1/4 in", "32 7/8 in"]
    assert "GUIDE ON THE WASTE SIDE" in guide_note(plan)
    # 2 in in from the old end, less 4 5/8 in: beside the wood
    assert wall_cut_rows(shaped_plan(job("boat", waste)))[0][1:3] == ["2 in", "2 5/8 in outside"]


@pytest.mark.property
@pytest.mark.parametrize("name", SHAPES)
def test_every_cut_has_a_row_with_all_that_the_list_says(name: str):
    plan = shaped_plan(name)
    rows = wall_cut_rows(plan)
    assert [row[0] for row in rows] == [str(n) for n in range(1, len(plan.design.trims.cuts) + 1)]
    for (_, _, _, words), (cut, _, ends, off) in zip(rows, cut_rows(plan), strict=True):
        assert words.startswith(f"{cut}: ")
        assert ends in words
        assert words.endswith(f"Comes off: {off}.")


@pytest.mark.example
def test_radii_of_a_trammel():
    # finished R 19 in; a cutter of 1/2 in runs outside
    assert radius_rows(shaped_plan("racetrack"))[0] == ["R 19 in", "19 in", "19 1/4 in"]
    assert radius_rows(shaped_plan("ellipse")) == []


@pytest.mark.example
def test_a_new_top_is_sawn_free_by_two_figures_and_the_words_to_them():
    rows = wall_guide_rows(planned(new_shape()))
    assert rows
    for keep, guide, words in rows:
        assert keep.endswith("in")
        assert guide.endswith("in")
        assert "Measured from the" in words
        assert "guide on the" in words
