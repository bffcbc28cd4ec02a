"""A new top and its build-up from sheets: worked by hand, checked independently, and no worse with more stock."""

from __future__ import annotations

import copy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from new_top_jobs import INCH, RACETRACK, SHEET, new_shape, new_top, planned
from stock_jobs import board

from edgewright.cutlist.check_guillotine import check_guillotine
from edgewright.cutlist.check_sheets import check_sheets
from edgewright.cutlist.new_top_cuts import guide_cuts
from edgewright.cutlist.new_top_proof import sheets_plain
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips

HALF = board("half", "48 in", "48 in", "35")
STRIP = "[edge]\nstrip_width = 2\n"


def stops(plan):
    return {f.number: f.figures for f in plan.findings if f.severity == "stop"}


def cut_of(plan):
    return {one.piece_id: one for one in plan.build_up.cut}


def stages(plan):
    return {stage.name: stage for stage in plan.build_up.layout.plan.stages}


@pytest.mark.example
def test_a_top_and_its_strips_from_one_sheet():
    plan = planned(new_top(60, 30, rest=STRIP, stock=SHEET + HALF))
    assert plan.ready
    # the half sheet is cheaper, but 48 in are too short for 60: no plan costs less than one sheet
    cost = stages(plan)["new material cost"]
    assert (cost.value, cost.bound, cost.proven) == (6000, 6000, True)
    assert {one.stock_id for one in plan.build_up.cut} == {"board 1"}
    top = cut_of(plan)["top"]
    assert (top.length, top.width, top.start) == (60 * INCH, 30 * INCH, 0)
    # 48 - 30 - 3 kerfs of 1/8 in - 2 lanes of 2 in stay beside: 13 5/8 in by 96 in
    assert stages(plan)["largest remnant"].value == 96 * INCH * 13.625 * INCH
    assert plan.build_up.to_buy == ()
    assert set(cut_of(plan)) == {"top", "1.1", "1.2", "1.3", "1.4"}


@pytest.mark.example
def test_the_guide_frees_the_top_and_positions_add_up_with_the_kerfs():
    plan = planned(new_top(60, 30, rest=STRIP))
    rip, crosscut = guide_cuts(plan.build_up, plan.job.saw)
    # kerf 1/8 in, guide 4 1/2 in from the keep line on the keep side
    assert (rip.way, rip.keep, rip.kerf_end, rip.guide) == ("rip", 30 * INCH, 30.125 * INCH, 25.5 * INCH)
    assert (rip.before, rip.across, rip.guide_side) == (48 * INCH, 96 * INCH, "keep")
    assert (crosscut.way, crosscut.keep, crosscut.kerf_end) == ("crosscut", 60 * INCH, 60.125 * INCH)
    assert (crosscut.before, crosscut.across, crosscut.gives) == (96 * INCH, 30 * INCH, ("top",))
    # neither the fence nor a stop is set for the top
    assert all(round(rip.fence_ticks / INCH, 3) == 2 for rip in build_up_rips(plan.build_up))
    assert "top" not in {cut.piece_id for cut in build_up_crosscuts(plan.build_up)}


@pytest.mark.example
def test_a_narrow_part_of_the_tops_lane_is_cut_with_the_guide_on_the_wide_side():
    """Grain along the length: the ends' strips lie across the sheet, in the lane of the top where it is as wide."""
    text = new_top(60, 26, top='material = "solid wood"\ngrain = "length"', rest="[edge]\nstrip_width = 2\ncorners = "
                   '"mitre"\n', stock=board("slab", "96 in", "33 in", "80"))  # fmt: skip
    plan = planned(text)
    cuts = guide_cuts(plan.build_up, plan.job.saw)
    narrow = [cut for cut in cuts if cut.keep <= 2 * INCH]
    assert narrow
    for cut in narrow:
        assert cut.guide_side == "waste"
        assert cut.guide == cut.kerf_end + 4.5 * INCH


@pytest.mark.example
def test_a_sheet_listed_the_other_way_round_is_ripped_across():
    plan = planned(new_top(90, 40, rest=STRIP, stock=board("sheet", "48 in", "96 in", "60")))
    assert plan.ready
    assert {layout.first for layout in plan.build_up.layout.plan.layouts} == {"width"}


