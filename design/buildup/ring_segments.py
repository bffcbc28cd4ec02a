"""Curves of the ring: segments from straight blanks, trimmed to the curve outside, left straight inside.

For an arc of radius R, ring width b and half angle α = φ/2n of each of n segments, an outside curve needs a
blank R - (R - b) cos α wide and 2 R tan α long, at least 2 R sin α; an inside curve one (R + b) - R cos α wide
and 2 (R + b) tan α long, at least 2 (R + b) sin α (derived; the common table of the trade is the first).
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from edgewright.design.buildup.curve_path import CurvePath, extremes
from edgewright.design.buildup.ring_model import Cut, RingPiece, RingSettings, quad
from edgewright.design.buildup.ring_runs import FACET_MM
from edgewright.design.outline import Arc, Line, Point, Segment
from edgewright.errors import GeometryError

__all__ = ["CurveEnd", "SegmentBlank", "curve_pieces", "segment_blank", "segment_count"]

#: A segment turns by no more than this: a longer one is mostly waste (choice of this program).
_MOST_TURN = math.pi / 2


@dataclass(frozen=True, slots=True)
class SegmentBlank:
    """Blank of one segment (mm): width, length that is always enough, and least length; and its yield.

    ``ring_share`` is the share of the blank (of the safe length) that ends up in the ring.
    """

    width: float
    length: float
    least_length: float
    ring_share: float


@dataclass(frozen=True, slots=True)
class CurveEnd:
    """How a curve ends: its cut, and the straight stretch before or beyond it that its last segment takes along.

    ``turn`` is that of the outline at a sharp corner, radians, 0 at a smooth one. ``tip`` is a point that the last
    blank must reach, so that the ring stays wide enough where the corner is rounded.
    """

    cut: Cut
    straight: Line | None = None
    turn: float = 0.0
    tip: Point | None = None


def segment_blank(radius: float, ring: float, half_angle: float, *, inside: bool = False) -> SegmentBlank:
    """Blank of a segment of a circular ring.

    Parameters
    ----------
    radius, ring
        Radius R of the finished edge and ring width b (mm); b below R on an outside curve.
    half_angle
        Half the angle that one segment covers, radians, above 0 and below π/2; π/N with N to the circle.
    inside
        Whether the wood lies outside the circle.

    Raises
    ------
    GeometryError
        If the ring would reach over the centre.
    """
    outer, inner = (radius + ring, radius) if inside else (radius, radius - ring)
    if inner <= 0:
        raise GeometryError(
            f"ring width is {ring:.4g} mm; on a curve of radius {radius:.4g} mm it must be less than that: "
            "use a solid block"
        )
    width = outer - inner * math.cos(half_angle)
    length = 2 * outer * math.tan(half_angle)
    ring_area = half_angle * (outer**2 - inner**2)
    return SegmentBlank(width, length, 2 * outer * math.sin(half_angle), ring_area / (width * length))


def segment_count(path: CurvePath, settings: RingSettings) -> int:
    """Number of segments in one layer of a curve; even where the curve is closed.

    As many as ``segments_per_circle`` gives for the angle, or the fewest that keep every blank within
    ``blank_limit``.

    Raises
    ------
    GeometryError
        If the ring would reach over the centre of an arc.
    """
    arcs = [segment for segment in path.segments if isinstance(segment, Arc)]
    tightest = min((arc.radius for arc in arcs if arc.sweep > 0), default=math.inf)
    if tightest <= settings.ring_width:
        raise GeometryError(
            f"{path.names[0]}: ring width is {settings.ring_width:.4g} mm; on a curve of radius {tightest:.4g} mm "
            "it must be less than that: use narrower strips, or a solid piece"
        )
    step, fewest = (2 if path.closed else 1), _fewest(path)
    if settings.segments_per_circle is not None and arcs:
        count = math.ceil(settings.segments_per_circle * path.bend / (2 * math.pi) - 1e-6)
        return max(step * math.ceil(count / step), fewest)
    # pieces under facets are not made shorter than a strip can be: rather a wider blank
    most = math.inf if arcs else max(math.floor(path.length / FACET_MM), fewest)
    count = fewest
    while count + step <= most and any(
        _width(path.between(at / count, (at + 1) / count)[0], settings, _slack(path))
        > settings.blank_limit + 1e-9
        for at in range(count)
    ):
        count += step
    return count


def _fewest(path: CurvePath) -> int:
    step = 2 if path.closed else 1
    return step * math.ceil(max(path.bend / _MOST_TURN - 1e-6, 1) / step)


def _slack(path: CurvePath) -> float:
    """Factor on the ring width that makes up for kinks.

    By an outside one a joint may leave some of the next facet's ring to this piece; round an inside one the ring
    reaches deeper between the normals of both facets than at either.
    """
    return 1 / math.cos(max(map(abs, path.kinks)))


def curve_pieces(
    path: CurvePath,
    ends: tuple[CurveEnd, CurveEnd] | None,
    count: int,
    first: float,
    layer: int,
    settings: RingSettings,
) -> Iterator[RingPiece]:
    """Segments of a curve in one layer, in its direction; their ids are given later.

    Parameters
    ----------
    path
        The curve.
    ends
        How it ends; None for a closed curve.
    count
        Segments that the curve is divided into.
    first
        Share of one segment by which the joints are moved on, at least 0 and below 1. On an open curve a first
        and a last segment are then cut short, or take a straight stretch along.
    """
    shares = [(at + first) / count for at in range(count)]
    inner = [share for share in shares if share > 1e-9]
    bounds = [*shares, 1 + shares[0]] if ends is None else [0.0, *inner, 1.0]
    for number, (a, b) in enumerate(pairwise(bounds)):
        between, names = path.between(a, b)
        segments: list[Segment] = list(between)
        cuts = []
        for share in (a, b):
            at, inward = path.joint(share)
            cuts.append(Cut(at, inward, at))
        turns: list[float] = []
        tips: list[Point] = []
        if ends is not None and number == 0:
            cuts[0] = ends[0].cut
            segments = [*([ends[0].straight] if ends[0].straight else []), *segments]
            turns.append(ends[0].turn)
            tips += [ends[0].tip] if ends[0].tip else []
        if ends is not None and number == len(bounds) - 2:
            cuts[1] = ends[1].cut
            segments = [*segments, *([ends[1].straight] if ends[1].straight else [])]
            turns.append(ends[1].turn)
            tips += [ends[1].tip] if ends[1].tip else []
        yield _segment(tuple(segments), (cuts[0], cuts[1]), turns, tips, names, layer, settings, _slack(path))


def _chord(segments: tuple[Segment, ...]) -> Point:
    (ax, ay), (bx, by) = segments[0].start, segments[-1].end
    size = math.dist((ax, ay), (bx, by))
    return (bx - ax) / size, (by - ay) / size


def _depths(segments: tuple[Segment, ...], settings: RingSettings, slack: float) -> tuple[float, float]:
    """Coordinates, square to the chord and into the wood, of the blank's two long edges."""
    ux, uy = _chord(segments)
    ring = settings.ring_width * slack
    outer = extremes(segments, (-uy, ux), 0.0)[0] - settings.proud
    inner = extremes(segments, (-uy, ux), ring)[1]
    return outer, inner


