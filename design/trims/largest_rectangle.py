"""Largest rectangle in a convex polygon, over all angles, with a proven gap.

A w × h rectangle with axes u, v and centre c lies in the polygon if n·c + (w |n·u| + h |n·v|)/2 <= d for each
edge (n its outward normal, d its distance). Farkas' lemma removes c: for every triple of normals around the origin,
weighed so that they cancel, the weighed sum of these must hold; nothing else is needed. What is left at one angle is
to maximise w h under straight bounds A w + B h <= D: log w + log h is concave, so one hill, found by golden section.

Over the angle the largest area f is bounded by Lipschitz' constant: a w × h rectangle holds, turned by δ about its
centre, one of area (w h - (w² + h²) sin δ cos δ)/cos² 2δ, so f changes by at most D² tan δ with D the polygon's
diameter. Intervals that cannot hold more than the best found are dropped, the others halved.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np
from numpy.typing import NDArray

from edgewright.design.outline import Point
from edgewright.design.tolerances import NODE_MM
from edgewright.design.trims.golden import peak
from edgewright.design.trims.turned_rectangle import TurnedRectangle
from edgewright.errors import GeometryError

__all__ = ["LargestRectangle", "aligned_rectangle", "largest_rectangle"]

#: More corners than this make too many triples; such a shape is better searched by its outline.
MAX_CORNERS: Final = 16
_FIRST_ANGLES: Final = 512
_MAX_ANGLES: Final = 20_000
_GAP: Final = 1e-6

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LargestRectangle:
    """The rectangle, longer side first, and a proven bound: no rectangle is larger than (1 + gap) times its area."""

    rectangle: TurnedRectangle
    gap: float


@dataclass(frozen=True, slots=True)
class _Polygon:
    """Outward normals (n rows), distances, and the bounds' weights (one row each) with their right sides."""

    normals: Floats
    distances: Floats
    weights: Floats
    limits: Floats
    middle: Point
    diameter: float


def largest_rectangle(corners: Sequence[Point]) -> LargestRectangle:
    """Largest true rectangle in a convex polygon, at any angle.

    Parameters
    ----------
    corners
        Corners counter-clockwise, mm, 3 to 16 of them; a corner may be straight.

    Raises
    ------
    GeometryError
        If the corners are too few or too many, or do not run round a convex polygon.

    Notes
    -----
    The gap is 1e-6 or better for near-rectangular tops; at the limit of work it is what has been reached.
    """
    polygon = _polygon(corners)
    slope = polygon.diameter**2
    half = math.pi / 4 / _FIRST_ANGLES
    angles: Floats = (np.arange(_FIRST_ANGLES, dtype=np.float64) * 2 + 1) * half
    areas = _areas(polygon, angles)
    best, at = float(areas.max()), float(angles[areas.argmax()])
    work = _FIRST_ANGLES
    while True:
        bounds = areas + slope * math.tan(half)
        open_ = bounds > best * (1 + _GAP)
        gap = max(0.0, float(bounds.max()) / best - 1) if open_.any() else _GAP
        if not open_.any() or work + 2 * int(open_.sum()) > _MAX_ANGLES:
            break
        half /= 2
        angles = (angles[open_][:, None] + np.array([-half, half])).ravel().astype(np.float64)
        areas = _areas(polygon, angles)
        work += len(angles)
        if areas.max() > best:
            best, at = float(areas.max()), float(angles[areas.argmax()])
    polished = peak(lambda angle: float(_areas(polygon, np.array([angle]))[0]), at - 2 * half, at + 2 * half)
    # a rectangle that is as large along an edge is given along it, free of the search's rounding
    turned = np.arctan2(polygon.normals[:, 0], -polygon.normals[:, 1])
    tries = np.concatenate([turned % (math.pi / 2), [polished, at]])
    areas = _areas(polygon, tries)
    found = _at_angle(polygon, float(tries[(areas >= areas.max() * (1 - 1e-12)).argmax()]))
    return LargestRectangle(found, gap)


def aligned_rectangle(corners: Sequence[Point], direction: Point) -> TurnedRectangle:
    """Largest rectangle in a convex polygon with sides along and across a direction, longer side first.

    See `largest_rectangle` for what is refused.
    """
    return _at_angle(_polygon(corners), math.atan2(direction[1], direction[0]))


