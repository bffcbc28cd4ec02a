from __future__ import annotations

from fractions import Fraction
from itertools import pairwise, product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from strip_cases import INCH

from edgewright.compass import OPPOSITE, SIDES, PerSide, Side
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan, SawCut
from edgewright.cutlist.saw import cut_order
from edgewright.design.build import build_design
from edgewright.display import shown_run
from edgewright.jobfile import parse_job

Plans = tuple[CutPlan, dict[str, Any]]


def make(trims: dict[str, str], *, units: str = "in", **keys: str) -> CutPlan:
    lines = "\n".join(f'{side} = "{amount}"' for side, amount in trims.items())
    return make_cut_plan(
        build_design(
            parse_job(
                f"""
                [job]
                title = "saw"
                units = "{units}"
                [top]
                length = "{keys.get("length", "80 in")}"
                width = "{keys.get("width", "50 in")}"
                thickness = "23/32 in"
                material = "plywood"
                [trim]
                {lines}
                [edge]
                strip_width = "{keys.get("strip", "1 1/2 in")}"
                [saw]
                kerf = "{keys.get("kerf", "1/8 in")}"
                guide_side = "{keys.get("guide", "keep")}"
                shoe_side = "{keys.get("shoe", "wide")}"
                [[stock]]
                name = "plenty"
                length = "96 in"
                width = "12 in"
                thickness = "23/32 in"
                """
            )
        )
    )


def on_the_panel(plan: CutPlan, cut: SawCut, position: int) -> int:
    """A position from the cut's datum as distance from the old west or south edge.

    The datum edge lies where the cuts before it left it: at its old place, or at the keep line it got itself.
    """
    size = plan.old_ticks[0] if cut.side in ("east", "west") else plan.old_ticks[1]
    if cut.side in ("north", "east"):
        return position  # these are cut first, from the old south or west edge
    fresh = [c.keep_ticks for c in plan.cuts if c.side == OPPOSITE[cut.side]]
    edge = fresh[-1] if fresh else size
    return edge - position


@pytest.mark.example
@pytest.mark.parametrize(
    ("guide", "shoe", "side"), list(product(("keep", "waste"), ("wide", "narrow"), SIDES))
)
def test_guide_and_kerf_on_each_side(guide: str, shoe: str, side: Side) -> None:
    """Guide to the near side of the kerf is one figure; the kerf lies outside the keep line, on the waste."""
    plan = make({side: "4 in"}, guide=guide, shoe=shoe)
    offset = {"wide": 36576, "narrow": 10160}[shoe]  # 4 1/2 and 1 1/4 in
    outward = 1 if side in ("north", "east") else -1
    assert plan.cuts
    for cut in plan.cuts:
        keep, far, clamp = (
            on_the_panel(plan, cut, at) for at in (cut.keep_ticks, cut.kerf_end_ticks, cut.guide_ticks)
        )
        assert (far - keep) * outward == 1016
        near, guide_lies = (keep, -outward) if guide == "keep" else (far, outward)
        assert (clamp - near) * guide_lies == offset
        assert (cut.guide_side, cut.guide_offset_ticks) == (guide, offset)
    last = on_the_panel(plan, plan.cuts[-1], plan.cuts[-1].keep_ticks)
    size = plan.old_ticks[0] if side in ("east", "west") else plan.old_ticks[1]
    assert last == (size - 4 * INCH if outward == 1 else 4 * INCH)


@pytest.mark.example
def test_the_offcut_is_the_amount_less_the_kerf() -> None:
    for side in SIDES:
        (cut,) = make({side: "1 in"}).cuts
        assert cut.offcut_width_ticks == INCH - 1016
        assert cut.yields == f"rest of offcut {side}"