def _width(segments: tuple[Segment, ...], settings: RingSettings, slack: float) -> float:
    outer, inner = _depths(segments, settings, slack)
    return inner - outer


def _segment(
    segments: tuple[Segment, ...],
    cuts: tuple[Cut, Cut],
    turns: list[float],
    tips: list[Point],
    names: tuple[str, ...],
    layer: int,
    settings: RingSettings,
    slack: float,
) -> RingPiece:
    along = _chord(segments)
    nx, ny = -along[1], along[0]
    outer, inner = _depths(segments, settings, slack)
    x, y = segments[0].start
    here = x * nx + y * ny
    inner = max(inner, *(px * nx + py * ny for px, py in tips)) if tips else inner
    if min(turns, default=0.0) < 0:
        # round an inside corner the ring is as wide from the corner itself
        inner = max(inner, *(cut.at[0] * nx + cut.at[1] * ny + settings.ring_width for cut in cuts))
    edges = " and ".join(names)
    if max(turns, default=0.0) > 0:
        # the mitre of the piece beside it must not reach over the next joint
        deepest = max(inner, outer + max(settings.strip_width, settings.blank_limit))
        quad((x, y), along, outer - here, deepest - here, cuts[0], cuts[1], edges)
    plan, length, start_angle, end_angle = quad(
        (x, y), along, outer - here, inner - here, cuts[0], cuts[1], edges
    )
    return RingPiece(
        id="",
        kind="segment",
        layer=layer,
        edges=names,
        blank_length=length,
        blank_width=inner - outer,
        thickness=settings.strip_thickness,
        start_angle=start_angle,
        end_angle=end_angle,
        plan=plan,
        joints=(cuts[0].at, cuts[1].at),
        grain=None if settings.grain is None else math.atan2(along[1], along[0]) % math.pi,
    )