def _polygon(corners: Sequence[Point]) -> _Polygon:
    points = np.array(corners, dtype=np.float64).reshape(-1, 2)
    if not 3 <= len(points) <= MAX_CORNERS:
        raise GeometryError(
            f"the shape has {len(points)} corners; the largest rectangle is searched for with 3 to {MAX_CORNERS}: "
            "leave out corners"
        )
    middle = points.mean(axis=0)
    points = points - middle
    edges = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(*edges.T)
    if not (np.isfinite(points).all() and lengths.min() > NODE_MM):
        raise GeometryError("two neighbouring corners are at one place or not finite; give each corner once")
    ux, uy = (edges / lengths[:, None]).T
    normals = np.column_stack([uy, -ux])
    distances = np.einsum("ij,ij->i", normals, points)
    outside = (normals @ points.T - distances[:, None]).max()
    if outside > NODE_MM:
        raise GeometryError(
            f"the shape is hollow by {outside:.4g} mm; the largest rectangle over all angles needs at most 0 mm: "
            "give the corners counter-clockwise, or choose an edge to keep"
        )
    weights = _cancelling(normals)
    far = np.hypot(*(points[:, None] - points[None]).transpose(2, 0, 1)).max()
    return _Polygon(
        normals, distances, weights, weights @ distances, (float(middle[0]), float(middle[1])), float(far)
    )


def _cancelling(normals: Floats) -> Floats:
    """Weights, each row for one triple of normals, that are at least 0, sum to 1 and cancel them.

    Two opposite normals make, with any third, a triple in which that third weighs nothing.
    """
    rows = []
    for chosen in combinations(range(len(normals)), 3):
        (ax, ay), (bx, by), (cx, cy) = normals[list(chosen)]
        weight = np.array([bx * cy - by * cx, cx * ay - cy * ax, ax * by - ay * bx])
        if weight.sum() < 0:
            weight = -weight
        if weight.min() < 0 or weight.sum() <= 1e-12:
            continue
        row = np.zeros(len(normals))
        row[list(chosen)] = weight / weight.sum()
        rows.append(row)
    return np.array(rows)


def _bounds(polygon: _Polygon, angles: Floats) -> tuple[Floats, Floats]:
    """Factors A and B of width and height in each bound, one row per angle."""
    cos, sin = np.cos(angles)[:, None], np.sin(angles)[:, None]
    nx, ny = polygon.normals.T
    along, across = np.abs(nx * cos + ny * sin) / 2, np.abs(ny * cos - nx * sin) / 2
    return along @ polygon.weights.T, across @ polygon.weights.T


def _best_sides(polygon: _Polygon, angles: Floats) -> tuple[Floats, Floats]:
    """Width and height of the largest rectangle at each angle."""
    a, b = _bounds(polygon, angles)
    # a bound whose factor is 0 does not hold the side at all
    with np.errstate(divide="ignore", invalid="ignore"):
        high = np.where(a > 1e-15, polygon.limits / a, np.inf).min(axis=1)

        def height(width: Floats) -> Floats:
            left = polygon.limits - a * width[:, None]
            free: Floats = np.where(b > 1e-15, left / b, np.inf).min(axis=1)
            return np.maximum(free, 0.0)

        low = np.zeros_like(high)
        share = (math.sqrt(5) - 1) / 2
        for _ in range(70):
            one, two = high - share * (high - low), low + share * (high - low)
            rises = one * height(one) < two * height(two)
            low, high = np.where(rises, one, low), np.where(rises, high, two)
        # beside a steep flank the three differ
        tries = np.stack([low, (low + high) / 2, high])
        heights = np.stack([height(width) for width in tries])
        best = (tries * heights).argmax(axis=0)[None]
        return np.take_along_axis(tries, best, 0)[0], np.take_along_axis(heights, best, 0)[0]


def _areas(polygon: _Polygon, angles: Floats) -> Floats:
    width, height = _best_sides(polygon, angles)
    areas: Floats = width * height
    return areas


def _at_angle(polygon: _Polygon, angle: float) -> TurnedRectangle:
    """The largest rectangle at an angle, placed where it has the most room, longer side first."""
    widths, heights = _best_sides(polygon, np.array([angle]))
    width, height = float(widths[0]), float(heights[0])
    if height > width:
        angle, width, height = angle + math.pi / 2, height, width
    # an angle of at most a right angle either way reads like the top's own length
    angle -= math.pi * round(angle / math.pi)
    ux, uy = math.cos(angle), math.sin(angle)
    nx, ny = polygon.normals.T
    room = polygon.distances - (np.abs(nx * ux + ny * uy) * width + np.abs(ny * ux - nx * uy) * height) / 2
    cx, cy = _roomiest(polygon.normals, room)
    x = cx + polygon.middle[0] - (width * ux - height * uy) / 2
    y = cy + polygon.middle[1] - (width * uy + height * ux) / 2
    return TurnedRectangle((x, y), (ux, uy), width, height)


def _roomiest(normals: Floats, room: Floats) -> tuple[float, float]:
    """The point whose least distance from all lines n·c = room is greatest: a corner of that linear program."""
    triples = np.array(list(combinations(range(len(normals)), 3)))
    matrix = np.concatenate([normals[triples], np.ones((*triples.shape, 1))], axis=2)
    solvable = np.abs(np.linalg.det(matrix)) > 1e-12
    found = np.linalg.solve(matrix[solvable], room[triples[solvable]][..., None])[..., 0]
    slack = (room - found[:, :2] @ normals.T).min(axis=1)
    x, y = found[slack.argmax(), :2]
    return float(x), float(y)
