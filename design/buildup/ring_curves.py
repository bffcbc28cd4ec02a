"""Curves of a ring in all layers: how many segments, where the joints come to lie, how the ends meet the strips.

In every second layer the joints are moved on by half a segment. Where a strip runs on smoothly from the curve,
the last segment there takes a straight stretch along, so that this joint is not over another either. Joints are
kept clear of panel seams by turning a closed ring, or by one or two more segments on an open curve.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final, Literal

from edgewright.design.buildup.corner_cuts import corner_cut, square_cut
from edgewright.design.buildup.curve_path import CurvePath
from edgewright.design.buildup.ring_model import RingPiece, RingSettings
from edgewright.design.buildup.ring_runs import Run
from edgewright.design.buildup.ring_segments import CurveEnd, curve_pieces, segment_count
from edgewright.design.buildup.ring_straight import strip_end
from edgewright.design.buildup.roundings import Corner
from edgewright.design.buildup.seam_clearance import joint_clearance, seam_clearance
from edgewright.design.outline import Line
from edgewright.design.segments import point_at
from edgewright.errors import GeometryError

__all__ = ["closed_curve", "curve_of", "open_curve", "segments_of", "straight_stretch"]

#: Turns of a closed ring that are tried to keep its joints clear of the panel seams.
_TURNS: Final = 48
#: Further segments that are tried on an open curve for the same end.
_MORE: Final = 2
#: A strip beside a curve gives a straight stretch to its last segment only where it is this many times as long.
_TIMES_STRETCH: Final = 4


def curve_of(run: Run, *, closed: bool = False) -> CurvePath:
    """Path of a run that is a curve."""
    return CurvePath(run.segments, run.names, closed)


def _clearance(pieces: Sequence[RingPiece], seams: Sequence[Line], settings: RingSettings) -> float:
    return min((seam_clearance(piece, seams, settings.ring_width) for piece in pieces), default=math.inf)


def closed_curve(path: CurvePath, settings: RingSettings, seams: Sequence[Line]) -> list[RingPiece]:
    """Closed curve in all layers, turned to where its joints are farthest from the seams."""
    count = segment_count(path, settings)

    def first(turn: float, layer: int) -> float:
        return (turn + 0.5 * settings.swapped(layer)) % 1

    def clearance(turn: float) -> float:
        return min(
            joint_clearance(*path.joint((at + first(turn, layer)) / count), seams, settings.ring_width)
            for layer in range(1, min(settings.layers, 2) + 1)
            for at in range(count)
        )

    turns = [step / _TURNS for step in range(_TURNS)] if seams else [0.0]
    # rounding of a clearance must not choose between turns that are as good
    best = max(turns, key=lambda turn: round(clearance(turn), 6))
    return [
        piece
        for layer in range(1, settings.layers + 1)
        for piece in curve_pieces(path, None, count, first(best, layer), layer, settings)
    ]


def segments_of(
    runs: Sequence[Run], corners: Sequence[Corner], at: int, settings: RingSettings, seams: Sequence[Line]
) -> int:
    """Number of segments of an open curve: as few as its blanks allow, fewer where its corners leave no room."""
    path = curve_of(runs[at])
    usual = segment_count(path, settings)

    def clearance(count: int) -> float:
        # the joints at the ends of the curve are where they are whatever the count
        return _clearance(
            [
                piece
                for layer in range(1, settings.layers + 1)
                for piece in open_curve(runs, corners, at, count, layer, settings)
            ],
            seams,
            settings,
        )

    for fewer in range(usual, 0, -1):
        try:
            clear = clearance(fewer)
        except GeometryError:
            if fewer == 1:
                raise
        else:
            break
    best = fewer
    for count in range(fewer + 1, fewer + 1 + (_MORE if seams and fewer == usual else 0)):
        if clear >= settings.strip_width:
            break
        try:
            found = clearance(count)
        except GeometryError:
            break
        if found > clear + 1e-6:
            best, clear = count, found
    return best


def open_curve(
    runs: Sequence[Run], corners: Sequence[Corner], at: int, count: int, layer: int, settings: RingSettings
) -> list[RingPiece]:
    """Open curve in one layer.

    Parameters
    ----------
    runs, corners, at
        The outline and the number of the run.
    count
        Segments that it is divided into.
    layer, settings
        Which layer, and how the ring is made.
    """
    path = curve_of(runs[at])
    bounds = (
        _end(runs, corners, at, "start", count, layer, settings),
        _end(runs, corners, at, "end", count, layer, settings),
    )
    if settings.swapped(layer):
        try:
            return list(curve_pieces(path, bounds, count, 0.5, layer, settings))
        except GeometryError:
            # no room for half a segment between a joint and a sharp corner
            if any(end.straight for end in bounds):
                raise
    return list(curve_pieces(path, bounds, count, 0.0, layer, settings))


def _end(
    runs: Sequence[Run],
    corners: Sequence[Corner],
    at: int,
    which: Literal["start", "end"],
    count: int,
    layer: int,
    settings: RingSettings,
) -> CurveEnd:
    """How a curve meets what is beyond one of its ends."""
    run, number = runs[at], at - 1 if which == "start" else at
    corner, beyond = corners[number], runs[at - 1 if which == "start" else (at + 1) % len(runs)]
    if (beside := beyond.line) is not None:
        stretch = straight_stretch(runs, corners, {at: count}, number, layer, settings)
        if stretch > 0:
            t = stretch / beside.length
            if which == "start":
                straight = Line(point_at(beside, 1 - t), beside.end)
                return CurveEnd(square_cut(beside, straight.start), straight)
            straight = Line(beside.start, point_at(beside, t))
            return CurveEnd(square_cut(beside, straight.end), straight)
    own, other = run.segments[-1], beyond.segments[0]
    if which == "start":
        own, other = run.segments[0], beyond.segments[-1]
    if isinstance(own, Line):
        cut = strip_end(own, other, corner, which, 0.0, layer, settings)
    else:
        before, after = (other, own) if which == "start" else (own, other)
        cut = corner_cut(before, after, corner, settings.ring_width)
    tip = None
    if corner.kind == "mitre" and corner.radius > 0:
        reach = (settings.strip_width - settings.proud) / math.cos(corner.turn / 2)
        tip = (corner.vertex[0] + reach * cut.inward[0], corner.vertex[1] + reach * cut.inward[1])
    return CurveEnd(cut, turn=0.0 if corner.kind == "smooth" else corner.turn, tip=tip)


def straight_stretch(
    runs: Sequence[Run],
    corners: Sequence[Corner],
    divided: dict[int, int],
    at: int,
    layer: int,
    settings: RingSettings,
) -> float:
    """Straight stretch that a curve takes from the strip beside it at a smooth corner, in every second layer."""
    at %= len(runs)
    first, second = runs[at], runs[(at + 1) % len(runs)]
    if (
        corners[at].kind != "smooth"
        or not settings.swapped(layer)
        or (first.line is None) == (second.line is None)
    ):
        return 0.0
    curve, line = (at, second) if first.line is None else ((at + 1) % len(runs), first)
    path = curve_of(runs[curve])
    half = math.fsum(part.length for part in path.between(0.0, 0.5 / divided[curve])[0])
    return half if line.plain >= _TIMES_STRETCH * half else 0.0