@pytest.mark.example
def test_a_top_that_no_sheet_holds_is_a_stop_that_says_what_is_missing():
    plan = planned(new_top(100, 30))
    assert stops(plan) == {324: "the largest sheet is 96 in × 48 in, the top needs 100 in × 30 in"}
    assert not plan.ready
    # 96 by 48 is held exactly, 96 1/64 is not
    assert not stops(planned(new_top(96, 48)))
    assert 324 in stops(planned(new_top('"96 1/64 in"', 48)))


@pytest.mark.example
def test_sheets_must_be_as_thick_of_the_material_and_without_defects():
    needs = "the top needs 60 in × 30 in"
    thin = SHEET.replace('"3/4"', '"1/2"')
    other = SHEET + 'material = "mdf"\n'
    for stock, listed in ((thin, "1 listed"), (other, "1 listed"), ("", "nothing is listed")):
        plan = planned(new_top(stock=stock))
        assert stops(plan) == {324: f"no plywood 3/4 in thick ({listed} under [[stock]]), {needs}"}
    knot = 'count = 1\ndefects = [{name = "knot", along = [10, 12]}]\n'
    plan = planned(new_top(stock=SHEET + knot))
    assert stops(plan) == {324: f"only boards with defects are as thick, {needs}"}
    assert [f.figures for f in plan.findings if f.number == 325] == ["sheet"]


@pytest.mark.example
def test_a_board_with_defects_beside_a_clean_one_is_left_out_and_named():
    """A board with a knot was once cut as if it were clean."""
    plan = planned(new_top(stock=SHEET + HALF + 'count = 1\ndefects = [{name = "knot", along = [10, 12]}]\n'))
    assert plan.ready
    assert [f.figures for f in plan.findings if f.number == 325] == ["half"]
    assert {one.stock_id for one in plan.build_up.cut} == {"board 1"}


@pytest.mark.example
def test_neither_the_order_of_the_stock_nor_the_unit_changes_what_is_cut():
    def told(text):
        plan = planned(text)
        found = sorted(
            (one.piece_id, one.length, one.width, one.lane, one.start) for one in plan.build_up.cut
        )
        return plan.build_up.cost_cents, [stage.value for stage in plan.build_up.layout.plan.stages], found

    first = told(new_top(60, 30, rest=STRIP, stock=SHEET + HALF))
    assert told(new_top(60, 30, rest=STRIP, stock=HALF + SHEET)) == first
    assert told(new_top('"1524 mm"', '"762 mm"', rest=STRIP, stock=SHEET + HALF)) == first


@pytest.mark.example
def test_grain_that_is_stated_is_kept():
    # 60 by 40 with the grain across: it would lie 40 along the sheet and 60 across, which is 48 wide
    assert not stops(planned(new_top(60, 40)))
    (said,) = stops(planned(new_top(60, 40, top='grain = "width"'))).values()
    assert said.endswith("not with its grain the right way")
    plan = planned(new_top(40, 60, top='grain = "width"', rest=STRIP))
    assert plan.ready
    made = sheets_plain(plan.design, plan.build_up)
    assert made["parts"][0]["grain"] == "width"


@pytest.mark.example
def test_strips_longer_than_what_is_left_are_spliced():
    """The one long sheet is the top; the strips come from half sheets of 48 in, two pieces to a long side."""
    plan = planned(new_top(96, 48, rest=STRIP, stock=SHEET + "count = 1\n" + HALF))
    assert plan.ready
    assert plan.build_up.to_buy == ()
    assert {one.stock_id for one in plan.build_up.cut if one.piece_id != "top"} == {"board 2"}
    assert max(one.length for one in plan.build_up.cut if one.piece_id != "top") == 48 * INCH
    # 60 and 35: two sheets of 60 would do without splices, but cost more, and there is one
    assert plan.build_up.cost_cents == 9500


@pytest.mark.example
def test_what_comes_off_the_blank_feeds_the_ring():
    """The hollow of an L is wood of its own: what is cut from it is no part of a sheet."""
    plan = planned(
        new_shape(
            '[top.outline]\nshape = "l_counter"\nlong_leg = 80\nshort_leg = 40\nlong_depth = 24\nshort_depth = 24\n'
            'hand = "left"\n'
        )
    )
    assert plan.ready
    assert any(one.stock_id.startswith("own") for one in plan.build_up.cut)
    assert not check_sheets(sheets_plain(plan.design, plan.build_up))


