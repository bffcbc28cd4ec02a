"""The saw sequence of a plan: rips by fence setting, then crosscuts by stop, each with its kerf.

Both go from the widest to the narrowest and from the longest to the shortest. That is the order of the lanes in a stick
and of the pieces in a lane, so all cuts of one setting are made in one go, and every cut runs the full length or width
of what lies on the saw.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from edgewright import trade
from edgewright.cutlist.bench_cuts import how_held, how_ripped
from edgewright.cutlist.guillotine.model import GuillotinePlan, GuillotineRules, Layout, StockRect
from edgewright.ticks import part_ticks

__all__ = ["FenceSetting", "LaneRip", "StopCut", "StopSetting", "crosscut_list", "rip_list"]

_MIN_HELD = part_ticks(trade.MIN_HELD_WIDTH.value)


@dataclass(frozen=True, slots=True)
class LaneRip:
    """One rip. ``lane`` counts from 1 in its stick.

    Attributes
    ----------
    keep_ticks, kerf_end_ticks
        Where the lane ends and where the kerf does, from the edge of the stick the lanes start at; a kerf that runs out
        of the far edge ends there.
    before_ticks
        Width of what lies on the saw before the cut.
    attached
        An offcut too narrow to hold: rip it while it is part of the panel.
    """

    stock_id: str
    copy: int
    lane: int
    keep_ticks: int
    kerf_end_ticks: int
    before_ticks: int
    length_ticks: int
    attached: bool
    held: str


@dataclass(frozen=True, slots=True)
class FenceSetting:
    """All rips of one width."""

    width_ticks: int
    rips: tuple[LaneRip, ...]


@dataclass(frozen=True, slots=True)
class StopCut:
    """One crosscut from a lane; positions from the start of the lane.

    A piece that ends where its lane does needs no cut: ``sawn`` is False.
    """

    blank_id: str
    stock_id: str
    copy: int
    lane: int
    piece: int
    start_ticks: int
    end_ticks: int
    kerf_end_ticks: int
    sawn: bool
    held: str


@dataclass(frozen=True, slots=True)
class StopSetting:
    """All crosscuts to one length."""

    length_ticks: int
    cuts: tuple[StopCut, ...]


def rip_list(
    plan: GuillotinePlan, stock: Sequence[StockRect], rules: GuillotineRules
) -> tuple[FenceSetting, ...]:
    """Fence settings, widest first, with their rips stick by stick."""
    by_id = {rect.id: rect for rect in stock}
    settings: dict[int, list[LaneRip]] = {}
    for layout in plan.layouts:
        for width, rip in _rips(layout, by_id[layout.stock_id], rules.kerf):
            settings.setdefault(width, []).append(rip)
    return tuple(FenceSetting(width, tuple(settings[width])) for width in sorted(settings, reverse=True))


def _rips(layout: Layout, stock: StockRect, kerf: int) -> Iterator[tuple[int, LaneRip]]:
    length, across = _sides(layout, stock)
    attached = stock.source == "offcut" and across < _MIN_HELD
    start = 0
    for number, lane in enumerate(layout.lanes, 1):
        end = start + lane.width
        kerf_end = min(end + kerf, across)
        if end < across:
            yield (
                lane.width,
                LaneRip(
                    layout.stock_id, layout.copy, number, end, kerf_end, across - start, length, attached,
                    how_ripped(lane.width),
                ),
            )  # fmt: skip
        start = kerf_end


def crosscut_list(
    plan: GuillotinePlan, stock: Sequence[StockRect], rules: GuillotineRules
) -> tuple[StopSetting, ...]:
    """Stops, longest first, with the pieces cut at each."""
    by_id = {rect.id: rect for rect in stock}
    stops: dict[int, list[StopCut]] = {}
    for layout in plan.layouts:
        length, _ = _sides(layout, by_id[layout.stock_id])
        for number, lane in enumerate(layout.lanes, 1):
            for at, piece in enumerate(lane.pieces, 1):
                end = piece.start + piece.length
                stops.setdefault(piece.length, []).append(
                    StopCut(
                        piece.blank_id, layout.stock_id, layout.copy, number, at, piece.start, end,
                        min(end + rules.kerf, length), end < length,
                        how_held(piece.length, length - piece.start),
                    )
                )  # fmt: skip
    return tuple(StopSetting(length, tuple(stops[length])) for length in sorted(stops, reverse=True))


def _sides(layout: Layout, stock: StockRect) -> tuple[int, int]:
    """Length of the lanes and width across them."""
    return (stock.length, stock.width) if layout.first == "length" else (stock.width, stock.length)
