"""Tries every layout of given sticks: the checker's own search, for what counting alone does not settle.

Lanes are laid one after the other, stick after stick, the wider lanes of a stick first. Every lane is filled until none
of the blanks that are left goes in, and every stick is ripped until no lane is left that does: a layout that does
otherwise can be made one that does by moving blanks forward.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence

from edgewright.cutlist.check_guillotine_stock import Face, Sawmill
from edgewright.cutlist.check_search import Work
from edgewright.cutlist.check_steps import Steps

__all__ = ["can_lay"]

#: Inequalities that are asked at every step; more cost more than they save.
_MOST_ASKED = 4


def can_lay(mill: Sawmill, counts: Sequence[int], points: Sequence[Sequence[int]], work: Work) -> bool:
    """Whether so many sticks of each group can hold all blanks.

    ``points`` only make the search shorter. Raises `WorkLimitError` when it does not end within its steps.
    """
    return _Layouts(mill, counts, points, work).exists()


class _Layouts:
    def __init__(
        self, mill: Sawmill, counts: Sequence[int], points: Sequence[Sequence[int]], work: Work
    ) -> None:
        self.mill, self.work, self.kerf = mill, work, mill.kerf
        order = sorted(range(len(counts)), key=lambda s: mill.sticks[s].area)
        self.sticks = [s for s in order for _ in range(counts[s])]
        areas = [length * width for length, width, _ in mill.sizes]
        self.points = [areas, *points[-_MOST_ASKED:]]
        self.steps: dict[tuple[int, int, int], tuple[list[int], list[int]]] = {}
        self.later: list[list[int]] = []
        for p, worth in enumerate(self.points):
            sums = [0]
            for s in reversed(self.sticks):
                best = 0
                for f, face in enumerate(mill.sticks[s].faces):
                    steps = self.steps.get((p, s, f)) or _split(mill.rip_steps(face, worth))
                    self.steps[(p, s, f)] = steps
                    best = max(best, steps[1][-1])
                sums.append(sums[-1] + best)
            self.later.append(sums[::-1])
        self.failed: set[tuple[int, int, int, int, tuple[int, ...]]] = set()

    def exists(self) -> bool:
        return self._stick(0, tuple(self.mill.wanted))

    def _stick(self, at: int, left: tuple[int, ...]) -> bool:
        if not any(left):
            return True
        if at == len(self.sticks):
            return False
        faces = self.mill.sticks[self.sticks[at]].faces
        return any(
            self._lanes(at, f, face, face.across + self.kerf, face.across, left)
            for f, face in enumerate(faces)
        )

    def _lanes(self, at: int, f: int, face: Face, room: int, widest: int, left: tuple[int, ...]) -> bool:
        """Rip on: lanes no wider than ``widest`` within ``room``, which counts one kerf with each lane."""
        if not any(left):
            return True
        key = (at, f, room, widest, left)
        if key in self.failed or not self._could(at, f, room, left):
            return False
        self.work.spend()
        none = True
        for lane, items in face.lanes.items():
            if lane > widest or lane + self.kerf > room:
                continue
            for used in self._fills(face.length + self.kerf, [i for i in items if left[i[0]]], left):
                none = False
                if self._lanes(at, f, face, room - lane - self.kerf, lane, used):
                    return True
        if none and self._stick(at + 1, left):
            return True
        self.failed.add(key)
        return False

    def _could(self, at: int, f: int, room: int, left: tuple[int, ...]) -> bool:
        s = self.sticks[at]
        for p, worth in enumerate(self.points):
            need = sum(w * n for w, n in zip(worth, left, strict=True))
            sums, values = self.steps[(p, s, f)]
            if values[bisect_right(sums, room) - 1] + self.later[p][at + 1] < need:
                return False
        return True

    def _fills(
        self, room: int, items: Sequence[tuple[int, int]], left: tuple[int, ...]
    ) -> Iterator[tuple[int, ...]]:
        """What is left after each full lane; a lane is full when none of its blanks that are left goes in."""

        def fill(place: int, free: int, now: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
            self.work.spend()
            if place == len(items):
                if all(not now[group] or size + self.kerf > free for group, size in items):
                    yield now
                return
            group, size = items[place]
            for n in range(min(now[group], free // (size + self.kerf)), -1, -1):
                after = (*now[:group], now[group] - n, *now[group + 1 :])
                yield from fill(place + 1, free - n * (size + self.kerf), after)

        if items:
            yield from fill(0, room, left)


def _split(steps: Steps) -> tuple[list[int], list[int]]:
    return [used for used, _ in steps], [worth for _, worth in steps]
