from __future__ import annotations

import ast
import copy
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import handmade_plans as handmade
import pytest
from handmade_plans import KERF, inch, plain

from edgewright.cutlist import checker
from edgewright.cutlist.checker import PlanFault, check_plan

Plain = dict[str, Any]
Plant = Callable[[Plain], Any]

RIGHT = {
    "narrowed": handmade.narrowed,
    "begun": handmade.begun,
    "mitred": handmade.mitred,
    "both sides": handmade.both_sides,
    "spliced": handmade.spliced,
    "bought": handmade.bought,
    "too narrow": handmade.too_narrow,
}


def names(plan: Plain) -> set[str]:
    return {fault.name for fault in check_plan(plan)}


def part(plan: Plain, kind: str, name: str) -> Plain:
    """A side, stick, piece or map strip by its id."""
    key = "piece_id" if kind == "strip_map" else "id"
    found: Plain = next(entry for entry in plan[kind] if entry[key] == name)
    return found


def put(kind: str, name: str, **values: Any) -> Plant:
    return lambda plan: part(plan, kind, name).update(values)


def put_cut(number: int, **values: Any) -> Plant:
    return lambda plan: plan["cuts"][number - 1].update(values)


def put_stage(name: str, **values: Any) -> Plant:
    return lambda plan: next(stage for stage in plan["stages"] if stage["name"] == name).update(values)


def resplice(side: str, position: float) -> Plant:
    """Move the one splice of a side; what that does to the lanes does not matter here."""

    def plant(plan: Plain) -> None:
        at = inch(position)
        part(plan, "pieces", f"{side}-1").update(length_ticks=at)
        part(plan, "pieces", f"{side}-2").update(side_start_ticks=at, length_ticks=inch(60) - at)

    return plant


def move_saw_line(plan: Plain) -> None:
    """The last cut made 1/64 in off the bench grid, with every figure of that cut made to agree."""
    plan["cuts"][2].update(
        keep_ticks=inch(36) + 127,
        kerf_end_ticks=inch(36) + 127 + KERF,
        guide_ticks=inch(34.5) + 127,
        offcut_width_ticks=inch(1.875) - 127,
    )


def put_loose(**values: Any) -> Plant:
    return lambda plan: plan["as_cut"]["loose"][0].update(values)


def put_begun(**values: Any) -> Plant:
    return lambda plan: plan["as_cut"].update(values)


def swap_rip_and_crosscut(plan: Plain) -> None:
    cuts = plan["cuts"]
    cuts[3], cuts[4] = cuts[4], cuts[3]


def cut_once_more(plan: Plain) -> None:
    plan["cuts"].append(
        {**plan["cuts"][-1], "number": 4, "keep_ticks": inch(34), "panel_before_ticks": inch(36)}
    )


