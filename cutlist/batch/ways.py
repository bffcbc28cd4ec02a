"""Every way in which a stick may be ripped: strips of one width, or of two widths side by side.

A stick of wood that is full of defects, or an offcut with a rounded corner, is ripped to one width only, for there the
length of a strip depends on where it lies. All limits are counts: widths near to the stick's own come first.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from edgewright.compass import is_lengthwise
from edgewright.cutlist.batch.model import BatchJob, Family, SharedStick, Strip, Wood
from edgewright.cutlist.boards import Board, board_sticks
from edgewright.cutlist.clean_runs import Clearance
from edgewright.cutlist.demand import SLIVER, offcut_stock
from edgewright.cutlist.model import Lane, Stick
from edgewright.cutlist.offcuts import in_offcut, offcut_sticks
from edgewright.ticks import part_ticks
from edgewright.trade import inch

__all__ = ["MOST_MIXED", "MOST_SINGLE", "board_kinds", "offcuts"]

#: Ways of one width, and of two widths side by side, for one stick.
MOST_SINGLE = 5
MOST_MIXED = 6
#: Boards are ripped to every width that a job asks for, up to so many.
_MOST_BOARD_SINGLE = 60
#: How far the thickness of wood may be from that of the strips: boards, and offcuts.
_BOARD_FITS = part_ticks(inch("1/64"))
_OFFCUT_FITS = part_ticks(inch("1/32"))

Way = tuple[Strip, ...]


def offcuts(job: BatchJob, own: int, families: Sequence[Family]) -> tuple[SharedStick, ...]:
    """Offcuts of a job as sticks for all; ``own`` is the job's family."""
    top = job.job.top
    fits = [
        n
        for n, family in enumerate(families)
        if family.material == top.material
        and abs(top.thickness_mean.ticks() - family.strip_thickness) <= _OFFCUT_FITS
    ]
    found = []
    for stick in offcut_sticks(offcut_stock(job.design, job.width), SLIVER):
        usable = fits
        with_grain = stick.side is None or is_lengthwise(stick.side) == (top.grain_along == "length")
        if top.material == "solid wood" and not with_grain:
            usable = [n for n in fits if n == own]  # in a strip of another job its grain would run across
        ways = _offcut_ways(job, stick, usable, families)
        found.append(
            SharedStick(
                id=f"{job.number}.{stick.id}",
                name=stick.name,
                source="offcut",
                job=job.number,
                side=stick.side,
                length=stick.length_ticks,
                width=stick.width_ticks,
                price_cents=0,
                edge_waste=0,
                defects=(),
                ways=ways,
            )
        )
    return tuple(found)


def _offcut_ways(
    job: BatchJob, own: Stick, usable: Sequence[int], families: Sequence[Family]
) -> tuple[Way, ...]:
    by_width = _by_width(usable, families)
    single: dict[int, Way] = {}
    for width in sorted(by_width, key=lambda w: (abs(w - job.width), w))[:MOST_SINGLE]:
        stock = offcut_stock(job.design, width)
        if stock.pitch - stock.kerf > width + SLIVER:
            continue  # the bench grid of this job knows no such width
        stick = next(s for s in offcut_sticks(stock, SLIVER) if s.side == own.side)
        if any(lane.length_ticks for lane in stick.lanes):
            single[width] = tuple(
                Strip(_prefixed(lanes, f"{job.number}."), width, stock.pitch, by_width[width])
                for lanes in stick.strips
            )
    stock = offcut_stock(job.design, job.width)
    side = own.side
    assert side is not None
    amount, finish = stock.amounts[side], stock.finished_depth[side]
    touched = any(
        max(box.across_ticks) > 0 for box in (in_offcut(defect, stock, side) for defect in stock.defects)
    )
    mixed: list[Way] = []
    if not touched and not stock.corner_radius:
        for inner, outer in _pairs(list(single)):
            a, b = single[inner][0], single[outer][0]
            for n, m in _shares(amount - finish, a.pitch, b.pitch):
                strips = [replace(a, lanes=_named(a, f"{job.number}.{own.id} {i}")) for i in range(1, n + 1)]
                strips += [
                    replace(b, lanes=_named(b, f"{job.number}.{own.id} {n + i}")) for i in range(1, m + 1)
                ]
                strips = [
                    replace(s, lanes=(replace(s.lanes[0], width_ticks=s.pitch - stock.kerf),)) for s in strips
                ]
                left_over = amount - n * a.pitch - m * b.pitch
                if left_over <= SLIVER and not finish:
                    last = strips[-1].lanes[0]
                    widened = replace(last, width_ticks=last.width_ticks + left_over)
                    strips[-1] = replace(strips[-1], lanes=(widened,))
                mixed.append(tuple(strips))
    return _worth_having([*single.values(), *mixed[:MOST_MIXED]])


