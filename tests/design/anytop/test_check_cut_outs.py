"""Findings of cut-outs: 201, 202, 317 and 320."""

from __future__ import annotations

import pytest
from anytop_jobs import design

HOLE = '[[cut_out]]\nname = "sink"\nkind = "round"\nx = {x}\ny = 300\ndiameter = 200\nrouted = {routed}\n'
FLAT = 'build_up = "flat"\nstrip_width = 50\ntop_round_over = {size}\nbottom_round_over = 5\n'


def found(number: int, x: float = 500, routed: str = "false", size: float = 5, seam: str = ""):
    text = HOLE.format(x=x, routed=routed) + seam
    return [one for one in design(edge=FLAT.format(size=size), more=text).findings if one.number == number]


def seam(at: float) -> str:
    return f'[[top.seams]]\nat = {at}\nacross = "length"\n'


@pytest.mark.example
def test_202_a_routed_cut_out_has_only_the_top_layer_for_the_bearing() -> None:
    """Bearing 3/16 in, 4.7625 mm: 20 mm take a form of 15.2, while the rim of 40 takes 15.2 and 5 with ease."""
    assert found(202, routed="true", size=15.2) == []
    assert found(202, routed="false", size=15.3) == []
    (one,) = found(202, routed="true", size=15.3)
    assert (one.severity, one.place) == ("stop", "sink")
    assert "the edge of the cut-out is 20 mm" in one.figures
    assert "may be 15.2 mm deep" in one.change


@pytest.mark.example
def test_201_a_form_deeper_than_the_top_layer() -> None:
    (one,) = found(201, routed="true", size=20.5)
    assert (one.severity, one.place, one.overridable) == ("stop", "sink", False)
    assert found(201, routed="false", size=20.5) == []


@pytest.mark.example
@pytest.mark.parametrize(("x", "told"), [(150, False), (149, True)])
def test_317_a_cut_out_over_the_strips(x: float, told: bool) -> None:
    """A hole of radius 100 at 150 has 50 of wood beside it, as much as the strips are wide."""
    ends = found(317, x=x)
    assert [one.place for one in ends] == ["sink"] * told
    assert found(316, x=x) == []


@pytest.mark.example
@pytest.mark.parametrize(
    ("at", "figures"),
    [
        (500, ["a panel seam runs through it"]),
        (590, ["a panel seam runs through it"]),
        (650, ["50 mm from a panel seam, 76.2 mm is wanted"]),
        (676, ["76 mm from a panel seam, 76.2 mm is wanted"]),
        (677, []),
        (300, []),
    ],
)
def test_320_a_panel_seam_at_a_cut_out(at: float, figures: list[str]) -> None:
    """A hole of radius 100 about 500; 3 in of wood between it and a seam."""
    told = found(320, seam=seam(at))
    assert [one.figures for one in told] == figures
    assert {(one.severity, one.place) for one in told} <= {("warn", "sink")}