# (name of the fault, right plan, how the fault is planted)
PLANTED: list[tuple[str, str, Plant]] = [
    ("dropped kerf", "narrowed", put("pieces", "W1-1", lane_start_ticks=inch(32.25))),
    ("dropped kerf", "mitred", put("pieces", "W1-1", lane_start_ticks=inch(36) - inch(1.875))),
    ("dropped kerf", "narrowed", put_cut(2, kerf_end_ticks=inch(38))),
    ("overlap in a lane", "narrowed", put("pieces", "W1-1", lane_start_ticks=inch(32))),
    ("overlap in a lane", "mitred", put("pieces", "W1-1", turned=False)),
    ("piece before the lane's start", "narrowed", put("pieces", "N1-1", lane_start_ticks=-1)),
    ("piece past the lane's end", "narrowed", put("pieces", "N1-1", lane_start_ticks=1)),
    ("gap in a side", "spliced", put("pieces", "N1-2", side_start_ticks=inch(41.125))),
    ("gap in a side", "narrowed", put("pieces", "N1-1", length_ticks=inch(71.875))),
    ("overlap in a side", "spliced", put("pieces", "N1-2", side_start_ticks=inch(40))),
    ("piece past the side's end", "narrowed", put("pieces", "E1-1", length_ticks=inch(33))),
    ("missing piece", "narrowed", lambda plan: plan["pieces"].pop(0)),
    ("unknown lane", "narrowed", put("pieces", "N1-1", lane_id="a4")),
    ("unknown side", "narrowed", put("pieces", "N1-1", side_id="N3")),
    ("piece used twice", "narrowed", put("pieces", "W1-1", id="E1-1")),
    ("splice near a corner", "spliced", resplice("N1", 60 - (5 + 15 / 16))),
    ("splice near a corner", "spliced", resplice("S2", 5 + 15 / 16)),
    ("splice near a seam", "spliced", resplice("N1", 30 + 5 + 15 / 16)),
    ("splice over a splice", "spliced", resplice("N2", 41 - (3 + 15 / 16))),
    ("piece too short", "spliced", resplice("N1", 60 - (7 + 15 / 16))),
    ("splice off the grid", "spliced", resplice("N1", 41 + 1 / 64)),
    ("too many splices", "spliced", put("sides", "N1", max_splices=0)),
    ("splice where forbidden", "spliced", lambda plan: plan["rules"].update(splices_allowed=False)),
    ("wrong end cut", "mitred", put("pieces", "N1-1", start_cut="square")),
    ("wrong end cut", "narrowed", put("sides", "N1", end_cut="mitre")),
    ("turned without mitre", "narrowed", put("pieces", "E1-1", turned=True)),
    ("turned without mitre", "mitred", lambda plan: plan["rules"].update(nest_mitres=False)),
    ("stick used twice", "bought", put("sticks", "new b", id="new a")),
    ("stick used twice", "narrowed", lambda plan: plan["sticks"][0]["lanes"][2].update(id="a1")),
    (
        "lane too narrow",
        "narrowed",
        lambda plan: plan["sticks"][0]["lanes"][2].update(width_ticks=inch(1.75)),
    ),
    ("lanes wider than their board", "spliced", put("sticks", "board a", width_ticks=inch(8.375) - 1)),
    ("lane longer than its stick", "spliced", put("sticks", "board a", length_ticks=inch(41.5) - 1)),
    ("wrong stick side", "narrowed", put("sticks", "offcut north", side=None)),
    ("wrong side length", "narrowed", put("sides", "E1", length_ticks=inch(32))),
    ("wrong side offset", "narrowed", put("sides", "E1", start_offset_ticks=0)),
    ("side missing", "narrowed", lambda plan: plan["sides"].pop()),
    (
        "layer missing",
        "spliced",
        lambda plan: [side.update(layer=side["layer"] + 1) for side in plan["sides"]],
    ),
    ("side named twice", "narrowed", put("sides", "S1", id="N1")),
    (
        "corner does not close",
        "narrowed",
        put("sides", "E1", start_offset_ticks=0, end_offset_ticks=0, length_ticks=inch(36)),
    ),
    ("wrong guide side", "narrowed", put_cut(1, guide_side="waste")),
    ("guide figure on the wrong side", "narrowed", put_cut(1, guide_ticks=inch(41.625))),
    ("guide figure on the wrong side", "both sides", put_cut(3, guide_ticks=inch(36))),
    ("wrong guide figure", "narrowed", put_cut(1, guide_ticks=inch(38))),
    ("wrong guide offset", "narrowed", put_cut(1, guide_offset_ticks=inch(1.25))),
    ("kerf on the keep side", "narrowed", put_cut(1, kerf_end_ticks=inch(39.875))),
    ("datum not handed over", "both sides", put_cut(3, datum_edge="old")),
    ("wrong datum edge", "narrowed", put_cut(3, datum_edge="fresh")),
    ("wrong datum", "narrowed", put_cut(1, datum="north")),
    ("wrong panel width", "both sides", put_cut(3, panel_before_ticks=inch(42))),
    ("keep line off the panel", "narrowed", put_cut(1, keep_ticks=inch(42))),
    ("keep line off the grid", "narrowed", move_saw_line),
    ("cut after the finished size", "narrowed", cut_once_more),
    ("cut into the finished top", "narrowed", put_cut(3, keep_ticks=inch(35))),
    ("wrong finished size", "narrowed", lambda plan: plan["cuts"].pop()),
    ("wrong finished size", "both sides", lambda plan: plan.update(finished_origin_ticks=[inch(3), inch(3)])),
    ("crosscut before rip", "both sides", swap_rip_and_crosscut),
    ("cuts out of number", "both sides", swap_rip_and_crosscut),
    ("wrong cut kind", "both sides", put_cut(5, kind="rip")),
    ("wrong expected offcut", "narrowed", put_cut(3, offcut_width_ticks=inch(2))),
    ("wrong expected offcut", "both sides", put_cut(5, offcut_length_ticks=inch(42))),
    ("lane never ripped", "narrowed", put_cut(3, yields=None)),
    ("lane ripped twice", "narrowed", put_cut(3, yields="a3")),
    ("lane of another side", "both sides", put_cut(3, yields="n2")),
    ("lane does not match its cut", "both sides", put_cut(5, yields="e1")),
    ("unknown yield", "narrowed", put_cut(1, yields="a9")),
    ("mirrored map", "narrowed", put("strip_map", "E1-1", x0_ticks=inch(70.125), x1_ticks=inch(72))),
    ("mirrored map", "spliced", put("strip_map", "N1-1", x0_ticks=0, x1_ticks=inch(41))),
    ("top view map", "narrowed", lambda plan: plan.update(strip_map_view="top")),
    ("wrong map strip", "narrowed", put("strip_map", "E1-1", y0_ticks=0)),
    ("piece not on the map", "narrowed", lambda plan: plan["strip_map"].pop()),
    ("remnant without size", "narrowed", put("remnants", "R1", length_ticks=0)),
    ("remnant longer than what is left", "narrowed", put("remnants", "R1", length_ticks=inch(7.25) + 1)),
    ("remnant larger than its stick", "both sides", put("remnants", "R1", width_ticks=inch(6))),
    # four strips of 2 and three kerfs take all 8 3/8 of a board
    (
        "remnant wider than what is left",
        "spliced",
        put("remnants", "Ra", id="rest of board a", length_ticks=inch(41.5), width_ticks=1),
    ),
    ("unknown stick", "narrowed", put("remnants", "R1", stick_id="offcut south")),
    ("remnant named twice", "both sides", put("remnants", "R3", id="R1")),
    ("cost hidden", "bought", put_stage("new material cost", value=1200)),
    ("better than the bound", "bought", put_stage("new material cost", value=1200)),
    ("better than the bound", "narrowed", put_stage("largest remnant", value=inch(7.5))),
    ("stage value wrong", "narrowed", put_stage("strips ripped", value=4)),
    ("bound not met", "narrowed", put_stage("sticks touched", value=2)),
    ("stage bound wrong", "spliced", put_stage("splices", bound=3)),
    ("wrong stages", "narrowed", lambda plan: plan["stages"].reverse()),
    ("cuts out of number", "begun", lambda plan: plan["cuts"][0].update(number=1)),
    ("cuts out of number", "begun", put_begun(cuts_made=0)),
    ("wrong panel width", "begun", put_begun(north_ticks=inch(40) + 127)),
    ("panel outside the old top", "begun", put_begun(east_ticks=inch(72) + 1)),
    ("panel outside the old top", "begun", put_begun(south_ticks=-1)),
    ("panel outside the old top", "begun", put_begun(west_ticks=inch(72))),
    ("wrong datum edge", "begun", put_cut(1, datum_edge="fresh")),
    ("datum not handed over", "begun", put_begun(fresh=["south"])),
    ("more fresh edges than cuts", "begun", put_begun(fresh=["north", "south"])),
    ("loose strip of no cut", "begun", put_loose(cut=2)),
    ("loose strip of no cut", "begun", put_loose(cut=0)),
    ("loose strip of no cut", "begun", put_loose(side="south")),
    (
        "loose strip of no cut",
        "begun",
        lambda plan: plan["as_cut"]["loose"].append(plan["as_cut"]["loose"][0]),
    ),
    ("loose strip larger than the top", "begun", put_loose(length_ticks=inch(72) + 1)),
    ("loose strips larger than the top", "begun", put_loose(width_ticks=inch(2) + 1)),
    ("loose lane used twice", "begun", put_loose(lanes=["a3", "a3"])),
    ("unknown loose lane", "begun", put_loose(lanes=["a9"])),
    ("lane never ripped", "begun", put_loose(lanes=[])),
    ("lane ripped twice", "begun", put_loose(lanes=["a2"])),
    ("lane of another side", "begun", put_loose(side="south")),
    ("lane longer than its loose strip", "begun", put_loose(length_ticks=inch(72) - 1)),
    ("lanes wider than their loose strip", "begun", put_loose(width_ticks=inch("1 7/8") - 1)),
    ("lanes wider than their loose strip", "begun", put_loose(edge_waste_ticks=1)),
    (
        "remnant larger than its stick",
        "begun",
        put("remnants", "R1", id="offcut of cut 1", length_ticks=inch(72) + 1),
    ),
    # a3 is in use, and with its kerf it leaves nothing of the strip it is ripped from
    ("remnant larger than its stick", "begun", put("remnants", "R1", id="rest of offcut of cut 1")),
    ("malformed plan", "begun", put_begun(fresh=["up"])),
    ("malformed plan", "narrowed", lambda plan: plan.pop("rules")),
    ("malformed plan", "narrowed", put("pieces", "N1-1", length_ticks=585216.0)),
    ("malformed plan", "narrowed", put("pieces", "N1-1", turned=0)),
    ("shortage not shown", "too narrow", lambda plan: plan.update(shortage=None)),
    (
        "shortage not shown",
        "too narrow",
        lambda plan: plan["sticks"][0]["lanes"][0].update(length_ticks=inch(75)),
    ),
    ("wrong shortage figures", "too narrow", lambda plan: plan["shortage"].update(sides_sum_ticks=inch(219))),
    ("pieces in an impossible plan", "narrowed", lambda plan: plan.update(status="impossible")),
]


