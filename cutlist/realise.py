"""From chosen components to pieces: where each splice falls, under all the rules.

A component cut from one lane has nothing to decide. A spliced one is a small integer program: each side has slots for
its pieces in order; each slot is filled from one lane; splices keep their distance from corners, panel seams and the
splices of the layer below, lie on the bench grid, and no piece is shorter than the rule allows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from edgewright.cutlist.mip import IntegerProgram, Outcome
from edgewright.cutlist.model import Lane, PlanRules, RingSide

__all__ = ["Group", "Segment", "realise"]


@dataclass(frozen=True, slots=True)
class Group:
    """A component with its real sides and lanes."""

    sides: tuple[RingSide, ...]
    lanes: tuple[Lane, ...]


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of a side and the lane it is cut from."""

    side_id: str
    start: int
    length: int
    lane_id: str


@dataclass(frozen=True, slots=True)
class _Splice:
    """Variables of one possible splice: its position along the side, and whether it exists."""

    side: RingSide
    position: dict[int, int]
    exists: dict[int, int]


def realise(groups: Sequence[Group], rules: PlanRules) -> tuple[Segment, ...] | None:
    """Segments for spliced groups together, or None when the rules cannot all be kept.

    Raises
    ------
    RuntimeError
        Never: a program stopped at its node limit counts as not realisable.
    """
    program = IntegerProgram()
    splices: list[_Splice] = []
    slots: dict[tuple[str, int, str], tuple[int, int]] = {}
    left: dict[int, int] = {}
    for group in groups:
        _add_group(program, group, rules, splices, slots, left)
    _add_stagger(program, splices, rules)
    outcome = program.minimise(left)
    return None if outcome.values is None else _read(groups, slots, outcome)


def _add_group(
    program: IntegerProgram,
    group: Group,
    rules: PlanRules,
    splices: list[_Splice],
    slots: dict[tuple[str, int, str], tuple[int, int]],
    left: dict[int, int],
) -> None:
    uses_of_lane: dict[str, list[tuple[int, int]]] = {lane.id: [] for lane in group.lanes}
    all_uses = []
    for side in group.sides:
        count = 1 + min(side.max_splices, len(group.lanes) - 1)
        by_slot: list[list[tuple[int, int]]] = []
        for slot in range(count):
            by_slot.append([])
            for lane in group.lanes:
                use = program.variable(0, 1)
                most = min(side.length_ticks, lane.length_ticks)
                length = program.variable(0, most)
                program.row({length: 1, use: -most}, None, 0)
                program.row({length: 1, use: -min(rules.min_piece_ticks, side.length_ticks)}, 0)
                slots[side.id, slot, lane.id] = (use, length)
                by_slot[slot].append((use, length))
                uses_of_lane[lane.id].append((use, length))
                all_uses.append(use)
        program.row({use: 1 for use, _ in by_slot[0]}, 1, 1)
        for earlier, later in pairwise(by_slot):
            program.row({**{use: 1 for use, _ in earlier}, **{use: -1 for use, _ in later}}, 0)
        for column in zip(*by_slot, strict=True):
            program.row({use: 1 for use, _ in column}, None, 1)
        program.row({length: 1 for slot_rows in by_slot for _, length in slot_rows}, *[side.length_ticks] * 2)
        for slot in range(count - 1):
            position = {length: 1 for rows in by_slot[: slot + 1] for _, length in rows}
            exists = {use: 1 for use, _ in by_slot[slot + 1]}
            splices.append(_Splice(side, position, exists))
            _keep_rules(program, splices[-1], rules)
    # A tree of N sides and B lanes: exactly N + B - 1 pieces, every lane used.
    pieces = len(group.sides) + len(group.lanes) - 1
    program.row(dict.fromkeys(all_uses, 1), pieces, pieces)
    keep = []
    for lane in group.lanes:
        uses = uses_of_lane[lane.id]
        program.row({use: 1 for use, _ in uses}, 1)
        terms = {length: 1 for _, length in uses} | {use: rules.kerf_ticks for use, _ in uses}
        rest = program.variable(0, lane.length_ticks)
        program.row({**terms, rest: 1}, None, lane.length_ticks + rules.kerf_ticks)
        chosen = program.variable(0, 1)
        program.row({rest: 1, chosen: -lane.length_ticks}, None, 0)
        keep.append(chosen)
        left[rest] = -1
    program.row(dict.fromkeys(keep, 1), None, 1)


def _keep_rules(program: IntegerProgram, splice: _Splice, rules: PlanRules) -> None:
    """Corner distances, seam distances and the bench grid for one possible splice."""
    side = splice.side
    length = side.length_ticks
    low = max(0, rules.from_corner_ticks - side.start_offset_ticks)
    high = max(0, rules.from_corner_ticks - side.end_offset_ticks)
    program.row({**splice.position, **dict.fromkeys(splice.exists, -low)}, 0)
    program.row({**splice.position, **dict.fromkeys(splice.exists, high)}, None, length)
    for seam in side.seams_ticks:
        before = program.variable(0, 1)
        far = rules.from_seam_ticks
        big = length + far + abs(seam)
        # before = 1: position <= seam - far; before = 0: position >= seam + far; slack when there is no splice.
        program.row(
            {**splice.position, before: big, **dict.fromkeys(splice.exists, big)}, None, seam - far + 2 * big
        )
        program.row({**splice.position, before: big, **dict.fromkeys(splice.exists, -big)}, seam + far - big)
    grid = rules.grid_ticks
    if grid > 1:
        steps = program.variable(0, length // grid)
        rest = program.variable(0, grid - 1)
        program.row({**splice.position, steps: -grid, rest: -1}, 0, 0)
        program.row({rest: 1, **dict.fromkeys(splice.exists, grid - 1)}, None, grid - 1)


def _add_stagger(program: IntegerProgram, splices: Sequence[_Splice], rules: PlanRules) -> None:
    """Keep splices of neighbouring layers on the same side of the top apart."""
    for i, a in enumerate(splices):
        for b in splices[i + 1 :]:
            if a.side.side != b.side.side or abs(a.side.layer - b.side.layer) != 1:
                continue
            offset = a.side.start_offset_ticks - b.side.start_offset_ticks
            first = program.variable(0, 1)
            far = rules.stagger_ticks
            big = a.side.length_ticks + b.side.length_ticks + abs(offset) + far
            gap = {**a.position, **{v: -c for v, c in b.position.items()}}
            both = dict.fromkeys((*a.exists, *b.exists), big)
            # first = 1: a lies at least `far` before b; first = 0: after it; slack unless both exist.
            program.row({**gap, first: big, **both}, None, 3 * big - far - offset)
            program.row({**gap, first: big, **{e: -c for e, c in both.items()}}, far - offset - 2 * big)


def _read(
    groups: Sequence[Group], slots: dict[tuple[str, int, str], tuple[int, int]], outcome: Outcome
) -> tuple[Segment, ...]:
    values = outcome.values or ()
    segments = []
    for group in groups:
        for side in group.sides:
            start = 0
            for (side_id, _, lane_id), (use, length) in slots.items():
                if side_id == side.id and values[use]:
                    segments.append(Segment(side.id, start, values[length], lane_id))
                    start += values[length]
    return tuple(segments)
