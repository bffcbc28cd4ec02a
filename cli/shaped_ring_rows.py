"""The build-up of a shaped top as rows: blanks to be had, each piece with its ends and its place, kerfs of a skirt."""

from __future__ import annotations

from edgewright.cli.shaped_rim import rim_place
from edgewright.cutlist.shaped_plan import ShapedPlan
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.outline import Point
from edgewright.display import show_mm

__all__ = ["angle_text", "bend_rows", "blank_rows", "piece_rows"]


def blank_rows(plan: ShapedPlan) -> list[list[str]]:
    """Blanks of the build-up that must be bought or found: how many, what, length, width, thickness, which pieces."""
    units = plan.job.units
    return [
        [
            str(row.count),
            row.kind,
            show_mm(row.length, units),
            show_mm(row.width, units),
            show_mm(row.thickness, units),
            ", ".join(row.piece_ids),
        ]
        for row in plan.build_up.to_buy
    ]


def piece_rows(plan: ShapedPlan) -> list[list[str]]:
    """Pieces: name, what, longest edge, cut of both ends, where on the finished rim it begins and ends."""
    units, proud = plan.job.units, plan.job.edge.proud.mm
    # a rounding with pieces of its own is no corner
    curved = frozenset(
        name for piece in plan.design.pieces if piece.kind in ("segment", "skirt") for name in piece.edges
    )
    return [
        [
            piece.id,
            piece.kind,
            show_mm(piece.blank_length, units),
            _ends(piece),
            *(rim_place(plan.design.finished, at, units, curved) for at in _on_rim(piece, proud)),
        ]
        for piece in plan.design.pieces
    ]


def _on_rim(piece: RingPiece, proud: float) -> tuple[Point, Point]:
    """Where both ends of a piece cross the finished edge (mm); a strip that is butted ends short of the corner."""
    if piece.kind != "strip":
        return piece.joints
    share = proud / piece.blank_width
    first, second, third, fourth = piece.plan
    return _between(first, fourth, share), _between(second, third, share)


def _between(a: Point, b: Point, share: float) -> Point:
    return a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])


def bend_rows(plan: ShapedPlan) -> list[list[str]]:
    """Kerfs of each curve of a bent skirt: edge, figures, what to mind (finding 315)."""
    return [
        [finding.place, finding.figures, finding.change] for finding in plan.findings if finding.number == 315
    ]


def _ends(piece: RingPiece) -> str:
    one, other = angle_text(piece.start_angle), angle_text(piece.end_angle)
    return f"both {one}" if one == other else f"{one}, {other}"


def angle_text(degrees: float) -> str:
    """Angle of an end from square: ``square`` or ``22.5°``; never a minus zero."""
    shown = round(degrees, 1) + 0.0
    return f"{shown:.1f}°" if shown else "square"
