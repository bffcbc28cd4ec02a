"""Fill lanes one after another: from chosen components to pieces, without a solver.

In a component whose pieces form a tree there is always a lane that ends it: whole sides and one piece of a side that
goes on elsewhere. Such a lane is filled and taken away, until one lane is left that takes the rest. The piece that goes
on is cut as long as the lane and the rules allow, for then what stays to be covered is shortest; so all that is left
over gathers in the last lane, as one remnant. A side goes on from either of its ends, which moves the splice.

Where a rule leaves no tree (say, because the piece over would be too short), a lane may end in two pieces that both go
on: each such lane costs one splice and one kerf more.

The search is bounded by a count of steps; what it finds is right, that it finds nothing proves nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from edgewright.cutlist.model import Lane, PlanRules, RingSide

__all__ = ["Group", "Segment", "fill_lanes", "lies_over"]

_STEP_LIMIT = 600
_MOST_WAYS = 12


@dataclass(frozen=True, slots=True)
class Group:
    """A component with its real sides and lanes; ``loops`` pieces more than a tree would have."""

    sides: tuple[RingSide, ...]
    lanes: tuple[Lane, ...]
    loops: int = 0


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of a side and the lane it is cut from."""

    side_id: str
    start: int
    length: int
    lane_id: str


@dataclass(frozen=True, slots=True)
class _Open:
    """The stretch of a side that is not covered yet, and the splices it may still get."""

    side: RingSide
    start: int
    end: int
    splices: int

    @property
    def length(self) -> int:
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to fill the lanes of a group; ``rest`` is what the last lane has left."""

    segments: tuple[Segment, ...]
    rest: int


class _Search:
    """What the search may still spend, and what it knows to fail; ``layers`` if splices of layers must keep apart."""

    def __init__(self, rules: PlanRules, steps: int, layers: bool) -> None:
        self.rules, self.steps, self.layers = rules, steps, layers
        self.failed: set[object] = set()

    def kind(self, stretch: _Open) -> tuple[object, ...]:
        """Equal for stretches that are alike to the search."""
        side = stretch.side
        place = (side.layer, side.side) if self.layers else ()
        rules = (side.start_offset_ticks, side.end_offset_ticks, side.seams_ticks, stretch.splices)
        return (side.length_ticks, stretch.start, stretch.end, rules, place)


Splices = tuple[tuple[RingSide, int], ...]


def lies_over(a: RingSide, b: RingSide) -> bool:
    """Whether two sides are of neighbouring layers under the same edge of the same top (``2.N1``: top 2)."""
    same_top = a.id.rpartition(".")[0] == b.id.rpartition(".")[0]
    return same_top and a.side == b.side and abs(a.layer - b.layer) == 1


def fill_lanes(groups: Sequence[Group], rules: PlanRules) -> tuple[Segment, ...] | None:
    """Segments of all groups together, or None when none were found; the groups share no side and no lane."""
    layers = {side.layer for group in groups for side in group.sides}
    search = _Search(rules, _STEP_LIMIT * len(groups), len(layers) > 1)

    def extend(number: int, splices: Splices) -> tuple[Segment, ...] | None:
        if number == len(groups):
            return ()
        if search.steps < 0:
            return None
        group = groups[number]
        sides = {side.id: side for side in group.sides}
        for way in _best_ways(group, splices, search):
            own = tuple((sides[s.side_id], s.start) for s in way.segments if s.start)
            others = extend(number + 1, splices + own)
            if others is not None:
                return way.segments + others
        return None

    return extend(0, ())


def _best_ways(group: Group, splices: Splices, search: _Search) -> list[_Way]:
    """A few ways, that with the longest remnant first; one is enough if its remnant is all there can be."""
    opens = [_Open(side, 0, side.length_ticks, side.max_splices) for side in group.sides]
    opens.sort(key=lambda stretch: repr(search.kind(stretch)))
    left_over = sum(lane.length_ticks for lane in group.lanes) - sum(o.length for o in opens)
    left_over -= (len(opens) - 1 + group.loops) * search.rules.kerf_ticks
    found = []
    for way in islice(_ways(tuple(opens), group.lanes, group.loops, splices, search), _MOST_WAYS):
        if way.rest >= left_over - search.rules.grid_ticks and not search.layers:
            return [way]
        found.append(way)
    return sorted(found, key=lambda way: -way.rest)


def _ways(
    opens: tuple[_Open, ...], lanes: tuple[Lane, ...], loops: int, splices: Splices, search: _Search
) -> Iterator[_Way]:
    """Ways to cover the open stretches from exactly these lanes."""
    rules = search.rules
    kerf = rules.kerf_ticks
    need = sum(o.length for o in opens) + (len(opens) - 1) * kerf
    spare = sum(lane.length_ticks for lane in lanes) - need
    search.steps -= 1
    if not opens or spare < 0 or search.steps < 0:
        return
    if len(lanes) == 1:
        yield _Way(tuple(Segment(o.side.id, o.start, o.length, lanes[0].id) for o in opens), spare)
        return
    if sum(o.splices for o in opens) < len(lanes) - 1:
        return
    lengths = tuple(sorted(lane.length_ticks for lane in lanes))
    kinds = tuple(sorted(map(repr, map(search.kind, opens))))
    state = (kinds, lengths, loops, splices if search.layers else ())
    if state in search.failed:
        return
    fruitless = True
    for lane in _unlike_lanes(lanes):
        others = tuple(other for other in lanes if other.id != lane.id)
        for whole in _whole_sides(opens, lane.length_ticks + kerf, search):
            search.steps -= 1
            if search.steps < 0:
                return
            taken = tuple(Segment(o.side.id, o.start, o.length, lane.id) for o in whole)
            room = lane.length_ticks - sum(o.length + kerf for o in whole)
            if room < rules.min_piece_ticks:
                continue
            rest = [o for o in opens if o not in whole]
            for parts, left, used in _going_on(rest, room, loops, splices, search):
                own = tuple(Segment(o.side.id, at, n, lane.id) for o, at, n in parts)
                placed = splices + tuple((o.side, at if at > o.start else at + n) for o, at, n in parts)
                for way in _ways(left, others, loops - used, placed, search):
                    fruitless = False
                    yield _Way(taken + own + way.segments, way.rest)
                if search.steps < 0:
                    return
    if fruitless:
        search.failed.add(state)


def _unlike_lanes(lanes: tuple[Lane, ...]) -> list[Lane]:
    """One lane of each length, the shortest first: a short lane is most often the end of a tree."""
    kinds = {lane.length_ticks: lane for lane in reversed(lanes)}
    return [kinds[length] for length in sorted(kinds)]


def _whole_sides(opens: tuple[_Open, ...], room: int, search: _Search) -> Iterator[tuple[_Open, ...]]:
    """Sets of stretches that fit in a lane as they are; of stretches that are alike the first ones."""
    kinds = [search.kind(stretch) for stretch in opens]

    def pick(index: int, left: int) -> Iterator[tuple[_Open, ...]]:
        if index == len(opens):
            yield ()
            return
        here = opens[index]
        taken = here.length + search.rules.kerf_ticks
        if taken < left:
            for more in pick(index + 1, left - taken):
                yield (here, *more)
        unlike = index + 1
        while unlike < len(opens) and kinds[unlike] == kinds[index]:
            unlike += 1
        yield from pick(unlike, left)

    return pick(0, room)


def _going_on(
    opens: Sequence[_Open], room: int, loops: int, splices: Splices, search: _Search
) -> Iterator[tuple[list[tuple[_Open, int, int]], tuple[_Open, ...], int]]:
    """Pieces (stretch, start, length) that end a lane and go on elsewhere; what stays open; loops used."""
    rules, seen = search.rules, set()
    for index, here in enumerate(opens):
        if search.kind(here) in seen:
            continue
        seen.add(search.kind(here))
        others = (*opens[:index], *opens[index + 1 :])
        for piece, left in _long_pieces(here, room, splices, search):
            yield [piece], (left, *others), 0
    if loops <= 0:
        return
    for index, here in enumerate(opens):
        for other in (*opens[:index], *opens[index + 1 :]):
            others = tuple(o for o in opens if o not in (here, other))
            for share in (rules.min_piece_ticks, room // 3, room // 2):
                for piece, left in _long_pieces(here, room - share - rules.kerf_ticks, splices, search):
                    placed = (*splices, (here.side, left.start if left.start > here.start else left.end))
                    free = room - piece[2] - rules.kerf_ticks
                    for second, rest in _long_pieces(other, free, placed, search):
                        yield [piece, second], (left, rest, *others), 1


def _long_pieces(
    here: _Open, room: int, splices: Splices, search: _Search
) -> Iterator[tuple[tuple[_Open, int, int], _Open]]:
    """Longest piece from the start of a stretch, then from its end, and the stretch that stays."""
    rules = search.rules
    search.steps -= 1
    if here.splices < 1 or search.steps < 0:
        return
    least = rules.min_piece_ticks
    at = _allowed(here.side, min(here.start + room, here.end - least), -1, splices, rules)
    if at is not None and at >= here.start + least:
        yield (here, here.start, at - here.start), _Open(here.side, at, here.end, here.splices - 1)
    at = _allowed(here.side, max(here.end - room, here.start + least), 1, splices, rules)
    if at is not None and at <= here.end - least:
        yield (here, at, here.end - at), _Open(here.side, here.start, at, here.splices - 1)


def _allowed(side: RingSide, at: int, step: int, splices: Splices, rules: PlanRules) -> int | None:
    """Nearest place for a splice at ``at`` or, by ``step``, before (-1) or behind it (1); None if there is none."""
    grid = rules.grid_ticks
    low = max(0, rules.from_corner_ticks - side.start_offset_ticks)
    high = side.length_ticks - max(0, rules.from_corner_ticks - side.end_offset_ticks)
    barred = [(seam, rules.from_seam_ticks) for seam in side.seams_ticks]
    barred += [
        (other.start_offset_ticks + there - side.start_offset_ticks, rules.stagger_ticks)
        for other, there in splices
        if lies_over(other, side)
    ]
    at = min(at, high) if step < 0 else max(at, low)
    while low <= at <= high:
        at = at // grid * grid if step < 0 else -(-at // grid) * grid
        near = [(place, far) for place, far in barred if abs(at - place) < far]
        if not near:
            return at if low <= at <= high else None
        at = min(place - far for place, far in near) if step < 0 else max(place + far for place, far in near)
    return None
