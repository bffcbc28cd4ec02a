"""All points at which many segments meet one another, most of them told at once; see `intersect` for one pair.

Pairs that cross at a fair angle well within both, or miss each other, and joints are told for all pairs together;
what is within rounding of an end or of a tangent is left to `intersections`, pair by pair.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from edgewright.design.intersect import intersections
from edgewright.design.outline import Arc, Point, Segment
from edgewright.design.tolerances import NODE_MM, PARALLEL_RAD

__all__ = ["along", "boxes_of", "meetings", "table"]

Floats = NDArray[np.float64]

#: A crossing nearer to an end than this, divided by the sine of its angle, is looked at on its own (mm).
_CLEAR_MM: Final = 1e-6
#: Crossings at a smaller sine are looked at on their own.
_FAIR_SINE: Final = 1e-3


def table(segments: Sequence[Segment]) -> Floats:
    """One row for each segment: start, end, centre, radius, sweep; zeros for what a line has not."""
    rows = [
        (*one.start, *one.end, *one.centre, one.radius, one.sweep)
        if isinstance(one, Arc)
        else (*one.start, *one.end, 0.0, 0.0, 0.0, 0.0)
        for one in segments
    ]
    return np.array(rows, dtype=np.float64).reshape(-1, 8)


def boxes_of(rows: Floats) -> Floats:
    """Upright boxes around the segments of a table: x min, y min, x max, y max (mm); an arc's may be wide."""
    sag = (rows[:, 6] * (1 - np.cos(np.minimum(np.abs(rows[:, 7]) / 2, math.pi))))[:, None]
    low = np.minimum(rows[:, :2], rows[:, 2:4]) - sag
    high = np.maximum(rows[:, :2], rows[:, 2:4]) + sag
    return np.hstack((low, high))


def meetings(segments: Sequence[Segment], rows: Floats) -> list[tuple[int, int, tuple[Point, ...]]]:
    """Pairs of segments that share points, the smaller number first, with the points (mm).

    A plain joint, one segment's end at the start of another that it meets nowhere else, is left out.

    Parameters
    ----------
    segments
        The segments.
    rows
        Their `table`.
    """
    first, second = _near_pairs(boxes_of(rows))
    a, b = rows[first], rows[second]
    ahead = np.hypot(*(a[:, 2:4] - b[:, :2]).T) <= NODE_MM
    behind = np.hypot(*(b[:, 2:4] - a[:, :2]).T) <= NODE_MM
    lines_a, lines_b = a[:, 6] == 0, b[:, 6] == 0
    joint = ahead != behind
    cross, dot = _turn(np.where(ahead[:, None], a, b), np.where(ahead[:, None], b, a))
    smooth = (np.abs(cross) <= PARALLEL_RAD) & (dot > 0)
    apart = np.hypot(*(a[:, 4:6] - b[:, 4:6]).T)
    circles = ~lines_a & ~lines_b & (apart <= _CLEAR_MM)
    done = joint & ((smooth & ~circles) | (lines_a & lines_b & (np.abs(cross) > PARALLEL_RAD)))
    first, second = first[~done], second[~done]
    if not len(first):
        return []
    a, b = rows[first], rows[second]
    x, y, sine, can = _crossings(a, b)
    share_a, share_b = _inside(a, x, y, sine), _inside(b, x, y, sine)
    within = can & (sine >= 0) & (share_a > 0) & (share_b > 0)
    without = ~can | (share_a < 0) | (share_b < 0)
    told = (np.all(within | without, axis=1) & (sine[:, 0] > _FAIR_SINE)) | (sine[:, 0] < 0)
    found: list[tuple[int, int, tuple[Point, ...]]] = []
    todo = np.nonzero(~told | np.any(within, axis=1))[0]
    for at in todo.tolist():
        i, j = int(first[at]), int(second[at])
        if told[at]:
            points = tuple((float(x[at, k]), float(y[at, k])) for k in (0, 1) if within[at, k])
        else:
            points = intersections(segments[i], segments[j])
        if points:
            found.append((i, j, points))
    return found


