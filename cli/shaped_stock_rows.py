"""What the build-up of a shaped top is cut from, as rows: sticks and lanes, fence settings, stops, rests, proof."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Collection
from typing import Final

from edgewright.cli.proof_sums import counted_sum, stage_sum
from edgewright.cli.summary import stage_words
from edgewright.cli.text import ticks_in_words
from edgewright.cutlist.bench_cuts import CrossCut
from edgewright.cutlist.check_guillotine_sums import sums_of_points
from edgewright.cutlist.shaped_bench import build_up_crosscuts, build_up_rips, lane_name
from edgewright.cutlist.shaped_build_up import SegmentTrial
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.cutlist.shaped_stock import ShapedStick
from edgewright.cutlist.sheets.square_places import square_places
from edgewright.cutlist.shown_lanes import ShownLane, kerf_words
from edgewright.cutlist.shown_stock import along_lanes, shown_stock_lanes, shown_stock_rest
from edgewright.design.outline import Point
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.display import show_area, show_mm, show_ticks
from edgewright.ticks import TICK_MM
from edgewright.units import Units

__all__ = [
    "blank_words",
    "board_rows",
    "held_rows",
    "lane_rows",
    "proof_rows",
    "rack_rows",
    "rip_rows",
    "segment_words",
    "stick_rows",
]

#: Blanks are called by their size, which need not be said again.
_NAMED_TWICE: Final = re.compile(r"(blank [^,;]+(?:, grain along the \w+)?), [^,;]+ by [^,;]+, (is|fits)")


def stick_rows(plan: ShapedPlan) -> list[list[str]]:
    """Sticks that are sawn: name, clean size, where from."""
    found = plan.build_up
    if found.layout is None:
        return []
    sticks = {stick.stock.id: stick for stick in found.stock}
    rows = []
    for layout in found.layout.plan.layouts:
        stick = sticks[layout.stock_id]
        rows.append(
            [stick.name(layout.copy), _size(stick, plan.job.units), _source(plan, stick, layout.copy)]
        )
    return rows


def _size(stick: ShapedStick, units: Units) -> str:
    return f"{show_ticks(stick.stock.length, units)} x {show_ticks(stick.stock.width, units)}"


def _source(plan: ShapedPlan, stick: ShapedStick, copy: int) -> str:
    if stick.places:
        return _marked(plan, stick.places[copy - 1])
    waste = ", between its old edges" if stick.edge_waste else ""
    return f"{stick.stock.source}{waste}"


def _marked(plan: ShapedPlan, place: TurnedRectangle) -> str:
    """Where the rectangle is marked on the old top before anything is cut: its long side nearer to the finished top."""
    a, b, c, d = place.corners
    middle = plan.design.finished.outline.centroid
    ends = min(((a, b), (d, c)), key=lambda side: math.dist(_between(*side), middle))
    one, other = (
        " and ".join(f"{show_mm(from_.distance, plan.job.units)} from {from_.name}" for from_ in found)
        for found in (square_places(plan.design.old, end) for end in ends)
    )
    return f"mark on the old top one long side, from {one} to {other}, and the rectangle beyond it"


def _between(one: Point, other: Point) -> Point:
    return (one[0] + other[0]) / 2, (one[1] + other[1]) / 2


def lane_rows(plan: ShapedPlan) -> list[list[str]]:
    """Lanes: name, width, then its blanks, kerfs and rest with their ends; what is printed adds up to the lane."""
    found = plan.build_up
    if found.layout is None:
        return []
    units, lanes = plan.job.units, shown_stock_lanes(plan)
    sticks = {stick.stock.id: stick for stick in found.stock}
    turned = {one.piece_id for one in found.cut if one.turned}
    rows = []
    for layout in found.layout.plan.layouts:
        stick = sticks[layout.stock_id]
        long = show_ticks(along_lanes(stick, layout), units)
        for number, lane in enumerate(layout.lanes, start=1):
            name = lane_name(stick.name(layout.copy), number)
            shown = lanes[layout.stock_id, layout.copy, number]
            rows.append([name, show_ticks(lane.width, units), long, _run(shown, turned, plan)])
    return rows


def _run(lane: ShownLane, turned: Collection[str], plan: ShapedPlan) -> str:
    """Blanks with their lengths and where each ends, then the rest; kerfs where they read otherwise than elsewhere."""
    units, kerf = plan.job.units, plan.job.saw.kerf.ticks_up()
    said = [
        f"{part.name}{' across' if part.name in turned else ''} {part.text(units)}"
        + ("" if part.name == "rest" else f", ends at {part.end_text(units)}")
        for part in lane.parts
        if part.name not in ("kerf", "dust")
    ]
    return "; ".join((*said, *kerf_words(lane, kerf, units)))


def rip_rows(plan: ShapedPlan) -> list[list[str]]:
    """Fence settings in order: setting, lanes that it gives, how the wood is held."""
    found = plan.build_up
    settings: dict[tuple[int, str, bool], list[str]] = {}
    for rip in build_up_rips(found):
        key = (rip.fence_ticks, rip.held, rip.lane_id is None)
        settings.setdefault(key, []).append(rip.lane_id or f"{rip.stick_id}: old edge off")
    return [
        [show_ticks(fence, plan.job.units), ", ".join(lanes), held]
        for (fence, held, _), lanes in settings.items()
    ]


def held_rows(plan: ShapedPlan) -> list[list[str]]:
    """Crosscut stops: length, pieces that are cut to it, how they are held."""
    found = plan.build_up
    stops: dict[tuple[int, str], list[CrossCut]] = {}
    for cut in build_up_crosscuts(found):
        stops.setdefault((cut.length_ticks, cut.held), []).append(cut)
    return [
        [show_ticks(length, plan.job.units), ", ".join(str(cut.piece_id) for cut in cuts), held]
        for (length, held), cuts in sorted(stops.items(), key=lambda stop: -stop[0][0])
    ]


def rack_rows(plan: ShapedPlan) -> list[list[str]]:
    """What goes back to the rack: from which stick, length, width."""
    found = plan.build_up
    if found.layout is None:
        return []
    sticks = {stick.stock.id: stick for stick in found.stock}
    rests = Counter(
        (sticks[rest.stock_id].name(rest.copy), *shown_stock_rest(plan, rest))
        for rest in found.layout.plan.rests
    )
    return [
        [f"{f'{count} x ' * (count > 1)}rest of {name}", long, wide]
        for (name, long, wide), count in rests.items()
    ]


def board_rows(plan: ShapedPlan) -> list[list[str]]:
    """Boards to buy: how many of which, size, price of one, and the sum."""
    found = plan.build_up
    if found.layout is None:
        return []
    sticks = {stick.stock.id: stick for stick in found.stock}
    counts = Counter(layout.stock_id for layout in found.layout.plan.layouts)
    rows = [
        [
            f"{count} x {stick.stock.name}",
            _size(stick, plan.job.units),
            f"{stick.stock.price_cents / 100:.2f} each",
        ]
        for stock_id, count in counts.items()
        if (stick := sticks[stock_id]).stock.source == "for sale"
    ]
    return [*rows, ["in all", "", f"{found.cost_cents / 100:.2f}"]] if rows else []


def proof_rows(plan: ShapedPlan) -> list[list[str]]:
    """Why the layout is the best: stage, figure, what is proven of it; and why the stock does not give all."""
    found, units = plan.build_up, plan.job.units
    if found.layout is None:
        return []
    sums = sums_of_points(found.layout.plain, searched=False)
    rows = []
    for stage in found.layout.plan.stages:
        name, figure, proof = stage_words(stage, units, areas=True)
        one = stage_sum(stage, sums) if stage.proven else None
        rows.append(
            [name, figure, f"{proof}: {counted_sum(one, stage, units)}" if one is not None else proof]
        )
    if found.shortage is not None:
        proven = "proven" if found.shortage.proven else "not proven"
        some = f"{len(found.cut)} of {sum(one.blank.count for one in found.blanks)}"
        rows.append(
            ["blanks from the stock", some, f"{blank_words(found.shortage.sentence, units)} ({proven})"]
        )
    return rows


def blank_words(sentence: str, units: Units) -> str:
    """A sentence about blanks as it is shown; they are called by their size, which is not said again."""
    return ticks_in_words(_NAMED_TWICE.sub(r"\1 \2", sentence), units)


def segment_words(plan: ShapedPlan) -> list[str]:
    """Which numbers of segments to the circle were tried, what each would take, and which was taken."""
    found = plan.build_up
    if not found.trials:
        return []
    taken = [
        f"{_number(trial)}{' (taken)' if trial.segments == found.chosen else ''}: {_takes(trial, plan.job.units)}"
        for trial in found.trials
    ]
    return ["Segments to the circle as the stock gives them: " + "; ".join(taken) + "."]


def _number(trial: SegmentTrial) -> str:
    return "as few as the blanks give" if trial.segments is None else str(trial.segments)


def _takes(trial: SegmentTrial, units: Units) -> str:
    sticks = f"{trial.pieces} pieces from {trial.sticks} stick{'s' * (trial.sticks != 1)}"
    if trial.cost_cents:
        sticks += f", {trial.cost_cents / 100:.2f} to pay"
    if trial.missing:
        area = show_area(trial.missing_area * TICK_MM**2, units)
        return f"{trial.pieces - trial.missing} of {sticks}, {trial.missing} blanks of {area} in all still to be bought"
    return sticks
