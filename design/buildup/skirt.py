"""Vertical skirt: the other kind of build-up, a strip on edge, mitred at the corners, any drop.

Under the edge it stands flush with it and leaves the size of the top as it is; the drop is what the edge gains.
On the edge it covers the top's own edge too and adds its thickness all round. Curves are kerf-bent. Common
practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Final, Literal

from edgewright.design.buildup.corner_cuts import corner_cut
from edgewright.design.buildup.curve_path import inward_at
from edgewright.design.buildup.kerf_bend import KerfBend, kerf_bend
from edgewright.design.buildup.ring_model import RingPiece, RingSettings, quad
from edgewright.design.buildup.ring_runs import Run, ring_runs
from edgewright.design.buildup.roundings import Corner
from edgewright.design.outline import FIT_MM, Arc, Outline, Point, Segment
from edgewright.design.segments import direction, point_at
from edgewright.errors import GeometryError

__all__ = ["SkirtSettings", "skirt_bends", "skirt_height", "skirt_pieces", "skirt_size"]

#: Of a mitred corner that is rounded afterwards at least this share of the thickness must stay (choice of this
#: program).
_LEFT: Final = 0.5
#: Turn between two points of a bent piece's plan.
_STEP: Final = math.radians(1)


@dataclass(frozen=True, slots=True)
class SkirtSettings:
    """How the skirt is made; lengths in mm.

    Attributes
    ----------
    thickness
        Thickness of the skirt.
    drop
        Height from the top's face to the skirt's lower edge: the visible edge T.
    top_thickness
        Thickness T0 of the top.
    mount
        ``"under"`` the edge, flush with it, or ``"on"`` it.
    grain
        Direction of the top's grain, radians from east; None for sheet goods.
    """

    thickness: float
    drop: float
    top_thickness: float
    mount: Literal["under", "on"] = "under"
    grain: float | None = None

    def __post_init__(self) -> None:
        if not self.thickness > FIT_MM:
            raise GeometryError(
                f"skirt thickness is {self.thickness:g} mm; it must be greater than 0 mm: measure the stock"
            )
        if not self.drop > self.top_thickness + FIT_MM:
            raise GeometryError(
                f"visible edge is {self.drop:g} mm; with a skirt it must be more than the top's "
                f"{self.top_thickness:g} mm: give a larger one"
            )


def skirt_height(settings: SkirtSettings) -> float:
    """Width of the skirt's blanks (mm): T - T0 under the edge, T on it."""
    return settings.drop - (settings.top_thickness if settings.mount == "under" else 0.0)


def skirt_size(edge: Outline, settings: SkirtSettings) -> tuple[float, float]:
    """Finished length and width with the skirt (mm): on the edge it adds its thickness at both ends."""
    x0, y0, x1, y1 = edge.bounds
    more = 2 * settings.thickness if settings.mount == "on" else 0.0
    return x1 - x0 + more, y1 - y0 + more


def _runs(
    edge: Outline, names: Sequence[str], settings: SkirtSettings
) -> tuple[tuple[Run, ...], tuple[Corner, ...]]:
    thick = settings.thickness
    # largest_block too small for any block: what is not mitred is bent
    rules = RingSettings(thick, thick, _LEFT * thick, corners="mitre", largest_block=thick)
    return ring_runs(edge, names, rules)


def skirt_pieces(edge: Outline, names: Sequence[str], settings: SkirtSettings) -> tuple[RingPiece, ...]:
    """Pieces of the skirt, counter-clockwise.

    ``blank_width`` is the height, ``blank_length`` runs along the longer face, for a bent piece along its show
    face. A rounding that the mitred corner covers is worked after the glue-up.

    Parameters
    ----------
    edge
        Edge of the top as it is when the skirt is fitted.
    names
        Plain name of each segment.
    settings
        How the skirt is made.

    Raises
    ------
    GeometryError
        If an edge is too short for its piece.
    """
    runs, corners = _runs(edge, names, settings)
    outer, inner = (0.0, settings.thickness) if settings.mount == "under" else (-settings.thickness, 0.0)
    found = []
    for at, run in enumerate(runs):
        before, after = runs[at - 1], runs[(at + 1) % len(runs)]
        line = run.line
        if line is None:
            found.append(_bent(run, corners, at, outer, inner, settings))
            continue
        cuts = (
            corner_cut(before.segments[-1], line, corners[at - 1], settings.thickness),
            corner_cut(line, after.segments[0], corners[at], settings.thickness),
        )
        along = direction(line, 0.0)
        plan, length, first, second = quad(
            line.start, along, outer, inner, cuts[0], cuts[1], " and ".join(run.names)
        )
        grain = None if settings.grain is None else math.atan2(along[1], along[0]) % math.pi
        found.append(
            _piece(run.names, length, (first, second), plan, (line.start, line.end), grain, settings)
        )
    return tuple(replace(piece, id=f"S{number}") for number, piece in enumerate(found, 1))