def _near_pairs(box: Floats) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Numbers of the pairs whose boxes overlap, the smaller one first."""
    # columns of their own: a stride costs more than the comparison
    west, south, east, north = np.ascontiguousarray(box.T)
    meet = west[:, None] - NODE_MM <= east + NODE_MM
    meet &= south[:, None] - NODE_MM <= north + NODE_MM
    first, second = np.divmod(np.flatnonzero(meet & meet.T), len(box))
    keep = first < second
    return first[keep], second[keep]


def _turn(before: Floats, after: Floats) -> tuple[Floats, Floats]:
    """Cross and scalar product of the directions at the end of one and at the start of the other."""
    u, v = along(before, before[:, 2:4]), along(after, after[:, :2])
    return u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0], u[:, 0] * v[:, 0] + u[:, 1] * v[:, 1]


def along(rows: Floats, point: Floats) -> Floats:
    """Unit vectors along the segments at points on them."""
    line = rows[:, 6] == 0
    arm = point - rows[:, 4:6]
    turned = np.sign(rows[:, 7])[:, None] * np.column_stack((-arm[:, 1], arm[:, 0]))
    way = np.where(line[:, None], rows[:, 2:4] - rows[:, :2], turned)
    return way / np.hypot(way[:, 0], way[:, 1])[:, None]


def _crossings(a: Floats, b: Floats) -> tuple[Floats, Floats, Floats, NDArray[np.bool_]]:
    """Crossings of the carriers, two columns: x, y, sine of the angle (-1 where they miss), whether it is one."""
    count = len(a)
    x, y, sine = np.zeros((count, 2)), np.zeros((count, 2)), np.zeros(count)
    can = np.ones((count, 2), dtype=np.bool_)
    lines_a, lines_b = a[:, 6] == 0, b[:, 6] == 0

    at = np.nonzero(lines_a & lines_b)[0]
    if len(at):
        p, q = a[at], b[at]
        u, v, w = p[:, 2:4] - p[:, :2], q[:, 2:4] - q[:, :2], q[:, :2] - p[:, :2]
        cross = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        sine[at] = np.abs(cross) / (np.hypot(*u.T) * np.hypot(*v.T))
        t = (w[:, 0] * v[:, 1] - w[:, 1] * v[:, 0]) / np.where(cross == 0, 1.0, cross)
        x[at, 0], y[at, 0] = p[:, 0] + t * u[:, 0], p[:, 1] + t * u[:, 1]
        can[at, 1] = False

    at = np.nonzero(lines_a != lines_b)[0]
    if len(at):
        flip = lines_b[at][:, None]
        line, arc = np.where(flip, b[at], a[at]), np.where(flip, a[at], b[at])
        u = line[:, 2:4] - line[:, :2]
        u = u / np.hypot(*u.T)[:, None]
        w = arc[:, 4:6] - line[:, :2]
        along, off = w[:, 0] * u[:, 0] + w[:, 1] * u[:, 1], u[:, 0] * w[:, 1] - u[:, 1] * w[:, 0]
        r = arc[:, 6]
        half = np.sqrt(np.maximum((r - np.abs(off)) * (r + np.abs(off)), 0.0))
        sine[at] = np.where(np.abs(off) > r + _CLEAR_MM, -1.0, half / r)
        for k, side in enumerate((1, -1)):
            t = along + side * half
            x[at, k], y[at, k] = line[:, 0] + t * u[:, 0], line[:, 1] + t * u[:, 1]

    at = np.nonzero(~lines_a & ~lines_b)[0]
    if len(at):
        small = (a[at, 6] <= b[at, 6])[:, None]
        p, q = np.where(small, a[at], b[at]), np.where(small, b[at], a[at])
        way = q[:, 4:6] - p[:, 4:6]
        gap, r, s = np.hypot(*way.T), p[:, 6], q[:, 6]
        safe = np.where(gap == 0, 1.0, gap)
        u = way / safe[:, None]
        along = ((gap - s) * (gap + s) + r * r) / (2 * safe)
        across = np.sqrt(np.maximum((r - along) * (r + along), 0.0))
        misses = (gap > r + s + _CLEAR_MM) | (gap < s - r - _CLEAR_MM)
        sine[at] = np.where(misses, -1.0, np.where(gap > _CLEAR_MM, across * gap / (r * s), 0.0))
        for k, side in enumerate((1, -1)):
            x[at, k] = p[:, 4] + along * u[:, 0] - side * across * u[:, 1]
            y[at, k] = p[:, 5] + along * u[:, 1] + side * across * u[:, 0]
    return x, y, np.column_stack((sine, sine)), can


def _inside(rows: Floats, x: Floats, y: Floats, sine: Floats) -> Floats:
    """1 for a point of the carrier that lies well between the ends, -1 well beyond them, 0 near an end."""
    margin = _CLEAR_MM / np.maximum(sine, _FAIR_SINE)
    line = (rows[:, 6] == 0)[:, None]
    ux, uy = (rows[:, 2] - rows[:, 0])[:, None], (rows[:, 3] - rows[:, 1])[:, None]
    length = np.where(line, np.hypot(ux, uy), 1.0)
    on_line = ((x - rows[:, :1]) * ux + (y - rows[:, 1:2]) * uy) / length
    inner = np.minimum(on_line, length - on_line)
    radius, sweep = rows[:, 6:7], rows[:, 7:8]
    begin = np.arctan2(rows[:, 1:2] - rows[:, 5:6], rows[:, :1] - rows[:, 4:5])
    angle = np.arctan2(y - rows[:, 5:6], x - rows[:, 4:5]) - begin - sweep / 2
    angle = np.abs((angle + math.pi) % (2 * math.pi) - math.pi)
    inner = np.where(line, inner, radius * (np.abs(sweep) / 2 - angle))
    return np.where(inner > margin, 1.0, np.where(inner < -margin, -1.0, 0.0))