@pytest.mark.example
@pytest.mark.parametrize("right", RIGHT)
def test_right_plan_has_no_fault(right: str) -> None:
    assert check_plan(plain(RIGHT[right]())) == ()


@pytest.mark.example
@pytest.mark.parametrize(
    ("fault", "right", "plant"),
    PLANTED,
    ids=[f"{number} {fault}" for number, (fault, _, _) in enumerate(PLANTED)],
)
def test_planted_fault_is_refused_by_name(fault: str, right: str, plant: Plant) -> None:
    plan = plain(RIGHT[right]())
    plant(plan)
    assert fault in names(plan)


@pytest.mark.example
def test_false_proven_is_refused() -> None:
    # the second piece of each middle lane lies 7/8 in further on: what is left is no longer the most possible
    plan = plain(handmade.spliced())
    part(plan, "pieces", "S1-2").update(lane_start_ticks=inch(20))
    part(plan, "pieces", "S2-1").update(lane_start_ticks=inch(20))
    # 41 - 20 - 19 - 1/8 = 1 7/8 in
    plan["remnants"] = []
    put_stage("largest remnant", value=inch(1.875))(plan)
    assert names(plan) == {"bound not met"}
    put_stage("largest remnant", value=inch(1.875), proven=False)(plan)
    assert names(plan) == set()


