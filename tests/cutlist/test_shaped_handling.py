"""Findings 501 and 502 of shaped tops: what lies under the guide, by plain arithmetic."""

from __future__ import annotations

import pytest
from shaped_jobs import BOAT, SHAPES, shaped_plan

from edgewright.cutlist.shaped_handling import shaped_handling, skims
from edgewright.design.anytop.cut_records import cut_records

TAPERED = """
[job]
title = "Tapered desk"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "tapered"
length = 60
west_width = 32
east_width = 30
square_side = "south"
[trim]
parallel = {{edge = "north", to = "south", distance = {distance}}}
[saw]
{saw}
"""


def found(number: int, text: str):
    return [finding for finding in shaped_plan(text).findings if finding.number == number]


def tapered(saw: str, distance: int = 28):
    return TAPERED.format(saw=saw, distance=distance)


@pytest.mark.example
@pytest.mark.parametrize("name", SHAPES)
def test_the_examples_have_wood_under_the_guide(name: str):
    assert shaped_handling(shaped_plan(name).design) == ()


@pytest.mark.example
def test_a_guide_in_a_narrow_waste_stands_off_the_wood():
    plan = shaped_plan(BOAT + '[saw]\nguide_side = "waste"\n')
    (finding,) = [one for one in plan.findings if one.number == 502]
    assert (finding.severity, finding.place) == ("stop", "cuts 1, 2")
    # 1 in less the kerf of 1/8 in is left; the guide begins 4 1/2 in from the kerf
    assert finding.figures == (
        "cuts 1, 2: no wood under a guide 4 in wide, on the waste side: its edge lies 3 5/8 in off the panel"
    )
    assert "put the guide on the keep side" in finding.change
    assert not plan.ready


@pytest.mark.example
def test_the_narrow_end_of_a_tapered_waste_decides():
    # 30 - 28 = 2 in come off at the east, 4 in at the west; less the kerf and 1 1/4 in: 5/8 in at the east
    (finding,) = found(502, tapered('guide_side = "waste"\nshoe_side = "narrow"'))
    assert finding.figures == "cut 1, north: 5/8 in of wood under a guide 4 in wide, on the waste side"
    assert finding.severity == "stop"
    assert "narrow side of the shoe" not in finding.change
    # 12 in of 30 come off: 17 7/8 - ... of wood, enough
    assert found(502, tapered('guide_side = "waste"', 18)) == []


@pytest.mark.example
def test_half_the_guide_on_wood_is_a_warning():
    # 30 - 22 - 1/8 - 4 1/2 = 3 3/8 in under 4 in
    (finding,) = found(502, tapered('guide_side = "waste"', 22))
    assert finding.severity == "warn"
    assert finding.figures.startswith("cut 1, north: 3 3/8 in of wood")


@pytest.mark.example
def test_a_narrow_panel_is_not_held_by_hand():
    # 6 in left under the guide, 8 in are wanted; 6 - 4 1/2 = 1 1/2 in under the guide
    (held,) = found(501, tapered("", 6))
    assert held.severity == "stop"
    assert held.figures == "6 in of panel left under the guide, at least 8 in"
    (guide,) = found(502, tapered("", 6))
    assert guide.figures == "cut 1, north: 1 1/2 in of wood under a guide 4 in wide, on the keep side"
    assert found(501, tapered("", 8)) == []


@pytest.mark.example
def test_a_stop_is_taken_on_with_its_figures():
    text = tapered('guide_side = "waste"\nshoe_side = "narrow"')
    figures = "cut 1, north: 5/8 in of wood under a guide 4 in wide, on the waste side"
    plan = shaped_plan(
        f'{text}[[override]]\nfinding = 502\nfigures = "{figures}"\nreason = "packed up with wood"\n'
    )
    (finding,) = [one for one in plan.findings if one.number == 502]
    assert finding.overridden == "packed up with wood"
    assert plan.ready
    assert not [one for one in plan.findings if one.number in (901, 902)]


@pytest.mark.example
@pytest.mark.parametrize(("amount", "skim"), [("1/16", True), ("1/8", False), ("1/4", False)])
def test_less_than_the_kerf_skims(amount: str, skim: bool):
    text = TAPERED.split("[trim]")[0] + f'[trim.edges]\nsouth = "{amount}"\n'
    design = shaped_plan(text).design
    (record,) = cut_records(design.old, design.trims)
    assert skims(record) == skim
