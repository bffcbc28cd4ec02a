"""A lane as it is shown: pieces, kerfs and rest add up to it, and a piece has one length wherever it is named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from edgewright.cutlist.bench_cuts import CrossCut
from edgewright.cutlist.model import CutPlan, Lane, Piece
from edgewright.display import fitted_run, show_as, show_ticks, shown_ticks
from edgewright.units import Units

__all__ = ["LanePart", "ShownLane", "kerf_words", "lanes_of", "shown_lane", "shown_parts", "stop_text"]


@dataclass(frozen=True, slots=True)
class LanePart:
    """What lies in a lane between two positions: a piece by its id, ``kerf``, ``rest`` or ``dust``.

    ``dust`` is less than a kerf that stays behind the last piece. Lengths in ticks, as they are and as they are shown.
    """

    name: str
    start: int
    end: int
    shown_start: int
    shown_end: int

    def text(self, units: Units) -> str:
        """Its length."""
        return show_as(self.shown_end - self.shown_start, self.end - self.start, units)

    def start_text(self, units: Units) -> str:
        """Where it begins."""
        return show_as(self.shown_start, self.start, units)

    def end_text(self, units: Units) -> str:
        """Where it ends."""
        return show_as(self.shown_end, self.end, units)


@dataclass(frozen=True, slots=True)
class ShownLane:
    """Parts of a lane in order; ``nested`` where mitred pieces overlap and no kerf is seen between them."""

    parts: tuple[LanePart, ...]
    nested: bool

    def part(self, name: str) -> LanePart:
        """A piece by its id, or the rest.

        Raises
        ------
        KeyError
            If there is none.
        """
        for part in self.parts:
            if part.name == name:
                return part
        raise KeyError(name)

    @property
    def rest(self) -> LanePart | None:
        """What is left behind the last kerf; None where that is nothing but dust."""
        return next((part for part in self.parts if part.name == "rest"), None)

    def kerf_end(self, part: LanePart, kerf: int, units: Units) -> str:
        """Where the kerf behind a piece ends: where the next part begins, or a kerf on where nothing follows."""
        end = part.end + kerf
        behind = next((one for one in self.parts if one.name != "kerf" and one.start == end), None)
        shown = part.shown_end + shown_ticks(kerf, units) if behind is None else behind.shown_start
        return show_as(shown, end, units)


def shown_parts(ends: Sequence[tuple[str, int, int]], length: int, kerf: int, units: Units) -> ShownLane:
    """Show pieces (id, start, end; ticks) in a lane of a length; a kerf behind the last one if that leaves a rest."""
    nested = any(start < end for (_, _, end), (_, start, _) in pairwise(ends))
    last = max((end for _, _, end in ends), default=0)
    if nested:
        return ShownLane((*_nested(ends, units), *_rest(ends, last, length, kerf, units)), nested=True)
    at, names = [0], []
    for name, start, end in ends:
        if start > at[-1]:
            at.append(start)
            names.append("kerf")
        at.append(end)
        names.append(name)
    if last + kerf < length:
        at += [last + kerf, length]
        names += ["kerf", "rest"]
    elif last < length:
        at.append(length)
        names.append("dust")
    shown = fitted_run(at, [name not in ("kerf", "rest", "dust") for name in names], units)
    return ShownLane(
        tuple(
            LanePart(name, a, b, c, d)
            for name, (a, b), (c, d) in zip(names, pairwise(at), pairwise(shown), strict=True)
        ),
        nested=False,
    )


def _nested(ends: Sequence[tuple[str, int, int]], units: Units) -> list[LanePart]:
    """Pieces that share a slanting cut: each begins where it does and has its own length."""
    parts = []
    for name, start, end in ends:
        first = shown_ticks(start, units)
        parts.append(LanePart(name, start, end, first, first + shown_ticks(end - start, units)))
    return parts


def _rest(
    ends: Sequence[tuple[str, int, int]], last: int, length: int, kerf: int, units: Units
) -> list[LanePart]:
    """What is left behind a square cut after pieces that nest."""
    if last + kerf >= length:
        return []
    behind = max(part.shown_end for part in _nested(ends, units)) + shown_ticks(kerf, units)
    end = max(shown_ticks(length, units), behind)
    return [
        LanePart("kerf", last, last + kerf, behind - shown_ticks(kerf, units), behind),
        LanePart("rest", last + kerf, length, behind, end),
    ]


def lanes_of(plan: CutPlan) -> dict[str, Lane]:
    """All lanes of a plan by name."""
    return {lane.id: lane for stick in plan.sticks for lane in stick.lanes}


def shown_lane(plan: CutPlan, lane: Lane, units: Units) -> ShownLane:
    """Show a lane that pieces come from."""
    pieces = sorted(
        (piece for piece in plan.pieces if piece.lane_id == lane.id), key=lambda p: p.lane_start_ticks
    )
    return shown_parts([_ends(piece) for piece in pieces], lane.length_ticks, plan.rules.kerf_ticks, units)


def _ends(piece: Piece) -> tuple[str, int, int]:
    return piece.id, piece.lane_start_ticks, piece.lane_start_ticks + piece.length_ticks


def stop_text(shown: ShownLane, cut: CrossCut, units: Units) -> str:
    """Where a crosscut is, from the squared start of the lane; a squaring cut from the raw end of the strip."""
    if cut.piece_id is None:
        return show_ticks(cut.stop_ticks, units)
    part = shown.part(cut.piece_id)
    return part.end_text(units) if cut.end == "end" else part.start_text(units)


def kerf_words(shown: ShownLane, kerf: int, units: Units) -> tuple[str, ...]:
    """Say how wide the kerfs of a lane read where one reads otherwise than alone, for it took up the rounding."""
    alone = shown_ticks(kerf, units)
    kerfs = [part for part in shown.parts if part.name == "kerf"]
    if all(part.shown_end - part.shown_start == alone for part in kerfs):
        return ()
    return (f"kerfs read {', '.join(part.text(units) for part in kerfs)} here",)
