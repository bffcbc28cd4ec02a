"""From chosen patterns to sticks and lanes with the blanks in their places."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from edgewright.cutlist.guillotine.model import Layout, PlacedBlank, Rest, RippedLane, StockRect
from edgewright.cutlist.guillotine.pool import Chosen
from edgewright.cutlist.guillotine.problem import Face, Problem

__all__ = ["fence_settings", "largest_remnant", "make_layouts", "make_rests", "room_beside"]

#: (kind, how many of each type) of a lane as it is sawn.
_Lane = tuple[int, dict[int, int]]


def make_layouts(problem: Problem, chosen: Chosen) -> tuple[Layout, ...]:
    """Layouts without the blanks too many, lanes and sticks that they leave empty left out."""
    free: dict[int, list[_Lane]] = {}
    for kind, blanks in _without_surplus(problem, chosen):
        free.setdefault(kind, []).append((kind, blanks))
    for lanes in free.values():
        lanes.sort(key=lambda lane: (-_area(problem, lane[1]), sorted(lane[1].items())))
    rips = [rip for rip, number in chosen.rips for _ in range(number)]
    rips.sort(key=lambda rip: (rip.face, rip.lanes))
    sawn: list[tuple[int, list[_Lane]]] = []
    for rip in rips:
        lanes = [free[k].pop(0) for k, n in rip.lanes for _ in range(n) if free.get(k)]
        if lanes:
            sawn.append((rip.face, lanes))
    ids = [list(_one_by_one(blank.ids)) for blank in problem.blanks]
    names: dict[int, Iterator[tuple[str, int]]] = {}
    layouts = []
    for f, lanes in sawn:
        face = problem.faces[f]
        if face.stick not in names:
            names[face.stick] = _copies(problem.sticks[face.stick].members)
        stock_id, copy = next(names[face.stick])
        lanes.sort(key=lambda lane: -problem.kinds[lane[0]].width)
        layouts.append(
            Layout(stock_id, copy, face.first, tuple(_placed(problem, face, lane, ids) for lane in lanes))
        )
    return tuple(layouts)


def _one_by_one(ids: Sequence[tuple[str, int]]) -> Iterator[str]:
    for name, count in ids:
        yield from [name] * count


def _copies(members: Sequence[tuple[str, int | None]]) -> Iterator[tuple[str, int]]:
    for name, count in sorted(members, key=lambda member: (member[1] is None, member[0])):
        copy = 0
        while count is None or copy < count:
            copy += 1
            yield name, copy


def _area(problem: Problem, blanks: dict[int, int]) -> int:
    return sum(n * problem.blanks[t].length * problem.blanks[t].width for t, n in blanks.items())


def _without_surplus(problem: Problem, chosen: Chosen) -> list[_Lane]:
    """Lanes that hold each blank once: whole lanes go first, then single blanks from the emptiest lanes."""
    lanes = [(lane.kind, dict(lane.blanks)) for lane, number in chosen.lanes for _ in range(number)]
    surplus = [-n for n in problem.demand]
    for _, blanks in lanes:
        for t, n in blanks.items():
            surplus[t] += n
    lanes.sort(key=lambda lane: (_area(problem, lane[1]), lane[0], sorted(lane[1].items())))
    kept = []
    for kind, blanks in lanes:
        if all(surplus[t] >= n for t, n in blanks.items()):
            for t, n in blanks.items():
                surplus[t] -= n
        else:
            kept.append((kind, blanks))
    for _, blanks in kept:
        for t in list(blanks):
            gone = min(blanks[t], max(surplus[t], 0))
            blanks[t] -= gone
            surplus[t] -= gone
            if not blanks[t]:
                del blanks[t]
    return [lane for lane in kept if lane[1]]


def _placed(problem: Problem, face: Face, lane: _Lane, ids: Sequence[list[str]]) -> RippedLane:
    kind = problem.kinds[lane[0]]
    along = dict(kind.items)
    pieces, start = [], 0
    for t in sorted(lane[1], key=lambda t: (-along[t], t)):
        blank = problem.blanks[t]
        if blank.grain and kind.grain != "free":
            turned = (blank.grain == "length") != (kind.grain == "along")
        else:
            turned = (blank.length, blank.width) != (along[t], kind.width)
        for _ in range(lane[1][t]):
            pieces.append(PlacedBlank(ids[t].pop(0), along[t], start, turned))
            start += along[t] + problem.kerf
    return RippedLane(kind.width, tuple(pieces))


def room_beside(layout: Layout, stock: StockRect, kerf: int) -> tuple[int, int]:
    """Length and width of the strip beside the lanes; the width is 0 where the kerf takes all."""
    length, across = (stock.length, stock.width) if layout.first == "length" else (stock.width, stock.length)
    return length, max(0, across - sum(lane.width + kerf for lane in layout.lanes))


def make_rests(
    layouts: Sequence[Layout], stock: dict[str, StockRect], kerf: int, least: int
) -> tuple[Rest, ...]:
    """What goes back to the rack: lane ends and strips beside the lanes, neither side of them below ``least``."""
    rests = []
    for layout in layouts:
        length, beside = room_beside(layout, stock[layout.stock_id], kerf)
        if beside >= max(least, 1):
            rests.append(Rest(layout.stock_id, layout.copy, length, beside))
        for lane in layout.lanes:
            end = length - sum(piece.length + kerf for piece in lane.pieces)
            if min(end, lane.width) >= max(least, 1):
                rests.append(Rest(layout.stock_id, layout.copy, end, lane.width))
    return tuple(rests)


def fence_settings(layouts: Sequence[Layout], stock: dict[str, StockRect]) -> int:
    """Distinct widths that are ripped."""
    widths = set()
    for layout in layouts:
        rect = stock[layout.stock_id]
        across = rect.width if layout.first == "length" else rect.length
        widths |= {lane.width for lane in layout.lanes if lane.width != across}
    return len(widths)


def largest_remnant(layouts: Sequence[Layout], stock: dict[str, StockRect], kerf: int, least: int) -> int:
    """Area of the largest strip beside lanes, or of a stick of one's own that was not touched."""
    touched: dict[str, int] = {}
    areas = [0]
    for layout in layouts:
        touched[layout.stock_id] = touched.get(layout.stock_id, 0) + 1
        length, beside = room_beside(layout, stock[layout.stock_id], kerf)
        if beside >= max(least, 1):
            areas.append(length * beside)
    for rect in stock.values():
        if rect.source != "for sale" and (rect.count or 0) > touched.get(rect.id, 0):
            areas.append(rect.length * rect.width)
    return max(areas)
