"""Chain the lines of one layer to loops; what stays open, branches or is drawn twice is told with its place.

Lines that follow on one another in the file are chained first, as a writer puts them; what is left is chained by its
ends. Ends within 1 µm are one point.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.drawing.chain_edges import Points
from edgewright.dxf_audit.paths import Edge, Path, Place

__all__ = ["Chains", "Gap", "Run", "chains_of"]

#: Open ends whose distances are compared; a layer with more of them is a mess that any of its gaps tells.
_MOST_ENDS: Final = 600


@dataclass(frozen=True, slots=True)
class Run:
    """Edges one after the other; ``label`` names the entities they come from."""

    label: str
    edges: tuple[Edge, ...]
    closed: bool


@dataclass(frozen=True, slots=True)
class Gap:
    """Two open ends that lie nearest one another."""

    one: Place
    other: Place

    @property
    def wide(self) -> float:
        """How far apart (mm)."""
        return math.dist(self.one, self.other)


@dataclass(frozen=True, slots=True)
class Chains:
    """The lines of a layer.

    Attributes
    ----------
    doubles
        Pairs of labels: a line, and the one that it repeats; the former is in no run.
    branches
        Places where more than two lines end that the file does not put in order.
    """

    runs: tuple[Run, ...]
    gaps: tuple[Gap, ...]
    doubles: tuple[tuple[str, str], ...]
    branches: tuple[tuple[Place, int], ...]


@dataclass(slots=True)
class _Strand:
    """A run on its way: its paths, and the numbers of the points it begins and ends at."""

    labels: list[str]
    edges: list[Edge]
    start: int
    end: int


def chains_of(paths: Sequence[Path]) -> Chains:
    """Chain the paths of one layer."""
    points = Points()
    runs = [Run(path.label, path.edges, True) for path in paths if path.closed]
    doubles: list[tuple[str, str]] = []
    strands: list[_Strand] = []
    for path in paths:
        if path.closed:
            continue
        start, end = points.number(path.edges[0][0]), points.number(path.edges[-1][1])
        strand = _Strand([path.label], list(path.edges), start, end)
        last = strands[-1] if strands else None
        if last is not None and _repeats(strand.edges, last.edges[-len(path.edges) :], points):
            doubles.append((path.label, last.labels[-1]))
        elif last is None or not _joined(last, strand):
            strands.append(strand)
        if strands and strands[-1].start == strands[-1].end:
            runs.append(_run(strands.pop(), closed=True))
    strands, repeated = _without_repeats(strands, runs, points)
    doubles += repeated
    branches = _branches(strands, points)
    for strand in _by_ends(strands):
        runs.append(_run(strand, closed=strand.start == strand.end))
    free = [place for run in runs if not run.closed for place in (run.edges[0][0], run.edges[-1][1])]
    return Chains(tuple(runs), _gaps(free), tuple(doubles), branches)


def _run(strand: _Strand, *, closed: bool) -> Run:
    first, last = strand.labels[0], strand.labels[-1]
    return Run(
        first if len(strand.labels) == 1 else f"the line from {first} to {last}", tuple(strand.edges), closed
    )


def _turned(edges: Sequence[Edge]) -> list[Edge]:
    return [(end, start, -bulge) for start, end, bulge in reversed(edges)]


def _joined(last: _Strand, new: _Strand) -> bool:
    """Whether a strand goes on where the last one ends; it is then part of it."""
    if last.start == last.end:
        return False
    if last.end not in (new.start, new.end):
        # the first line of a run may be drawn the other way round
        if len(last.labels) > 1 or last.start not in (new.start, new.end):
            return False
        last.edges, last.start, last.end = _turned(last.edges), last.end, last.start
    _append(last, new)
    return True


def _append(last: _Strand, new: _Strand) -> None:
    forward = new.start == last.end
    last.edges += new.edges if forward else _turned(new.edges)
    last.labels += new.labels if forward else new.labels[::-1]
    last.end = new.end if forward else new.start


def _key(edge: Edge, points: Points) -> tuple[int, int, float]:
    a, b = points.number(edge[0]), points.number(edge[1])
    turn = round(edge[2] if a <= b else -edge[2], 6) + 0.0
    return min(a, b), max(a, b), turn


def _repeats(edges: Sequence[Edge], others: Sequence[Edge], points: Points) -> bool:
    return len(edges) == len(others) and {_key(e, points) for e in edges} == {_key(e, points) for e in others}


def _without_repeats(
    strands: Sequence[_Strand], runs: Sequence[Run], points: Points
) -> tuple[list[_Strand], list[tuple[str, str]]]:
    """Strands of one line each that are not part of any other run, and what the others repeat."""
    seen: dict[tuple[int, int, float], str] = {}
    for run in runs:
        for edge in run.edges:
            seen.setdefault(_key(edge, points), run.label)
    kept, doubles = [], []
    # long strands first, so that the single line counts as the repeat
    order = sorted(range(len(strands)), key=lambda n: (-len(strands[n].edges), n))
    for number in order:
        strand = strands[number]
        keys = {_key(edge, points) for edge in strand.edges}
        if all(key in seen for key in keys):
            doubles.append((_run(strand, closed=False).label, seen[min(keys)]))
            continue
        kept.append(number)
        for key in keys:
            seen.setdefault(key, strand.labels[0])
    return [strands[number] for number in sorted(kept)], doubles


def _branches(strands: Sequence[_Strand], points: Points) -> tuple[tuple[Place, int], ...]:
    count: dict[int, int] = {}
    for strand in strands:
        for end in (strand.start, strand.end):
            count[end] = count.get(end, 0) + 1
    return tuple((points.places[end], many) for end, many in count.items() if many > 2)


def _by_ends(strands: Sequence[_Strand]) -> list[_Strand]:
    """Chain strands where exactly two of them meet."""
    meeting: dict[int, list[int]] = {}
    for number, strand in enumerate(strands):
        meeting.setdefault(strand.start, []).append(number)
        meeting.setdefault(strand.end, []).append(number)
    used: set[int] = set()

    def grown(strand: _Strand) -> None:
        while strand.start != strand.end:
            here = meeting[strand.end]
            after = [number for number in here if number not in used]
            if len(here) != 2 or not after:
                return
            used.add(after[0])
            _append(strand, strands[after[0]])

    found = []
    for number, first in enumerate(strands):
        if number in used:
            continue
        used.add(number)
        strand = _Strand(list(first.labels), list(first.edges), first.start, first.end)
        grown(strand)
        if strand.start != strand.end:
            strand.edges, strand.start, strand.end = _turned(strand.edges), strand.end, strand.start
            strand.labels.reverse()
            grown(strand)
        found.append(strand)
    return found


def _gaps(free: Sequence[Place]) -> tuple[Gap, ...]:
    """Pair open ends, nearest first."""
    ends = list(free[:_MOST_ENDS])
    pairs = sorted((math.dist(ends[a], ends[b]), a, b) for b in range(len(ends)) for a in range(b))
    taken: set[int] = set()
    found = []
    for _, a, b in pairs:
        if not {a, b} & taken:
            taken |= {a, b}
            found.append(Gap(ends[a], ends[b]))
    return tuple(found)
