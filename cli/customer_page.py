"""What stands on the customer's page, as plain strings: sizes, places, room, what stays, what to expect.

It is for the person whose table it is: nothing of kerfs, tolerances or the shop. What was not measured is said to be
so, with room to write it in.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

from edgewright import trade
from edgewright.cli.customer_words import (
    care_words,
    corner_words,
    edge_words,
    joint_words,
    off_words,
    stay_words,
)
from edgewright.cli.packet_figures import placed_figure
from edgewright.cli.printable import printable
from edgewright.compass import PerSide
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.customer_view import TopInRoom, customer_edge, customer_tops
from edgewright.design.check_figures import trade_least
from edgewright.design.outline import FIT_MM, Outline
from edgewright.design.seat_places import Chair, chair_of, seat_places
from edgewright.design.seat_runs import Place
from edgewright.display import show_mm
from edgewright.drawing.view import Box
from edgewright.ticks import ticks_to_mm
from edgewright.units import Units

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["customer_data"]

#: Letters of a title that are set; all of it stands on the first sheet of the packet.
_HEADING: Final = 100
#: Width of the drawing of both tops on a page, and its greatest heights, the first where it fits, mm.
_WIDE: Final = 180.0
_HIGH: Final = {"a4": (88.0, 74.0, 60.0, 46.0), "us-letter": (72.0, 60.0, 48.0, 36.0)}


@dataclass(frozen=True, slots=True)
class _Top:
    """A top before or after: its outline and holes, and the segments at which nobody sits."""

    outline: Outline
    holes: tuple[Outline, ...]
    still: frozenset[int]


def customer_data(plan: Plan | ShapedPlan, paper: str) -> dict[str, Any]:
    """All texts and figures of the customer's page; every value is a string, a number, a list or None.

    A plan that is not ready gets the page too, for an offer; it then says that the size is not settled.
    """
    job, design = plan.job, plan.design
    units, title = job.units, job.info.title
    before, after = _tops(plan)
    walls = _walls(before or after, job.seating.wall.per_side())
    chair = chair_of(job.seating)
    seated = {
        one: _Seats.at(top, chair, walls)
        for one, top in (("before", before), ("after", after))
        if top is not None
    }
    wanted = job.seating.seats
    tops = [
        TopInRoom(
            f"{'New top' if before is None else name.capitalize()}: {_size(top.outline.bounds, units)}",
            top.outline,
            top.holes,
            seated[name].drawn(wanted, top, chair, walls),
            before.outline if before is not None and before.outline != top.outline else None,
        )
        for name, top in (("before", before), ("after", after))
        if top is not None
    ]
    profile = design.profile
    strip, below = _build_up(plan)
    thick = show_mm(design.edge_thickness_mm, units)
    edge = None if profile is None else customer_edge(profile, below, strip, thick)
    return {
        "heading": printable(title if len(title) <= _HEADING else title[: _HEADING - 1] + "…"),
        "for": printable(f"For {job.info.customer}") if job.info.customer else "",
        "mark": _mark(plan),
        # the smaller ones are for a page whose texts are long
        "tops": [placed_figure(customer_tops(tops, chair, walls, (_WIDE, high))) for high in _HIGH[paper]],
        "edge": None if edge is None else placed_figure(edge),
        "sizes": [
            ["Finished size", f"{_size(after.outline.bounds, units)}, edge {thick} thick"],
            ["Edge", edge_words(plan)],
            ["Corners", corner_words(plan)],
            *([["Comes off", off_words(plan)]] if before is not None else []),
            ["Places", _places_words(seated, len(tops[-1].places), wanted, units)],
        ],
        "room": [*_room_rows(plan, before, after, walls)],
        "stays": stay_words(plan),
        "choices": [
            *([] if job.base.model_fields_set else [["The base", ["stays where it is", "is moved"]]]),
            ["Old screw holes below", ["stay as they are", "are filled"]],
        ],
        "colour": printable(job.coating.colour or ""),
        "joints": joint_words(plan),
        "care": care_words(job.coating.resin_coats),
    }


def _tops(plan: Plan | ShapedPlan) -> tuple[_Top | None, _Top]:
    """The top before, if there was one, and after."""
    if isinstance(plan, Plan):
        design = plan.design
        return _Top(design.old_outline, (), frozenset()), _Top(design.finished_outline, (), frozenset())
    from edgewright.design.anytop.room import unrouted

    shaped = plan.design
    holes = tuple(hole.outline for hole in shaped.cut_outs)
    after = _Top(shaped.finished.outline, holes, unrouted(shaped, shaped.finished))
    if plan.job.top.new:
        return None, after
    return _Top(shaped.old.outline, (), unrouted(shaped, shaped.old)), after


def _build_up(plan: Plan | ShapedPlan) -> tuple[float, float]:
    """How far in the edge is thick, and how much of it lies below the top, mm."""
    design = plan.design
    below = design.edge_thickness_mm - design.thickness_mm
    if isinstance(plan, Plan):
        return ticks_to_mm(plan.cut_plan.strip_width_ticks), below
    shaped = plan.design
    flat = plan.job.edge.build_up == "flat"
    return shaped.strip_width_mm if flat else shaped.strip_thickness_mm, below


def _walls(top: _Top, distances: PerSide[float | None]) -> PerSide[float | None]:
    """Where walls stand, in the frame of the old top, mm."""
    x0, y0, x1, y1 = top.outline.bounds
    edges = {"north": (y1, 1), "east": (x1, 1), "south": (y0, -1), "west": (x0, -1)}

    def at(side: str) -> float | None:
        edge, way = edges[side]
        distance = distances[side]  # type: ignore[index]
        return None if distance is None else edge + way * distance

    return PerSide.build(at)


def _size(bounds: Box, units: Units) -> str:
    x0, y0, x1, y1 = bounds
    return f"{show_mm(x1 - x0, units, unit=False)} x {show_mm(y1 - y0, units)}"


def _mark(plan: Plan | ShapedPlan) -> list[str]:
    if plan.ready:
        return []
    lines = ["NOT FOR CUTTING. The sizes on this page are not settled yet."]
    if plan.design.profile is None:
        lines.append("An edge of this form cannot be made on a top this thick; it has to be chosen anew.")
    return lines


@dataclass(frozen=True, slots=True)
class _Seats:
    """Places at one top, close together and in comfort."""

    close: tuple[Place, ...]
    wide: tuple[Place, ...]

    @classmethod
    def at(cls, top: _Top, chair: Chair, walls: PerSide[float | None]) -> _Seats:
        close, wide = (
            seat_places(top.outline, float(pitch.value), chair, top.still, walls)
            for pitch in (trade.SEAT_WIDTH, trade.SEAT_WIDTH_COMFORT)
        )
        return cls(close, wide)

    def drawn(
        self, wanted: int | None, top: _Top, chair: Chair, walls: PerSide[float | None]
    ) -> tuple[Place, ...]:
        """Chairs to draw: as many as are wanted and fit, else as many as fit in comfort."""
        if wanted is None:
            return self.wide
        pitch = trade.SEAT_WIDTH_COMFORT if wanted <= len(self.wide) else trade.SEAT_WIDTH
        return seat_places(top.outline, float(pitch.value), chair, top.still, walls, wanted)


def _places_words(seats: dict[str, _Seats], drawn: int, wanted: int | None, units: Units) -> str:
    after, before = seats["after"], seats.get("before")
    comfort, close = (
        trade_least(float(one.value), units) for one in (trade.SEAT_WIDTH_COMFORT, trade.SEAT_WIDTH)
    )
    said = f"{len(after.wide)} in comfort ({comfort} of edge each), {len(after.close)} close together ({close} each)"
    if before is not None:
        said += f"; before {len(before.wide)} and {len(before.close)}"
    said += ". Table legs are not counted."
    if not after.close:
        return "No side is long enough for a chair, or no side is free."
    if wanted is not None and wanted > len(after.close):
        said += f" {wanted} were asked for; there is room for {drawn}."
    return said


def _room_rows(
    plan: Plan | ShapedPlan, before: _Top | None, after: _Top, walls: PerSide[float | None]
) -> Sequence[list[str]]:
    """Clearances: what, and the figures; an empty text where it was not measured."""
    return [
        ["Chair arms under the edge", _arms(plan)],
        ["Knees under the table", _knees(plan)],
        ["From the edge to a wall", _passage(before, after, walls, plan.job.units)],
    ]


def _arms(plan: Plan | ShapedPlan) -> str:
    seating, units = plan.job.seating, plan.job.units
    if seating.table_height is None or seating.arm_height is None:
        return ""
    height, arm = seating.table_height.mm, seating.arm_height.mm
    spare = height - plan.design.edge_thickness_mm - arm
    if spare < FIT_MM:
        return f"arms {show_mm(arm, units)} high do not go under the edge"
    said = f"arms {show_mm(arm, units)} high go under the edge, {show_mm(spare, units)} of air"
    if spare < float(trade.ARM_CLEARANCE.value) - FIT_MM:
        said += f" ({trade_least(float(trade.ARM_CLEARANCE.value), units)} is usual)"
    lowest = _lowest(plan)
    if lowest > plan.design.edge_thickness_mm + FIT_MM and height - lowest - arm < FIT_MM:
        said += ", but not under the frame of the base"
    return said


def _knees(plan: Plan | ShapedPlan) -> str:
    seating, units = plan.job.seating, plan.job.units
    if seating.table_height is None or seating.seat_height is None:
        return ""
    gap = seating.table_height.mm - _lowest(plan) - seating.seat_height.mm
    if gap < FIT_MM:
        return "the seat does not go under the table"
    least = trade_least(float(trade.THIGH_ROOM.value), units)
    return f"{show_mm(gap, units)} from the seat to the lowest part ({least} is the least that is usual)"


def _lowest(plan: Plan | ShapedPlan) -> float:
    """How far the lowest part of edge or apron lies below the upper face, mm."""
    apron = plan.job.base.apron_depth
    below = 0.0 if apron is None else plan.design.thickness_mm + apron.mm
    return max(plan.design.edge_thickness_mm, below)


def _passage(before: _Top | None, after: _Top, walls: PerSide[float | None], units: Units) -> str:
    rooms = _rooms(after, walls)
    old = None if before is None else _rooms(before, walls)
    said = []
    for side, room in rooms.items():
        if room is not None:
            was = "" if old is None or old[side] is None else f" (before {show_mm(old[side] or 0.0, units)})"
            said.append(f"{side} {show_mm(room, units)}{was}")
    usual = trade_least(float(trade.WALL_USUAL.value), units)
    return f"{', '.join(said)}; behind chairs {usual} is the least that is usual" if said else ""


def _rooms(top: _Top, walls: PerSide[float | None]) -> PerSide[float | None]:
    x0, y0, x1, y1 = top.outline.bounds
    edges: dict[str, float] = {"north": y1, "east": x1, "south": y0, "west": x0}

    def room(side: str) -> float | None:
        wall = walls[side]  # type: ignore[index]
        return None if wall is None else abs(wall - edges[side])

    return PerSide.build(room)
