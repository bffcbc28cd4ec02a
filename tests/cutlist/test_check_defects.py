"""Plans of tops and boards with defects: nothing lies over one, and the checker refuses what does.

Arithmetic in inches: 72 x 42, 6 off the north, strips 1 7/8, kerf 1/8, so strips lie at 36 1/8 to 38, 38 1/8 to 40 and
40 1/8 to 42 from the south edge. Computed; clearance of 1/8 is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.cutlist.checker import check_plan
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan, Lane
from edgewright.cutlist.stages import plain_plan
from edgewright.cutlist.widest import try_width, widest_strip
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.jobfile import parse_job

INCH = 8128
Box = tuple[str, str, bool]


def design(
    *boxes: Box, trim: str = "north = 6", edge: str = 'strip_width = "1 7/8"', rest: str = ""
) -> Design:
    defects = "\n".join(
        f'[[top.defects]]\nname = "d{n}"\nalong = [{along}]\nacross = [{across}]\nmetal = {str(metal).lower()}'
        for n, (along, across, metal) in enumerate(boxes)
    )
    return build_design(
        parse_job(
            '[job]\ntitle = "defects"\nunits = "in"\n[top]\nlength = 72\nwidth = 42\nthickness = "23/32"\n'
            f'material = "plywood"\n{defects}\n[trim]\n{trim}\n[edge]\n{edge}\n{rest}'
        )
    )


def lanes(plan: CutPlan) -> dict[str, Lane]:
    return {lane.id: lane for stick in plan.sticks for lane in stick.lanes}


@pytest.mark.example
def test_a_hole_in_the_outermost_strip_costs_a_splice() -> None:
    """Hole at 30 to 31: runs of 29 7/8 and 40 7/8; 32 1/4 fits one of them only, so one side is spliced."""
    plan = make_cut_plan(design(("30, 31", '"40 1/2", 41', False)))
    runs = lanes(plan)
    assert runs["offcut north 3a"].length_ticks == 29.875 * INCH
    assert (runs["offcut north 3b"].trim_start_ticks, runs["offcut north 3b"].length_ticks) == (
        *(31.125 * INCH, 40.875 * INCH),
    )
    values = {stage.name: (stage.value, stage.proven) for stage in plan.stages}
    assert values["splices"] == (1, True)
    assert values["strips ripped"] == (3, True)  # two lanes, but one strip
    assert [cut.yields for cut in plan.cuts] == ["offcut north 3", "offcut north 2", "offcut north 1"]


@pytest.mark.example
def test_a_hole_in_a_kerf_or_under_the_finished_top_touches_nothing() -> None:
    without = make_cut_plan(design())
    for across in ("38, '38 1/8'", "10, 11", "35, '36 1/8'"):
        plan = make_cut_plan(design(("30, 31", across, False)))
        assert (plan.pieces, plan.sticks) == (without.pieces, without.sticks)


@pytest.mark.example
def test_a_strip_without_clean_wood_is_ripped_only_to_reach_the_next() -> None:
    """A dado along the whole innermost strip; a board holds what is missing, so strips 2 and 3 are used."""
    rack = '[[stock]]\nname = "rack"\nlength = 80\nwidth = "1 7/8"\nthickness = "23/32"'
    plan = make_cut_plan(design(("0, 72", "36.5, 37", False), rest=rack))
    used = {piece.lane_id for piece in plan.pieces}
    assert used == {"offcut north 2", "offcut north 3", "rack lane 1"}
    assert [cut.yields for cut in plan.cuts][-1] == "rest of offcut north 1"
    assert "rest of offcut north 1" in {remnant.id for remnant in plan.remnants}
    assert plan.stages[4].value == 3


@pytest.mark.example
def test_a_crosscut_offcut_is_measured_from_the_same_corner() -> None:
    """2 off the south, 6 off the east; east strips run from the fresh south edge, so 20 to 21 lies at 18 to 19."""
    plan = make_cut_plan(
        design(
            ("70, 71", "20, 21", False),
            trim="south = 2\neast = 6\nnorth = 4",
            edge='strip_width = "1 7/8"\n[saw]\ndefect_clearance = 0',
        )
    )
    # finished east edge at 66, strips at 66 1/8 to 68, 68 1/8 to 70 and 70 1/8 to 72
    runs = [lane for lane in lanes(plan).values() if lane.strip == "offcut east 3"]
    assert [(lane.trim_start_ticks / INCH, lane.length_ticks / INCH) for lane in runs] == [(0, 18), (19, 17)]
    assert [lane.length_ticks for lane in lanes(plan).values() if lane.strip == "offcut east 2"] == [
        36 * INCH
    ]


@pytest.mark.example
def test_defects_of_a_board_fall_into_strips_as_it_is_ripped() -> None:
    """Old edge 1/2, then strips of 1 7/8 and kerfs of 1/8: the second lies at 2 1/2 to 4 3/8 from the marked edge."""
    rack = (
        '[[stock]]\nname = "rack"\nlength = 80\nwidth = 7\nfinished_depth = "1/2"\nthickness = "23/32"\n'
        "defects = [{name = 'knot', along = [40, 41], across = [3, 4]}]"
    )
    plan = make_cut_plan(design(trim="north = 4", rest=rack))
    runs = [(lane.id, lane.length_ticks / INCH) for lane in lanes(plan).values() if "rack" in lane.id]
    assert runs == [
        ("rack lane 1", 80),
        ("rack lane 2a", 39.875),
        ("rack lane 2b", 38.875),
        ("rack lane 3", 80),
    ]


PLANTED: list[tuple[str, Any]] = [
    # the hole seen 1/2 in further east: the piece of the first run still keeps clear, that of the second does not
    (
        "piece over a defect",
        lambda plan: plan["defects"][0].update(along_ticks=[30 * INCH, 31 * INCH + INCH // 2]),
    ),
    ("lane over a defect", lambda plan: plan["rules"].update(defect_clearance_ticks=INCH // 8 + 1)),
    ("lane over a defect", lambda plan: plan["defects"][0].update(metal=True)),
    ("piece over a defect", lambda plan: plan["defects"][0].update(across_ticks=[37 * INCH, 41 * INCH])),
    ("lane over a defect", lambda plan: run(plan, "b").update(trim_start_ticks=31 * INCH)),
    ("no kerf between lanes", lambda plan: run(plan, "b").update(trim_start_ticks=30 * INCH - 1)),
    ("lanes of unlike strips", lambda plan: run(plan, "a").update(trim_end_ticks=0)),
    ("malformed plan", lambda plan: plan["defects"][0].pop("metal")),
]


def run(plan: dict[str, Any], letter: str) -> dict[str, Any]:
    found: dict[str, Any] = next(
        lane for lane in plan["sticks"][0]["lanes"] if lane["id"] == f"offcut north 3{letter}"
    )
    return found


@pytest.mark.example
@pytest.mark.parametrize(
    ("fault", "plant"), PLANTED, ids=[f"{n} {name}" for n, (name, _) in enumerate(PLANTED)]
)
def test_planted_fault_is_refused_by_name(fault: str, plant: Any) -> None:
    plan = plain_plan(make_cut_plan(design(("30, 31", '"40 1/2", 41', False))))
    assert check_plan(plan) == ()
    plant(plan)
    assert fault in {found.name for found in check_plan(plan)}


@pytest.mark.example
def test_a_piece_over_a_defect_of_its_board_is_refused() -> None:
    rack = (
        '[[stock]]\nname = "rack"\nlength = 80\nwidth = 4\nthickness = "23/32"\n'
        "defects = [{name = 'knot', along = [75, 76]}]"
    )
    plan = plain_plan(make_cut_plan(design(trim="north = 4", rest=rack)))
    assert check_plan(plan) == ()
    board = next(stick for stick in plan["sticks"] if stick["id"] == "rack")
    board["defects"][0]["along_ticks"] = [20 * INCH, 21 * INCH]
    assert "piece over a defect" in {fault.name for fault in check_plan(plan)}


@st.composite
def random_boxes(draw: st.DrawFn) -> tuple[Box, ...]:
    """Up to four boxes of sixteenths within what comes off the north."""
    boxes = []
    for _ in range(draw(st.integers(0, 4))):
        along, size = draw(st.integers(0, 70 * 16)), draw(st.integers(1, 2 * 16))
        across, wide = draw(st.integers(35 * 16, 41 * 16)), draw(st.integers(1, 16))
        metal = draw(st.booleans())
        boxes.append(
            (f"{along / 16}, {(along + size) / 16}", f"{across / 16}, {(across + wide) / 16}", metal)
        )
    return tuple(boxes)


def inches_of(plan: CutPlan) -> Iterator[tuple[float, float, float, float]]:
    """Pieces of the north offcut in the frame of the old top, inches; worked out here once more."""
    for piece in plan.pieces:
        lane = lanes(plan)[piece.lane_id]
        if lane.strip.startswith("offcut north"):
            row = int(lane.strip.split()[-1])
            start = (lane.trim_start_ticks + piece.lane_start_ticks) / INCH
            yield start, start + piece.length_ticks / INCH, 36 + 2 * row - 1.875, 36 + 2 * row


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=25)
@given(random_boxes())
def test_no_piece_lies_over_a_defect_and_defects_never_help(boxes: tuple[Box, ...]) -> None:
    rack = '[[stock]]\nname = "sheet"\nlength = 96\nwidth = 4\nthickness = "23/32"\nprice = 10'
    made = design(*boxes, rest=rack)
    plan, clean = make_cut_plan(made), make_cut_plan(design(rest=rack))
    assert plan.status == "ready"
    for west, east, south, north in inches_of(plan):
        for defect in made.job.top.defects:
            (x0, x1), (y0, y1) = (
                [float(n.exact_mm) / 25.4 for n in span] for span in (defect.along, defect.across)
            )
            clear = 0.375 if defect.metal else 0.125  # metal: a kerf and 1/4 in
            if y0 < north - 1e-9 and y1 > south + 1e-9:
                assert east <= x0 - clear + 1e-9 or west >= x1 + clear - 1e-9
    assert [stage.value for stage in plan.stages[:2]] >= [stage.value for stage in clean.stages[:2]]


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=30)
@given(random_boxes())
def test_no_wider_strip_than_the_widest_has_a_plan(boxes: tuple[Box, ...]) -> None:
    """All widths of the bench grid above it are tried, one after the other."""
    made = design(*boxes, edge="", rest="[splice]\nallowed = false")
    widest, _ = widest_strip(made)
    grid = made.sizes.grid
    lowest = widest + grid if widest is not None else made.limits.floor
    for width in range(made.limits.cap // grid * grid, lowest - 1, -grid):
        assert not try_width(made, width, for_sale=False, any_plan=True)[0].fits, width / INCH


@pytest.mark.example
def test_two_strips_with_a_knot_hold_what_four_lanes_could_not() -> None:
    """A board with a knot in its middle: each strip of 80 has runs of 39 3/8, one end of 34 1/4 each.

    4 off the north gives two strips of 72 for the long sides; both ends of 38 - 3 3/4 come from one strip of the board,
    though they lie in two lanes. Two strips hold no more than 78 3/4 and 72 in, and the sides need 212 1/2.
    """
    rack = (
        '[[stock]]\nname = "rack"\nlength = 80\nwidth = 6\nthickness = "23/32"\n'
        'defects = [{name = "knot", along = ["39 1/2", "40 1/2"]}]'
    )
    plan = make_cut_plan(design(trim="north = 4", rest=rack))
    ends = {piece.id: piece.lane_id for piece in plan.pieces if piece.side_id in ("E1", "W1")}
    assert set(ends.values()) == {"rack lane 1a", "rack lane 1b"}
    strips = next(stage for stage in plan.stages if stage.name == "strips ripped")
    assert (strips.value, strips.bound, strips.proven) == (3, 3, True)
