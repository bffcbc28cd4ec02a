"""The saw cuts through the panel, in order: from the outside in, each measured from the far edge.

Cuts along the longer extent come first, at full length. On each axis the north or east side is cut first, from the old
opposite edge; then the other side, from the fresh edge just made: there the datum hands over. The strips that the plan
uses are ripped while the offcut is still part of the panel, so no narrow piece is ever held by hand.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from edgewright.compass import OPPOSITE, PerSide, Side, is_lengthwise
from edgewright.cutlist.model import PanelAsCut, PlanRules, SawCut, Stick
from edgewright.cutlist.offcuts import rip_sides

__all__ = ["Ripped", "cut_order", "guide_position", "outermost_strip", "panel_cuts", "saw_cuts"]


def guide_position(keep: int, rules: PlanRules) -> int:
    """Where the guide's edge is clamped, measured from the datum, ticks.

    The guide offset runs from the guide to the near side of the kerf: on the keep side that is the keep line, on the
    waste side the far edge of the kerf.
    """
    if rules.guide_side == "keep":
        return keep - rules.guide_offset_ticks
    return keep + rules.kerf_ticks + rules.guide_offset_ticks


def cut_order(old: tuple[int, int], amounts: PerSide[int]) -> tuple[Side, ...]:
    """Sides in the order they are cut; sides that are not cut are left out."""
    first, second = rip_sides(old)
    across: tuple[Side, Side] = ("east", "west") if first == "north" else ("north", "south")
    return tuple(side for side in (first, second, *across) if amounts[side])


def outermost_strip(stick: Stick | None, used_lanes: frozenset[str]) -> int:
    """How many strips of a stick are ripped: up to the outermost that is used."""
    if stick is None:
        return 0
    used = (n for n, strip in enumerate(stick.strips, 1) if any(lane.id in used_lanes for lane in strip))
    return max(used, default=0)


@dataclass(frozen=True, slots=True)
class Ripped:
    """A strip ripped off the panel: its pitch, whether a sliver stays on it, and what its cut frees."""

    pitch: int
    widened: bool
    yields: str


def _ripped(stick: Stick, used_lanes: frozenset[str], pitch: int, rules: PlanRules) -> tuple[Ripped, ...]:
    """Strips up to the outermost that is used; one without clean wood is ripped only to reach the next."""
    return tuple(
        Ripped(
            pitch,
            strip[0].width_ticks > pitch - rules.kerf_ticks,
            strip[0].strip if any(lane.length_ticks for lane in strip) else f"rest of {strip[0].strip}",
        )
        for strip in stick.strips[: outermost_strip(stick, used_lanes)]
    )


def saw_cuts(
    old: tuple[int, int],
    amounts: PerSide[int],
    sticks: Sequence[Stick],
    used_lanes: frozenset[str],
    pitch: int,
    rules: PlanRules,
    as_cut: PanelAsCut | None = None,
) -> tuple[SawCut, ...]:
    """All cuts through the panel, numbered from 1, or from where a panel already begun stands.

    Parameters
    ----------
    amounts
        What comes off each side; of a panel already begun what still does.
    sticks
        The offcut sticks with their lanes from the finished edge outwards, without those that came off already.
    used_lanes
        Ids of the lanes that pieces come from.
    pitch
        Distance between neighbouring keep lines.
    as_cut
        The panel after the cuts made; None before the first.
    """
    ripped: dict[Side, tuple[Ripped, ...]] = {
        stick.side: _ripped(stick, used_lanes, pitch, rules) for stick in sticks if stick.side is not None
    }
    return panel_cuts(old, amounts, ripped, rules, as_cut)


def panel_cuts(
    old: tuple[int, int],
    amounts: PerSide[int],
    ripped: Mapping[Side, Sequence[Ripped]],
    rules: PlanRules,
    as_cut: PanelAsCut | None = None,
) -> tuple[SawCut, ...]:
    """All cuts through the panel, as `saw_cuts`; ``ripped`` are the strips of each side from inside out."""
    extent = {"north": old[1], "south": old[1], "east": old[0], "west": old[0]}
    fresh: set[Side] = set()
    made = 0
    if as_cut is not None:
        extent["north"] = extent["south"] = as_cut.north_ticks - as_cut.south_ticks
        extent["east"] = extent["west"] = as_cut.east_ticks - as_cut.west_ticks
        fresh, made = set(as_cut.fresh), as_cut.cuts_made
    cuts: list[SawCut] = []
    for side in cut_order(old, amounts):
        along: Side = "east" if is_lengthwise(side) else "north"
        before = extent[side]
        for keep, yields in _keep_lines(before - amounts[side], amounts[side], ripped.get(side, ()), side):
            width = max(0, before - keep - rules.kerf_ticks)
            cuts.append(
                SawCut(
                    number=made + len(cuts) + 1,
                    kind="rip" if side in rip_sides(old) else "crosscut",
                    side=side,
                    datum=OPPOSITE[side],
                    datum_edge="fresh" if OPPOSITE[side] in fresh else "old",
                    keep_ticks=keep,
                    kerf_end_ticks=keep + rules.kerf_ticks,
                    guide_side=rules.guide_side,
                    guide_offset_ticks=rules.guide_offset_ticks,
                    guide_ticks=guide_position(keep, rules),
                    panel_before_ticks=before,
                    offcut_width_ticks=width,
                    offcut_length_ticks=extent[along],
                    yields=yields if width else None,
                )
            )
            before = keep
        extent[side] = extent[OPPOSITE[side]] = before
        fresh.add(side)
    return tuple(cuts)


def _keep_lines(
    finished: int,
    amount: int,
    ripped: Sequence[Ripped],
    side: Side,
) -> Iterator[tuple[int, str]]:
    """Keep lines of one side from the outside in, and what each cut frees."""
    rest = f"rest of offcut {side}"
    if not ripped:
        yield finished, rest
        return
    at = sum(strip.pitch for strip in ripped)
    if amount > at and not ripped[-1].widened:
        yield finished + at, rest
    for strip in reversed(ripped):
        at -= strip.pitch
        yield finished + at, strip.yields
