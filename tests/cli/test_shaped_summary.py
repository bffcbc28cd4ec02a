"""The summary of a shaped top keeps to the screen's width, in plain figures."""

from __future__ import annotations

import re

import pytest
from shaped_jobs import BOAT, SHAPES, STOPPED, shaped_plan

from edgewright.cli.shaped_summary import shaped_summary


@pytest.mark.example
@pytest.mark.parametrize("width", [60, 80, 100])
@pytest.mark.parametrize("name", [*SHAPES, STOPPED])
def test_no_line_is_wider_than_the_screen_and_no_figure_is_in_powers_of_ten(name: str, width: int):
    lines = shaped_summary(shaped_plan(name), width).splitlines()
    assert [line for line in lines if len(line) > width] == []
    assert not re.search(r"\de[+-]\d|-0\.0\b", "\n".join(lines))


@pytest.mark.example
def test_cuts_cut_outs_and_pieces_are_told():
    text = " ".join(shaped_summary(shaped_plan("l_counter"), 100).split())
    assert (
        "1 long leg end: keep line 1/2 in square in from the old edge; its ends on the rim: 1/2 in on" in text
    )
    assert "basin: round, 15 1/2 in across" in text
    assert "hatch: 10 in x 14 in, corners R 3/4 in" in text
    assert "kerf 1/8 in" in text


@pytest.mark.example
def test_stations_are_said_to_stand_in_the_packet():
    text = " ".join(shaped_summary(shaped_plan(BOAT), 100).split())
    assert "draw it by the offsets in packet.pdf" in text
    assert "below" not in text.split("ROUTED TO SIZE")[1].split("OFFCUTS")[0]


@pytest.mark.example
def test_a_plan_that_is_not_ready_tells_no_cut():
    text = shaped_summary(shaped_plan(STOPPED), 80)
    assert "NOT FOR CUTTING" in text
    for words in ("SAW CUTS", "ROUTED TO SIZE", "BUILD-UP, TO BE", "ROUTER PASSES", "trammel"):
        assert words not in text


@pytest.mark.example
def test_edges_of_one_live_edge_are_one_line():
    assert (
        "station" not in shaped_summary(shaped_plan("live_edge"), 80).split("EDGES")[1].split("SAW CUTS")[0]
    )