@pytest.mark.example
def test_fault_says_where_and_by_how_much() -> None:
    plan = plain(handmade.narrowed())
    part(plan, "pieces", "W1-1").update(lane_start_ticks=inch(32.25))
    found = next(fault for fault in check_plan(plan) if fault.name == "dropped kerf")
    assert found == PlanFault("dropped kerf", "a3: E1-1 and W1-1", "0 ticks between them, the saw takes 1016")


@pytest.mark.example
def test_pinwheel_corners_close_one_way_round() -> None:
    # 72 + 2/16 - 1 7/8 and 36 + 2/16 - 1 7/8 in, each strip proud 1/16 at one end and butting at the other
    plan = plain(handmade.narrowed())
    plan.update(corners="pinwheel", proud_ticks=inch("1/16"))
    free, butts = -inch("1/16"), inch("1 13/16")
    for name, length, offsets in (
        ("S1", inch("70 1/4"), (free, butts)),
        ("E1", inch("34 1/4"), (free, butts)),
        ("N1", inch("70 1/4"), (butts, free)),
        ("W1", inch("34 1/4"), (butts, free)),
    ):
        part(plan, "sides", name).update(
            length_ticks=length, start_offset_ticks=offsets[0], end_offset_ticks=offsets[1]
        )
    of_ring = {"wrong side length", "wrong side offset", "corner does not close"}
    assert not names(plan) & of_ring
    part(plan, "sides", "W1").update(start_offset_ticks=free, end_offset_ticks=butts)
    assert names(plan) & of_ring == {"corner does not close"}


