"""The whole ring under any finished outline: strips, blocks and segments of all layers, counter-clockwise."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from edgewright.design.buildup.corner_blocks import corner_block
from edgewright.design.buildup.ring_curves import (
    closed_curve,
    curve_of,
    open_curve,
    segments_of,
    straight_stretch,
)
from edgewright.design.buildup.ring_model import RingPiece, RingSettings
from edgewright.design.buildup.ring_runs import Run, ring_runs
from edgewright.design.buildup.ring_straight import strip_end, strip_piece
from edgewright.design.buildup.roundings import Corner
from edgewright.design.inset import inset
from edgewright.design.outline import Line, Outline
from edgewright.design.region import Region
from edgewright.errors import GeometryError

__all__ = ["ring_pieces"]


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
        path = curve_of(runs[0], closed=True)
        laid = closed_curve(path, settings, seams)
    else:
        divided = {
            at: segments_of(runs, corners, at, settings, seams)
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
            yield from open_curve(runs, corners, at, divided[at], layer, settings)
        else:
            before, after = runs[at - 1], following
            cuts = (
                strip_end(
                    line, before.segments[-1], corners[at - 1], "start",
                    straight_stretch(runs, corners, divided, at - 1, layer, settings), layer, settings,
                ),
                strip_end(
                    line, after.segments[0], corner, "end",
                    straight_stretch(runs, corners, divided, at, layer, settings), layer, settings,
                ),
            )  # fmt: skip
            yield strip_piece(line, run.names, cuts, layer, settings)
        last, first = run.segments[-1], following.segments[0]
        if corner.kind in ("block", "inside block") and isinstance(last, Line) and isinstance(first, Line):
            yield corner_block(last, first, corner, layer, settings)
