"""From types and groups back to the pieces and sticks that have names."""

from __future__ import annotations

from edgewright.cutlist.whole.cutting import Cutting
from edgewright.cutlist.whole.instance import Group, Instance
from edgewright.cutlist.whole.model import Pattern

__all__ = ["share_out"]


def share_out(inst: Instance, cutting: Cutting) -> tuple[tuple[tuple[str, int], ...], tuple[Pattern, ...]]:
    """Return the sticks used by name, and the patterns with names, in a fixed order."""
    used: dict[str, int] = {}
    for group, number in zip(inst.groups, cutting.sticks, strict=True):
        for name, taken in _by_kind(group, number):
            used[name] = taken
    open_lanes: dict[int, list[tuple[str, int, int]]] = {}
    for kind in sorted(inst.problem.kinds, key=lambda kind: kind.name):
        for length, each in sorted(kind.lanes):
            lane = inst.lane_of(length)
            if lane is not None and used.get(kind.name):
                open_lanes.setdefault(lane, []).append((kind.name, length, each * used[kind.name]))
    names = _names(inst)
    patterns: dict[tuple[str, int, tuple[tuple[str, int], ...]], int] = {}
    for (lane, counts), times in sorted(cutting.times, reverse=True):
        for _ in range(times):
            stick, length, left = open_lanes[lane][0]
            if left > 1:
                open_lanes[lane][0] = (stick, length, left - 1)
            else:
                open_lanes[lane].pop(0)
            cut: dict[str, int] = {}
            for at, count in enumerate(counts):
                for _ in range(count):
                    name = names[at].pop()
                    cut[name] = cut.get(name, 0) + 1
            key = (stick, length, tuple(cut.items()))
            patterns[key] = patterns.get(key, 0) + 1
    shown = tuple(
        Pattern(stick, length, cut, times) for (stick, length, cut), times in sorted(patterns.items())
    )
    return tuple(sorted((name, number) for name, number in used.items() if number)), shown


def _by_kind(group: Group, number: int) -> list[tuple[str, int]]:
    """Take sticks of the first kind by name as far as they go, then of the next."""
    shared = []
    for kind in group.kinds:
        taken = number if kind.count is None else min(number, kind.count)
        shared.append((kind.name, taken))
        number -= taken
    return shared


def _names(inst: Instance) -> list[list[str]]:
    """Names of the pieces of each type, one for each piece, the first by name last."""
    names: list[list[str]] = [[] for _ in inst.sizes]
    for piece in sorted(inst.problem.pieces, key=lambda piece: piece.name, reverse=True):
        if piece.count:
            names[inst.type_of(piece.length)].extend([piece.name] * piece.count)
    return names
