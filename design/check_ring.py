"""Report findings 310 to 313, 316 and 321: blocks, joints at seams, grain across the top's, short and long pieces."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from edgewright.design.buildup.corner_blocks import block_reach
from edgewright.design.buildup.grain import cross_grain, grain_angle
from edgewright.design.buildup.ring_model import RingPiece, RingSettings
from edgewright.design.buildup.ring_runs import ring_runs
from edgewright.design.buildup.roundings import Corner, largest_rounding
from edgewright.design.buildup.seam_clearance import seam_clearance
from edgewright.design.check_figures import exceeds, inches, shown, shown_down, shown_up
from edgewright.design.outline import Line, Outline
from edgewright.findings import Finding
from edgewright.trade import MIN_PIECE, SPLICE_SIDE_LENGTH
from edgewright.units import Units

__all__ = ["cross_grain_findings", "long_piece_findings", "ring_findings"]

#: Least radius of an inside corner of built-up edges (common practice, no source).
_INSIDE_RADIUS_MM = inches(0.5)
#: Longest piece that a sheet gives, by units: 8 ft, or 2440 mm (common practice, no source).
_SHEET_MM: Final[dict[Units, float]] = {"in": float(SPLICE_SIDE_LENGTH.value), "mm": 2440.0}
#: Longer lists of pieces are counted instead: an override repeats the figures.
_LONGEST_LIST = 12


def ring_findings(
    finished: Outline,
    names: Sequence[str],
    settings: RingSettings,
    pieces: Sequence[RingPiece],
    seams: Sequence[Line],
    units: Units,
) -> tuple[Finding, ...]:
    """Report findings 310, 311, 312 and 316 for the ring that `ring_pieces` made of the same outline and settings.

    Parameters
    ----------
    finished, names, settings, seams
        As given to `edgewright.design.ring_pieces.ring_pieces`.
    pieces
        Its pieces.
    units
        Units of the bench.
    """
    _, corners = ring_runs(finished, names, settings)
    return (
        *_blocks(corners, settings, pieces, units),
        *_seams(settings, pieces, seams, units),
        *_short(pieces, units),
    )


def _blocks(
    corners: Sequence[Corner], settings: RingSettings, pieces: Sequence[RingPiece], units: Units
) -> Iterator[Finding]:
    blanks = {piece.edges[0]: piece for piece in pieces if piece.kind in ("corner block", "inside block")}
    outside = [corner for corner in corners if corner.kind == "block"]
    if outside:
        width = settings.strip_width - settings.proud
        texts = [
            f"{corner.name}: radius {shown(corner.radius, units)}, strip {shown(settings.strip_width, units)} covers "
            f"up to {shown_down(max(largest_rounding(width, settings.least_in_corner, corner.turn), 0.0), units)}"
            for corner in outside
        ]
        yield Finding(
            310,
            "note",
            "corner block",
            _place(outside),
            "; ".join(texts),
            f"the list has a block for each layer, {_sizes(outside, blanks, units)}, into which the strips butt; wider "
            "strips or a smaller radius need none",
        )
    inside = [corner for corner in corners if corner.kind == "inside block"]
    if inside:
        small = [corner for corner in inside if exceeds(_INSIDE_RADIUS_MM, corner.radius)]
        begins = {shown_up(block_reach(corner, settings.strip_width), units) for corner in inside}
        yield Finding(
            311,
            "warn" if small else "note",
            "inside corner",
            _place(inside),
            "; ".join(f"{corner.name}: radius {shown(corner.radius, units)}" for corner in inside)
            + f"; strips begin {', '.join(sorted(begins))} from the corner",
            f"glue in a solid block, {_sizes(inside, blanks, units)}, flush with both edges, and cut the radius "
            "through the full thickness"
            + (
                f"; a radius of at least {shown_up(_INSIDE_RADIUS_MM, units)} does not crack from the corner"
                if small
                else ""
            ),
        )
    bare = [corner for corner in corners if corner.turn < 0 and corner.kind == "mitre"]
    if bare:
        yield Finding(
            311,
            "warn",
            "inside corner",
            _place(bare),
            "; ".join(
                f"{corner.name}: turns {abs(math.degrees(corner.turn)):.1f}°, no radius" for corner in bare
            ),
            "the pieces are mitred there, for one of the edges is a curve: a radius that runs into both edges does not "
            "crack from the corner",
        )


def _place(corners: Sequence[Corner]) -> str:
    return corners[0].name if len(corners) == 1 else "corners"


def _sizes(corners: Sequence[Corner], blanks: dict[str, RingPiece], units: Units) -> str:
    """Blanks of the blocks, each size once."""
    sizes = [
        f"{shown_up(piece.blank_length, units)} × {shown_up(piece.blank_width, units)}"
        for corner in corners
        if (piece := blanks.get(corner.name)) is not None
    ]
    return " or ".join(dict.fromkeys(sizes))


def _seams(
    settings: RingSettings, pieces: Sequence[RingPiece], seams: Sequence[Line], units: Units
) -> Iterator[Finding]:
    """Finding 312: joints of segments nearer to a panel seam than the strip is wide."""
    least = settings.strip_width
    near = [
        (clear, piece.id)
        for piece in pieces
        if piece.kind == "segment"
        and exceeds(least, clear := seam_clearance(piece, seams, settings.ring_width))
    ]
    if not near:
        return
    closest = min(clear for clear, _ in near)
    yield Finding(
        312,
        "warn",
        "segment joint near a panel seam",
        _listed([name for _, name in near]),
        f"joint at the start of {_listed([name for _, name in near])}: {shown_down(closest, units)} from the seam, "
        f"at least {shown_up(least, units)}",
        "no turn of the ring tried keeps all joints clear: take another number of segments, or move the seam; a "
        "joint in line with a seam opens both",
    )


def _short(pieces: Sequence[RingPiece], units: Units) -> Iterator[Finding]:
    """Finding 316: strips and segments too short to hold while they are cut and pinned; a block is made otherwise."""
    least = float(MIN_PIECE.value)
    short = [p for p in pieces if p.kind in ("strip", "segment") and exceeds(least, p.blank_length)]
    if not short:
        return
    shortest = min(piece.blank_length for piece in short)
    yield Finding(
        316,
        "warn",
        "short piece",
        _listed([edge for piece in short for edge in piece.edges]),
        f"{_listed([piece.id for piece in short])}: shortest {shown_down(shortest, units)}, at least "
        f"{shown_up(least, units)}",
        "cut the joints of these pieces on longer stock and saw them off last, clamped; or take fewer segments and "
        "wider blanks",
    )


def long_piece_findings(pieces: Sequence[RingPiece], units: Units) -> tuple[Finding, ...]:
    """Report finding 321: pieces longer than a sheet; the pieces are planned whole, without splices."""
    most = _SHEET_MM[units]
    long = [piece for piece in pieces if exceeds(piece.blank_length, most)]
    if not long:
        return ()
    longest = max(piece.blank_length for piece in long)
    return (
        Finding(
            321,
            "note",
            "piece longer than a sheet",
            _listed([edge for piece in long for edge in piece.edges]),
            f"{_listed([piece.id for piece in long])}: longest {shown_up(longest, units)}, a sheet gives "
            f"{shown(most, units)}",
            "splice it as [splice] allows, or buy longer stock: the pieces are listed whole",
        ),
    )


def cross_grain_findings(
    pieces: Sequence[RingPiece], top_grain: float, units: Units, laid_with_top: Iterable[str] = ()
) -> tuple[Finding, ...]:
    """Report finding 313: pieces of solid wood whose grain would cross the grain of the top.

    Parameters
    ----------
    pieces
        Pieces of a solid ring or skirt.
    top_grain
        Direction of the top's grain, radians from east.
    units
        Units of the bench.
    laid_with_top
        Ids of the pieces that are cut so that their grain lies with the top's.
    """
    wrong = cross_grain(pieces, top_grain, laid_with_top)
    if not wrong:
        return ()
    found = []
    across = [p for p in wrong if grain_angle(p.grain or 0.0, top_grain) > math.radians(80)]
    slanting = [piece for piece in wrong if piece not in across]
    for group, change in (
        (across, "cut them from the offcut of an end, whose grain lies with the top's, or glue none there"),
        (
            slanting,
            "saw each out of wide stock so that its grain lies with the top's, at the angle given to its length, or "
            "glue none there",
        ),
    ):
        if not group:
            continue
        angles = sorted({round(math.degrees(grain_angle(p.grain or 0.0, top_grain)), 1) for p in group})
        span = f"{angles[0]:g}°" if len(angles) == 1 else f"{angles[0]:g}° to {angles[-1]:g}°"
        longest = max(piece.blank_length for piece in group)
        found.append(
            Finding(
                313,
                "stop",
                "grain across the top's",
                _listed([edge for piece in group for edge in piece.edges]),
                f"{_listed([piece.id for piece in group])}: grain along the blank would lie {span} to the "
                f"top's, over up to {shown(longest, units)}",
                f"{change}; wood glued across the grain splits as it moves over the year",
            )
        )
    return tuple(found)


def _listed(names: Sequence[str]) -> str:
    once = list(dict.fromkeys(names))
    if len(once) > _LONGEST_LIST:
        return f"{', '.join(once[:_LONGEST_LIST])} and {len(once) - _LONGEST_LIST} more"
    return ", ".join(once)