@pytest.mark.example
def test_rips_along_the_longer_extent_come_first() -> None:
    every = PerSide(INCH, INCH, INCH, INCH)
    assert cut_order((80, 50), every) == ("north", "south", "east", "west")
    assert cut_order((50, 80), every) == ("east", "west", "north", "south")
    # of each axis the high side first, if it is cut at all
    assert cut_order((80, 50), PerSide(1, 0, 1, 0)) == ("north", "south")
    assert cut_order((80, 50), PerSide(0, 0, 1, 0)) == ("south",)
    assert cut_order((80, 50), PerSide(0, 1, 0, 0)) == ("east",)
    assert cut_order((80, 50), PerSide(0, 0, 0, 0)) == ()
    assert cut_order((80, 50), PerSide(0, INCH, INCH, 0)) == ("south", "east")
    plan = make({"north": "4 in", "east": "4 in", "west": "2 in"})
    kinds = [cut.kind for cut in plan.cuts]
    assert kinds == sorted(kinds, reverse=True)  # "rip" before "crosscut"
    rips = [cut for cut in plan.cuts if cut.kind == "rip"]
    cross = [cut for cut in plan.cuts if cut.kind == "crosscut"]
    assert {cut.offcut_length_ticks for cut in rips} == {80 * INCH}
    assert {cut.offcut_length_ticks for cut in cross} == {46 * INCH}  # 50 - 4


@pytest.mark.example
def test_the_datum_hands_over_to_the_fresh_edge() -> None:
    plan = make({"north": "3 in", "south": "5 in"})
    data = {(cut.side, cut.datum, cut.datum_edge) for cut in plan.cuts}
    assert data == {("north", "south", "old"), ("south", "north", "fresh")}
    south = [cut for cut in plan.cuts if cut.side == "south"]
    assert south[0].panel_before_ticks == 47 * INCH
    assert south[-1].keep_ticks == 42 * INCH


def figure(text: str) -> Fraction:
    """What a reader takes a printed figure for: ``41 5/8`` or ``40.3``."""
    return sum((Fraction(part) for part in text.split()), Fraction(0))


sizes = st.integers(0, 39)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(
    st.sampled_from(["in", "mm"]),
    st.tuples(sizes, sizes, sizes, sizes),
    st.sampled_from(["1/8 in", "3/32 in", "2.2 mm", "3.1 mm", "0.107 in"]),
    st.sampled_from(["keep", "waste"]),
)
def test_printed_strips_and_kerfs_add_up_to_the_printed_panel(
    units: Any, odd: tuple[int, int, int, int], kerf: str, guide: str
) -> None:
    """Read back from print: keep, kerf, strip, kerf, strip ... sum to the panel; an offcut is amount less kerf."""
    if units == "in":
        length, width = f"{72 + odd[0] / 64} in", f"{42 + odd[1] / 64} in"
        trims = {"north": f"{3 + odd[2] / 16} in", "south": f"{2 + odd[3] / 16} in", "east": "1.5 in"}
        strip = "1 in"
    else:
        length, width = f"{1830 + odd[0] / 10} mm", f"{1060 + odd[1] / 10} mm"
        trims = {"north": f"{75 + odd[2] / 2} mm", "south": f"{51 + odd[3] / 2} mm", "east": "38 mm"}
        strip = "25 mm"
    plan = make(trims, units=units, length=length, width=width, kerf=kerf, guide=guide, strip=strip)
    for side in ("north", "south", "east"):
        cuts = [cut for cut in plan.cuts if cut.side == side]
        # the blade of a skim cut runs partly beside the panel
        panel = cuts[0].panel_before_ticks
        positions = [
            0,
            *sorted(min(at, panel) for c in cuts for at in (c.keep_ticks, c.kerf_end_ticks)),
            panel,
        ]
        places, widths = shown_run(positions, units, unit=False)
        assert sum(map(figure, widths)) == figure(places[-1])
        for (a, b), shown in zip(pairwise(map(figure, places)), widths, strict=True):
            assert b - a == figure(shown)
        for cut in cuts:
            off = cut.panel_before_ticks - plan.rules.kerf_ticks - cut.keep_ticks
            assert cut.offcut_width_ticks == max(0, off)
