"""The whole ring under any finished outline: strips, blocks and segments of all layers, counter-clockwise."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from edgewright.design.corner_blocks import corner_block
from edgewright.design.corner_cuts import corner_cut, square_cut
from edgewright.design.curve_path import CurvePath
from edgewright.design.inset import inset
from edgewright.design.outline import Arc, Line, Outline
from edgewright.design.region import Region
from edgewright.design.ring_model import RingPiece, RingSettings
from edgewright.design.ring_runs import Corner, Run, ring_runs
from edgewright.design.ring_segments import CurveEnd, curve_pieces, segment_count
from edgewright.design.ring_straight import strip_end, strip_piece
from edgewright.design.seam_clearance import seam_clearance
from edgewright.design.segments import point_at
from edgewright.errors import GeometryError

__all__ = ["ring_pieces"]

#: Turns of a closed ring that are tried to keep its joints clear of the panel seams.
_TURNS = 48
#: Further segments that are tried on an open curve for the same end.
_MORE = 2
#: A strip beside a curve gives a straight stretch to its last segment only where it is this many times as long.
_TIMES_STRETCH = 4


def ring_pieces(
    finished: Outline, names: Sequence[str], settings: RingSettings, seams: Sequence[Line] = ()
) -> tuple[RingPiece, ...]:
    """Pieces of all layers.

    Parameters
    ----------
    finished
        Finished outline, counter-clockwise.
    names
        Plain name of each of its segments.
    settings
        How the ring is made.
    seams
        Panel seams of the top. Joints of segments are kept as far from them as turning the ring, or one or two
        more segments, allows; see `edgewright.design.check_ring` for what is left.

    Raises
    ------
    GeometryError
        If the strips would meet in the middle of the top, or an edge is too short for its strip.
    """
    width = settings.strip_width - settings.proud
    parts = inset(Region(finished), width)
    if len(parts) != 1:
        raise GeometryError(
            f"ring of strips {settings.strip_width:.4g} mm wide leaves {len(parts)} open areas inside it; it must "
            "leave 1: somewhere the top is narrower than two strips, use narrower ones or a solid layer"
        )
    runs, corners = ring_runs(finished, names, settings)
    laid: list[RingPiece] = []
    if not corners:
        path = _path(runs[0], closed=True)
        laid = _closed(path, settings, seams)
    else:
        divided = {
            at: _divided(runs, corners, at, settings, seams)
            for at, run in enumerate(runs)
            if run.line is None
        }
        for layer in range(1, settings.layers + 1):
            laid += _layer(runs, corners, divided, layer, settings)
    numbers = dict.fromkeys(range(1, settings.layers + 1), 0)
    out = []
    for piece in laid:
        numbers[piece.layer] += 1
        out.append(replace(piece, id=f"{piece.layer}.{numbers[piece.layer]}"))
    return tuple(out)


def _path(run: Run, *, closed: bool = False) -> CurvePath:
    arcs = tuple(segment for segment in run.segments if isinstance(segment, Arc))
    return CurvePath(arcs, run.names, closed)


def _clearance(pieces: Sequence[RingPiece], seams: Sequence[Line], settings: RingSettings) -> float:
    return min((seam_clearance(piece, seams, settings.ring_width) for piece in pieces), default=math.inf)


def _closed(path: CurvePath, settings: RingSettings, seams: Sequence[Line]) -> list[RingPiece]:
    """Closed curve in all layers, turned to where its joints are farthest from the seams."""
    count = segment_count(path, settings)

    def turned(by: float) -> list[RingPiece]:
        return [
            piece
            for layer in range(1, settings.layers + 1)
            for piece in curve_pieces(
                path, None, count, (by + 0.5 * settings.swapped(layer)) % 1, layer, settings
            )
        ]

    best = turned(0.0)
    clear = _clearance(best, seams, settings)
    for step in range(1, _TURNS if seams else 0):
        trial = turned(step / _TURNS)
        if (found := _clearance(trial, seams, settings)) > clear + 1e-6:
            best, clear = trial, found
    return best


def _divided(
    runs: Sequence[Run], corners: Sequence[Corner], at: int, settings: RingSettings, seams: Sequence[Line]
) -> int:
    """Number of segments of an open curve: as few as its blanks allow, fewer where its corners leave no room."""
    path = _path(runs[at])
    usual = segment_count(path, settings)

    def clearance(count: int) -> float:
        # the joints at the ends of the curve are where they are whatever the count
        return _clearance(
            [
                piece
                for layer in range(1, settings.layers + 1)
                for piece in _curve(runs, corners, at, count, layer, settings)
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


def _layer(
    runs: Sequence[Run],
    corners: Sequence[Corner],
    divided: dict[int, int],
    layer: int,
    settings: RingSettings,
) -> Iterator[RingPiece]:
    for at, run in enumerate(runs):
        line, corner = run.line, corners[at]
        following = runs[(at + 1) % len(runs)]
        if line is None:
            yield from _curve(runs, corners, at, divided[at], layer, settings)
        else:
            before, after = runs[at - 1], following
            cuts = (
                strip_end(
                    line, before.segments[-1], corners[at - 1], "start",
                    _stretch(runs, corners, divided, at - 1, layer, settings), layer, settings,
                ),
                strip_end(
                    line, after.segments[0], corner, "end",
                    _stretch(runs, corners, divided, at, layer, settings), layer, settings,
                ),
            )  # fmt: skip
            yield strip_piece(line, run.names, cuts, layer, settings)
        if corner.kind in ("block", "inside block") and line is not None and following.line is not None:
            yield corner_block(line, following.line, corner, layer, settings)


def _stretch(
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
    path = _path(runs[curve])
    half = math.fsum(arc.length for arc in path.between(0.0, 0.5 / divided[curve])[0])
    return half if line.plain >= _TIMES_STRETCH * half else 0.0


def _curve(
    runs: Sequence[Run], corners: Sequence[Corner], at: int, count: int, layer: int, settings: RingSettings
) -> list[RingPiece]:
    """Open curve in one layer."""
    path = _path(runs[at])
    ends = []
    for number, corner in ((at - 1, corners[at - 1]), (at, corners[at])):
        first, second = runs[number], runs[(number + 1) % len(runs)]
        stretch = (
            _stretch(runs, corners, {at: count}, number, layer, settings)
            if _one_curve(first, second)
            else 0.0
        )
        beside = first.line if number == at - 1 else second.line
        if stretch > 0 and beside is not None:
            t = stretch / beside.length
            if number == at:
                straight = Line(beside.start, point_at(beside, t))
                ends.append(CurveEnd(square_cut(beside, straight.end), straight))
            else:
                straight = Line(point_at(beside, 1 - t), beside.end)
                ends.append(CurveEnd(square_cut(beside, straight.start), straight))
        else:
            cut = corner_cut(first.segments[-1], second.segments[0], corner, settings.ring_width)
            ends.append(CurveEnd(cut, turn=0.0 if corner.kind == "smooth" else corner.turn))
    bounds = (ends[0], ends[1])
    if settings.swapped(layer):
        try:
            return list(curve_pieces(path, bounds, count, 0.5, layer, settings))
        except GeometryError:
            # no room for half a segment between a joint and a sharp corner
            if any(end.straight for end in ends):
                raise
    return list(curve_pieces(path, bounds, count, 0.0, layer, settings))


def _one_curve(first: Run, second: Run) -> bool:
    return (first.line is None) != (second.line is None)