def skirt_bends(
    edge: Outline, names: Sequence[str], settings: SkirtSettings, kerf: float
) -> tuple[tuple[str, KerfBend], ...]:
    """Kerfs of each arc of the skirt's curves, with the name of the edge; one piece may have several.

    Raises
    ------
    GeometryError
        If a curve is too tight for the kerf and the thickness.
    """
    runs, _ = _runs(edge, names, settings)
    outer = 0.0 if settings.mount == "under" else -settings.thickness
    return tuple(
        (
            name,
            kerf_bend(_radius(arc, outer), abs(arc.sweep), settings.thickness, kerf, inside=arc.sweep < 0),
        )
        for run in runs
        for arc, name in zip(run.segments, run.names, strict=False)
        if isinstance(arc, Arc)
    )


def _radius(arc: Arc, depth: float) -> float:
    """Radius of an arc moved into the wood.

    Raises
    ------
    GeometryError
        If nothing of it is left.
    """
    radius = arc.radius - depth * math.copysign(1.0, arc.sweep)
    if radius <= FIT_MM:
        raise GeometryError(
            f"skirt {abs(depth):.4g} mm thick on a curve of radius {arc.radius:.4g} mm; it must be thinner than "
            "that: use a solid corner"
        )
    return radius


def _bent(
    run: Run, corners: Sequence[Corner], at: int, outer: float, inner: float, settings: SkirtSettings
) -> RingPiece:
    """Piece bent round a curve; its show face is measured along the arcs, its mitres are half the corner's turn."""
    arcs = [segment for segment in run.segments if isinstance(segment, Arc)]
    if len(arcs) < len(run.segments):
        x, y = run.segments[0].start
        raise GeometryError(
            f"{run.names[0]}: the edge bends in {len(run.segments)} short steps from ({x:.5g}, {y:.5g}) mm on; a skirt "
            "needs straight edges and arcs: trim that edge straight, or build up with flat strips"
        )
    length = math.fsum(_radius(arc, outer) * abs(arc.sweep) for arc in arcs)
    faces: list[list[Point]] = [[], []]
    for face, depth in zip(faces, (outer, inner), strict=True):
        for arc in arcs:
            _radius(arc, depth)
            steps = max(math.ceil(abs(arc.sweep) / _STEP), 1)
            face += [_moved(arc, step / steps, depth) for step in range(steps + (arc is arcs[-1]))]
    angles = [0.0, 0.0]
    if corners:
        for end, corner in enumerate((corners[at - 1], corners[at])):
            if corner.kind != "smooth":
                angles[end] = math.degrees(corner.turn / 2)
                length += max(-outer * math.tan(corner.turn / 2), 0.0)
    return _piece(
        tuple(dict.fromkeys(run.names)),
        length,
        (angles[0], angles[1]),
        (*faces[0], *reversed(faces[1])),
        (arcs[0].start, arcs[-1].end),
        None,
        settings,
    )


def _moved(segment: Segment, t: float, depth: float) -> Point:
    (x, y), (nx, ny) = point_at(segment, t), inward_at(segment, t)
    return x + depth * nx, y + depth * ny


def _piece(
    names: tuple[str, ...],
    length: float,
    angles: tuple[float, float],
    plan: tuple[Point, ...],
    joints: tuple[Point, Point],
    grain: float | None,
    settings: SkirtSettings,
) -> RingPiece:
    return RingPiece(
        id="",
        kind="skirt",
        layer=1,
        edges=names,
        blank_length=length,
        blank_width=skirt_height(settings),
        thickness=settings.thickness,
        start_angle=angles[0],
        end_angle=angles[1],
        plan=plan,
        joints=joints,
        grain=grain,
    )