def board_kinds(
    wood: Wood, families: Sequence[Family], needs: Sequence[int], clearance: Clearance, kerf: int, grid: int
) -> tuple[SharedStick, ...]:
    """All boards of a kind as sticks; an unlimited kind stands as often as could ever be of use.

    Parameters
    ----------
    needs
        Length of all sides of each family.
    """
    usable = [
        n
        for n, family in enumerate(families)
        if family.material == wood.material and abs(wood.thickness - family.strip_thickness) <= _BOARD_FITS
    ]
    by_width = _by_width(usable, families)
    need = sum(needs[n] for n in usable)
    single: dict[int, Way] = {}
    copies = 0
    board = Board(
        "", wood.length, wood.width, wood.finished_depth, wood.count, wood.price_cents, wood.defects
    )
    for width in sorted(by_width)[:_MOST_BOARD_SINGLE]:
        sticks = board_sticks((board,), width, kerf, need, clearance, grid)
        if sticks and any(lane.length_ticks for lane in sticks[0].lanes):
            copies = max(copies, len(sticks))
            single[width] = tuple(
                Strip(lanes, width, width + kerf, by_width[width]) for lanes in sticks[0].strips
            )
    mixed: list[Way] = []
    if not wood.defects:
        room = wood.width - 2 * wood.finished_depth + kerf
        for wide, narrow in _pairs(list(single)):
            a, b = single[wide][0], single[narrow][0]
            mixed += [(*[a] * n, *[b] * m) for n, m in _shares(room, a.pitch, b.pitch)]
    ways = _worth_having([*single.values(), *mixed[: 3 * MOST_MIXED]])
    found = []
    for number in range(1, copies + 1):
        label = wood.name if wood.count == 1 else f"{wood.name} {number}"
        found.append(
            SharedStick(
                id=f"0.{label}",
                name=wood.name,
                source="on hand" if wood.price_cents is None else "for sale",
                job=0,
                side=None,
                length=wood.length,
                width=wood.width,
                price_cents=wood.price_cents or 0,
                edge_waste=wood.finished_depth,
                defects=wood.defects,
                ways=tuple(
                    tuple(
                        replace(strip, lanes=_renamed(strip.lanes, f"0.{label} lane {row}"))
                        for row, strip in enumerate(way, 1)
                    )
                    for way in ways
                ),
            )
        )
    return tuple(found)


def _by_width(usable: Sequence[int], families: Sequence[Family]) -> dict[int, tuple[int, ...]]:
    found: dict[int, list[int]] = {}
    for n in usable:
        found.setdefault(families[n].width, []).append(n)
    return {width: tuple(numbers) for width, numbers in found.items()}


def _pairs(widths: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Two widths side by side, those near the front of the list first."""
    for reach in range(1, len(widths)):
        for first in range(reach):
            yield widths[first], widths[reach]


def _shares(room: int, a: int, b: int) -> Iterator[tuple[int, int]]:
    """How many strips of two pitches lie side by side with no room for one more, many of the first at first."""
    for n in range((room - b) // a, 0, -1):
        yield n, (room - n * a) // b


def _worth_having(ways: Sequence[Way]) -> tuple[Way, ...]:
    """Ways without those whose strips another gives as well."""
    counts = [
        Counter(
            (lane.length_ticks, strip.families) for strip in way for lane in strip.lanes if lane.length_ticks
        )
        for way in ways
    ]
    kept: list[int] = []
    for n, count in enumerate(counts):
        less = (
            m for m, other in enumerate(counts) if m != n and count <= other and (count != other or m < n)
        )
        if next(less, None) is None:
            kept.append(n)
    return tuple(ways[n] for n in kept)


def _prefixed(lanes: Sequence[Lane], prefix: str) -> tuple[Lane, ...]:
    return tuple(replace(lane, id=prefix + lane.id, strip=prefix + lane.strip) for lane in lanes)


def _named(strip: Strip, name: str) -> tuple[Lane, ...]:
    return (replace(strip.lanes[0], id=name, strip=name),)


def _renamed(lanes: Sequence[Lane], strip: str) -> tuple[Lane, ...]:
    """The lanes of a strip under another name; runs keep their letters."""
    return tuple(replace(lane, id=strip + lane.id.removeprefix(lane.strip), strip=strip) for lane in lanes)