JOBS = {
    "one sheet": new_top(60, 30, rest=STRIP),
    "two layers": new_top(60, 30, rest='[edge]\nlayers = 2\ncorners = "mitre"\n'),
    "racetrack": new_shape(RACETRACK, top='oversize = "1/4"'),
    "spliced": new_top(96, 48, rest=STRIP, stock=SHEET + "count = 1\n" + HALF),
    "bare": new_top(60, 30, rest='[edge]\nbuild_up = "none"\ntop_round_over = "1/8"\nbottom_round_over = "1/8"\n'),
    "across": new_top(90, 40, rest=STRIP, stock=board("sheet", "48 in", "96 in", "60")),
    "short of strips": new_top(96, 46, rest=STRIP, stock=SHEET + "count = 1\n"),
}  # fmt: skip


@pytest.mark.parametrize("name", JOBS)
def test_both_checkers_accept_what_is_planned(name):
    plan = planned(JOBS[name])
    assert plan.ready
    assert not check_guillotine(plan.build_up.layout.plain)
    made = sheets_plain(plan.design, plan.build_up)
    assert not check_sheets(made)
    assert len(made["parts"]) == 1 + len(plan.design.pieces)


def planted(name):
    """A sound plan as plain data, with one fault in it."""
    made = copy.deepcopy(sheets_plain(*_parts()))
    match name:
        case "part cut twice":
            made["cut"].append(copy.deepcopy(made["cut"][1]))
        case "demand not met":
            made["cut"].pop()
        case "blank too small":
            made["parts"][0]["length"] += 1
        case "part lies nowhere":
            made["cut"][0]["start"] += 1
        case "wrong size":
            made["cut"][0]["length"] -= 1
        case "wrong blank":
            made["cut"][0]["piece_id"], made["cut"][1]["piece_id"] = "1.1", "top"
        case "wrong count":
            made["wanted"][0]["count"] = 2
        case "part wanted twice":
            made["wanted"][1]["pieces"].append("top")
        case "unknown part":
            made["parts"].pop(0)
        case "part listed twice":
            made["parts"].append(made["parts"][0])
        case "wrong grain":
            made["parts"][0]["grain"] = "length"
        case "across the grain":
            for table in (made["parts"][0], made["wanted"][0]):
                table["grain"] = "width"
        case "blank of no part":
            made["cut"].pop(0)
    return made


def _parts():
    plan = planned(JOBS["one sheet"])
    return plan.design, plan.build_up


@pytest.mark.parametrize(
    "name",
    [
        "part cut twice",
        "demand not met",
        "blank too small",
        "part lies nowhere",
        "wrong size",
        "wrong blank",
        "wrong count",
        "part wanted twice",
        "unknown part",
        "part listed twice",
        "wrong grain",
        "across the grain",
        "blank of no part",
    ],
)
def test_a_planted_fault_is_found(name):
    assert name in {fault.name for fault in check_sheets(planted(name))}


SIZES = st.integers(12, 48)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=8)
@given(
    length=SIZES,
    width=SIZES,
    wide=st.integers(12, 60),
    long=st.integers(48, 96),
    strip=st.sampled_from((1, 2, 3)),
)
def test_more_stock_never_costs_more_and_every_plan_is_sound(length, width, wide, long, strip):
    edge = f'[edge]\nstrip_width = {strip}\ntop_round_over = "1/8"\nbottom_round_over = "1/8"\n'
    one, two = board("one", f"{long} in", f"{wide} in", "40"), board("two", "96 in", "60 in", "70")
    few, more = (planned(new_top(length, width, rest=edge, stock=stock)) for stock in (one, one + two))
    held = 324 not in stops(few)
    sides = sorted((length, width))
    assert 324 not in stops(more)
    assert held == all(a <= b for a, b in zip(sides, sorted((long, wide)), strict=True))
    for plan in (few, more) if held else (more,):
        assert not check_sheets(sheets_plain(plan.design, plan.build_up))
        cost = stages(plan)["new material cost"]
        assert cost.bound is None or cost.bound <= cost.value
    if held and not few.build_up.to_buy:
        assert more.build_up.cost_cents <= few.build_up.cost_cents
