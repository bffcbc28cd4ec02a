"""Findings 501 to 504: what holds the guide and what holds the wood."""

import pytest

from edgewright.cutlist.bench_cuts import CLAMPED, CrossCut, FenceRip
from edgewright.cutlist.check_handling import handling_findings
from edgewright.cutlist.model import SawCut
from edgewright.job import Saw

INCH = 8128


def saw(units="in", **keys):
    return Saw.model_validate(keys, context={"unit": units})


def cut(number, keep, before, tool):
    """Return a cut of a panel, in inches, with its guide where the saw says."""
    offset, kerf = tool.guide_offset.mm / 25.4, tool.kerf.mm / 25.4
    guide = keep - offset if tool.guide_side == "keep" else keep + kerf + offset
    ticks = [round(inches * INCH) for inches in (keep, keep + kerf, offset, guide, before)]
    return SawCut(
        number, "rip", "north", "south", "old", ticks[0], ticks[1], tool.guide_side, ticks[2], ticks[3], ticks[4],
        0, 0, None,
    )  # fmt: skip


def found(number, tool, *places, units="in"):
    cuts = [cut(n, keep, before, tool) for n, (keep, before) in enumerate(places, 1)]
    return [f for f in handling_findings(cuts, [], [], tool, units) if f.number == number]


@pytest.mark.example
def test_guide_with_wood_under_all_of_it_passes():
    # 12 - 4-1/2 = 7-1/2 in of wood under 4 in of guide
    assert found(502, saw(), (12, 20)) == []
    # 8-1/2 - 4-1/2 = 4 in: just enough
    assert found(502, saw(), (8.5, 20)) == []


@pytest.mark.example
def test_cuts_alike_are_one_finding_that_names_them():
    # waste side, narrow: 2 in from keep line to edge, less 1/8 and 1-1/4: 5/8 in of wood
    tool = saw(guide_side="waste", shoe_side="narrow")
    (finding,) = found(502, tool, (40, 42), (38, 40), (36, 38))
    assert (finding.severity, finding.place) == ("stop", "cuts 1 to 3")
    assert finding.figures == "cuts 1 to 3: 5/8 in of wood under a guide 4 in wide, on the waste side"
    # what is set already is not advised; with the guide on the keep side there is wood enough
    assert "narrow side of the shoe" not in finding.change
    assert "put the guide on the keep side" in finding.change


@pytest.mark.example
def test_many_cuts_still_fit_an_override():
    # figures of an override may be 500 characters long
    tool = saw(guide_side="waste", shoe_side="narrow")
    alike, other = (40, 42), (38, 41)
    places = [alike, alike, other, alike, other] + [alike] * 300
    found_ = {f.place: f for f in found(502, tool, *places)}
    assert set(found_) == {"cuts 1, 2, 4, 6 to 305", "cuts 3, 5"}
    assert all(len(f.figures) <= 500 for f in found_.values())


@pytest.mark.example
def test_other_figures_are_another_finding():
    tool = saw(guide_side="waste", shoe_side="narrow", guide_width=2)
    found_ = found(502, tool, (40, 43), (37, 40), (35, 37))
    assert [(f.severity, f.place) for f in found_] == [("warn", "cuts 1, 2"), ("stop", "cut 3")]


@pytest.mark.example
def test_on_the_keep_side_only_what_helps_is_advised():
    # 7 in panel: 2-1/2 in under the wide side of the shoe, 5-3/4 under the narrow
    (finding,) = found(502, saw(), (7, 13))
    assert "put the guide on the keep side" not in finding.change
    assert "use the narrow side of the shoe" in finding.change
    (finding,) = found(502, saw(shoe_side="narrow"), (4, 13))
    assert finding.change == "pack up with wood of equal thickness"


@pytest.mark.example
def test_a_guide_beside_the_panel_has_no_wood_under_it():
    # keep line 40, kerf 1/8, offset 4-1/2: 44-5/8 in on a panel of 42
    (finding,) = found(502, saw(guide_side="waste"), (40, 42))
    assert finding.severity == "stop"
    assert finding.figures == (
        "cut 1: no wood under a guide 4 in wide, on the waste side: its edge lies 2 5/8 in off the panel"
    )


@pytest.mark.example
def test_narrow_panel_shows_a_bound_that_holds():
    (finding,) = found(501, saw(), (7, 13))
    assert finding.figures == "7 in of panel left under the guide, at least 8 in"
    # 8 in is 203.2 mm
    (finding,) = found(501, saw("mm", kerf=3), (7, 13), units="mm")
    assert finding.figures == "177.8 mm of panel left under the guide, at least 204 mm"


@pytest.mark.example
def test_trade_limits_in_whole_millimetres():
    rips = [FenceRip("board", "lane", 15 * 320, 200 * 320, "held")]
    short = [CrossCut("lane", "N1", 0, 150 * 320, "square", "end", False, "", CLAMPED)]
    fence, crosscut = handling_findings([], rips, short, saw(), "mm")
    assert fence.figures.endswith("at least 20 mm wide and 305 mm long")
    assert crosscut.figures == "shortest 150 mm, by hand only from 305 mm"
