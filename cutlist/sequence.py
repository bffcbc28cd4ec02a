"""The order of work at the bench: each fence setting and each stop is set once, for all boards and strips.

The crosscut list goes strip by strip; the stop list beside it names the pieces that share a stop, long before short.
Both orders give the same pieces, for in every lane the longest piece comes first; the independent checker saws both.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from edgewright.cutlist.bench_cuts import CrossCut, FenceRip
from edgewright.cutlist.check_sequence import sequence_faults
from edgewright.cutlist.model import CutPlan, Piece
from edgewright.cutlist.stages import plain_plan, refuse_if

__all__ = [
    "FenceSetting",
    "StopSetting",
    "checked_sequence",
    "fence_settings",
    "stop_settings",
]


@dataclass(frozen=True, slots=True)
class FenceSetting:
    """A fence setting and the rips made with it, in order."""

    fence_ticks: int
    rips: tuple[FenceRip, ...]


@dataclass(frozen=True, slots=True)
class StopSetting:
    """A stop setting: so far from the squared end that lies against the stop, for these pieces in order.

    ``mitres`` is how many ends of each piece are mitred; its length runs along the long edge.
    """

    stop_ticks: int
    mitres: int
    piece_ids: tuple[str, ...]


def fence_settings(rips: Sequence[FenceRip]) -> tuple[FenceSetting, ...]:
    """Group rips that follow one another with the same fence; taking an old edge off is a setting of its own."""
    found: list[FenceSetting] = []
    for rip in rips:
        last = found[-1].rips[-1] if found else None
        alike = last is not None and (last.fence_ticks, last.lane_id is None) == (
            rip.fence_ticks,
            rip.lane_id is None,
        )
        if alike:
            found[-1] = FenceSetting(rip.fence_ticks, (*found[-1].rips, rip))
        else:
            found.append(FenceSetting(rip.fence_ticks, (rip,)))
    return tuple(found)


def stop_settings(cuts: Sequence[CrossCut], pieces: Sequence[Piece]) -> tuple[StopSetting, ...]:
    """Stops for all pieces that are cut at all, longest first; square pieces before mitred ones of one length."""
    by_id = {piece.id: piece for piece in pieces}
    groups: dict[tuple[int, int], list[str]] = {}
    for piece_id in dict.fromkeys(cut.piece_id for cut in cuts if cut.piece_id is not None):
        piece = by_id[piece_id]
        mitres = (piece.start_cut == "mitre") + (piece.end_cut == "mitre")
        groups.setdefault((-piece.length_ticks, mitres), []).append(piece_id)
    return tuple(StopSetting(-length, mitres, tuple(ids)) for (length, mitres), ids in sorted(groups.items()))


def checked_sequence(
    plan: CutPlan, rips: Sequence[FenceRip], cuts: Sequence[CrossCut], stops: Sequence[StopSetting]
) -> None:
    """Have the independent checker saw the sequence.

    Raises
    ------
    CheckError
        If it refuses the sequence: a defect of this program.
    """
    lists: list[list[dict[str, Any]]] = [
        json.loads(json.dumps([asdict(entry) for entry in part])) for part in (rips, cuts, stops)
    ]
    refuse_if(sequence_faults(plain_plan(plan), *lists), "the saw sequence")