def numbers(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every (holder, key) of a whole number in plain data."""
    for key, entry in value.items() if isinstance(value, dict) else enumerate(value):
        if isinstance(entry, dict | list):
            yield from numbers(entry)
        elif isinstance(entry, int) and not isinstance(entry, bool):
            yield value, key


@pytest.mark.property
@pytest.mark.parametrize("right", ["narrowed", "begun", "mitred", "both sides"])
@pytest.mark.parametrize("section", ["cuts", "pieces", "sides", "stages", "strip_map", "finished_ticks"])
@pytest.mark.parametrize("step", [-1, 1])
def test_one_tick_anywhere_is_noticed(right: str, section: str, step: int) -> None:
    plan = plain(RIGHT[right]())
    loose = {"max_splices", "layer"}
    for holder, key in list(numbers(plan[section])):
        if key in loose or (right == "both sides" and section == "pieces" and key == "lane_start_ticks"):
            continue  # pieces with room in their lanes may lie anywhere
        kept = holder[key]
        holder[key] = kept + step
        assert check_plan(plan), f"{section} {key} {kept} {step:+}"
        holder[key] = kept


def slots(value: Any) -> Iterator[tuple[Any, Any]]:
    for key, entry in value.items() if isinstance(value, dict) else enumerate(value):
        yield value, key
        if isinstance(entry, dict | list):
            yield from slots(entry)


@pytest.mark.property
@pytest.mark.parametrize("junk", [None, "junk", -(10**9), 0.5, [], {}, [None]], ids=repr)
def test_junk_anywhere_never_raises(junk: Any) -> None:
    plan = plain(handmade.narrowed())
    for holder, key in list(slots(plan)):
        kept = holder[key]
        holder[key] = copy.deepcopy(junk)
        check_plan(plan, work_limit=2_000)
        checker.recompute_bounds(plan, work_limit=2_000)
        checker.shortage_holds(plan)
        holder[key] = kept
    assert check_plan(plan) == ()


@pytest.mark.property
def test_every_key_is_needed() -> None:
    plan = plain(handmade.too_narrow()) | {
        key: plain(handmade.narrowed())[key] for key in ("pieces", "cuts", "remnants", "stages", "strip_map")
    }
    for holder, key in list(slots(plan)):
        if isinstance(holder, dict):
            kept = holder.pop(key)
            assert names(plan) == {"malformed plan"}, key
            holder[key] = kept


@pytest.mark.parametrize("junk", [None, 3, "plan", [], {}], ids=repr)
@pytest.mark.example
def test_no_plan_at_all_is_malformed(junk: Any) -> None:
    assert names(junk) == {"malformed plan"}


@pytest.mark.property
def test_checker_imports_nothing_of_the_planner() -> None:
    """Every file that is reached from the checker is one of its own, or of the standard library."""
    folder = Path(checker.__file__).parent
    to_read, seen = ["checker", "check_sequence"], set()
    while to_read:
        name = to_read.pop()
        if name in seen:
            continue
        seen.add(name)
        for node in ast.walk(ast.parse((folder / f"{name}.py").read_text(encoding="utf-8"))):
            if isinstance(node, ast.Import):
                modules = {alias.name for alias in node.names}
            elif isinstance(node, ast.ImportFrom):
                assert node.level == 0
                modules = {node.module or ""}
            else:
                continue
            assert "importlib" not in modules
            for module in modules:
                if module.split(".")[0] in sys.stdlib_module_names:
                    continue
                package, _, last = module.rpartition(".")
                assert (package, last[:6]) == ("edgewright.cutlist", "check_"), f"{name}.py imports {module}"
                to_read.append(last)
    assert {"check_bounds", "check_duals", "check_certificate"} <= seen
