"""Figures of one cut as they are shown: all of them add up, whichever side the guide is on and however odd they are."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.model import SawCut
from edgewright.cutlist.new_top_cuts import GuideCut
from edgewright.cutlist.shown_cuts import shown_cut
from edgewright.display import show_ticks
from edgewright.units import read_length

SIDES = st.sampled_from(["keep", "waste"])
UNITS = st.sampled_from(["in", "mm"])


def saw_cut(keep, kerf, offset, behind, side):
    end = keep + kerf
    return SawCut(
        number=1,
        kind="rip",
        side="north",
        datum="south",
        datum_edge="old",
        keep_ticks=keep,
        kerf_end_ticks=end,
        guide_side=side,
        guide_offset_ticks=offset,
        guide_ticks=keep - offset if side == "keep" else end + offset,
        panel_before_ticks=end + behind,
        offcut_width_ticks=max(behind, 0),
        offcut_length_ticks=8128,
        yields=None,
    )


def mm(text):
    return read_length(text.removeprefix("~")).exact_mm


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=300)
@given(
    st.integers(1, 400_000),
    st.integers(160, 2048),
    st.integers(1000, 60_000),
    st.integers(-1000, 90_000),
    SIDES,
    UNITS,
)
def test_keep_line_kerf_guide_and_offcut_add_up(keep, kerf, offset, behind, side, units):
    shown = shown_cut(saw_cut(keep, kerf, offset, behind, side), units)
    # the kerf, the offset and the panel read as they do alone, on the same sheets
    blade, away, wood = (mm(show_ticks(ticks, units)) for ticks in (kerf, offset, keep + kerf + behind))
    assert shown.keep == show_ticks(keep, units)
    assert mm(shown.keep) + blade == mm(shown.kerf_end)
    assert mm(shown.kerf) == blade
    assert mm(shown.guide) == (mm(shown.keep) - away if side == "keep" else mm(shown.kerf_end) + away)
    assert bool(shown.width) == (behind > 0)
    if behind > 0:
        assert mm(shown.width) == max(wood - mm(shown.kerf_end), 0)
    # half a step each for keep line, kerf and offset
    step = mm("1/64 in") if units == "in" else mm("0.1 mm")
    exact = (keep - offset if side == "keep" else keep + kerf + offset) / 320
    assert abs(float(mm(shown.guide)) - exact) <= 1.5 * float(step) + 1e-9
    assert shown.guide.startswith("~") == (float(mm(shown.guide)) != exact)


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.integers(20_000, 300_000), st.integers(160, 2048), st.integers(0, 90_000), SIDES, UNITS)
def test_a_cut_along_the_guide_that_runs_off_the_sheet(keep, kerf, left, side, units):
    offset, before = 9144, keep + left
    end = min(keep + kerf, before)
    guide = keep - offset if side == "keep" else end + offset
    cut = GuideCut("sheet", 1, "rip", ("top",), before, 8128, keep, end, guide, side)
    shown = shown_cut(cut, units)
    assert mm(shown.kerf_end) - mm(shown.keep) == mm(shown.kerf) == mm(show_ticks(end - keep, units))
    assert mm(shown.guide) == (
        mm(shown.keep) - mm(show_ticks(offset, units))
        if side == "keep"
        else mm(shown.kerf_end) + mm(show_ticks(offset, units))
    )


@pytest.mark.example
def test_an_odd_kerf_at_an_odd_keep_line():
    # 40 in and a kerf of 0.1 in = 813 ticks = 6.4/64: it reads ~3/32, the far side ~40 3/32; of 42 in are left 1 29/32
    shown = shown_cut(saw_cut(40 * 8128, 813, 9144, 2 * 8128 - 813, "waste"), "in")
    assert (shown.keep, shown.kerf, shown.kerf_end) == ("40 in", "~3/32 in", "~40 3/32 in")
    # 40 3/32 + 1 1/8
    assert (shown.guide, shown.width, shown.before) == ("~41 7/32 in", "~1 29/32 in", "42 in")
    # 3.175 mm = 1016 ticks can be written to the thousandth, so nothing is rounded
    shown = shown_cut(saw_cut(320_000, 1016, 9144, 32_000 - 1016, "keep"), "mm")
    assert (shown.kerf_end, shown.guide, shown.width) == ("1003.175 mm", "971.425 mm", "96.825 mm")
