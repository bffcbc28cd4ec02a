"""What a routed edge measures, from the raw outline by rays: no inner parallel is ever made.

From every point of the routed outline a ray runs square into the wood. It belongs to that point as far as no other
point of the outline is nearer, up to D(u): the radius of the largest disc that touches the outline there and holds no
other point of it,

    D = min over all points q of the outline of |q - p|² / (2 (q - p)·n).

Wood and surface are then integrals over the outline of what the form takes along each ray,

    S = ∫ du ∫_0^D (a + b d) (ds/dd) dd        V = ∫ du ∫_0^D (a + b d) z(d) dd

where a + b d is how rays crowd: 1 on a line, R - d or R + d for each radian of an arc, d round an inside corner.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from edgewright.design.forms import Form
from edgewright.design.outline import Arc, Line, Segment
from edgewright.design.region import Region

Floats = NDArray[np.float64]
_X, _W = np.polynomial.legendre.leggauss(12)
_FORM_X, _FORM_W = np.polynomial.legendre.leggauss(28)


@dataclass(frozen=True)
class RayFigures:
    """Surface and removed wood of a form, its moments about the axes, and P and A at its reach."""

    surface: float
    removed: float
    moment: tuple[float, float]


def adaptive(function: Callable[[Floats], Floats], edges: Floats, share: float) -> Floats:
    """Integrate rows of a function over panels, all of a round at once, halved where two rules differ.

    Within each panel the place is bent, u = a + (b - a) t²(3 - 2t), so that a root at its ends does no harm. A panel
    is good enough where both rules agree to ``share`` of the sum of the row's absolute values.
    """
    total: Floats | float = 0.0
    low, width = edges[:-1], np.diff(edges)
    a, b = np.zeros(len(low)), np.ones(len(low))

    def rule(low: Floats, width: Floats, a: Floats, b: Floats) -> Floats:
        t = (a + b)[:, None] / 2 + (b - a)[:, None] / 2 * _X
        values = function((low[:, None] + width[:, None] * t * t * (3 - 2 * t)).ravel())
        weights = _W * 6 * t * (1 - t) * (width * (b - a))[:, None] / 2
        return np.asarray((values.reshape(len(values), *t.shape) * weights).sum(axis=2))

    whole = rule(low, width, a, b)
    good = share * np.abs(whole).sum(axis=1, keepdims=True) + 1e-300
    for _ in range(10):
        middle = (a + b) / 2
        two = [np.concatenate(pair) for pair in ((low, low), (width, width), (a, middle), (middle, b))]
        parts = rule(*two)
        left, right = parts[:, : len(a)], parts[:, len(a) :]
        bad = (np.abs(left + right - whole) > good).any(axis=0)
        total = total + (left + right)[:, ~bad].sum(axis=1)
        if not bad.any():
            return np.asarray(total)
        low, width, a, b = (np.concatenate((one[: len(bad)][bad], one[len(bad) :][bad])) for one in two)
        whole = np.concatenate((left[:, bad], right[:, bad]), axis=1)
    return np.asarray(total + whole.sum(axis=1))


def panels(label: Callable[[Floats], NDArray[np.int64]], low: float, high: float) -> Floats:
    """Places between which nothing changes abruptly: found on a grid fine at both ends, then by halving."""
    steps = 0.5 ** np.arange(16.0, 0.5, -0.5)
    edges = low + (high - low) * np.concatenate(([0.0], steps, 1 - steps[-2::-1], [1.0]))
    for _ in range(2):
        kinds = label(edges)
        at = np.nonzero(kinds[1:] != kinds[:-1])[0]
        if not len(at):
            break
        a, b, kind = edges[at], edges[at + 1], kinds[at]
        for _ in range(48):
            middle = (a + b) / 2
            same = label(middle) == kind
            a, b = np.where(same, middle, a), np.where(same, b, middle)
        edges = np.unique(np.concatenate((edges, b)))
    return edges[np.concatenate(([True], np.diff(edges) > 1e-13 * max(1.0, abs(high))))]


def form_sums(form: Form, upto: Floats) -> Floats:
    """Rows ∫ds, ∫d ds, ∫z dd, ∫d z dd, ∫d² z dd over the part of a form at insets up to each figure."""
    out = np.zeros((5, len(upto)))
    for part in form.parts:
        (d1, z1), (d0, z0) = part.start, part.end  # d1 is the greater inset
        if isinstance(part, Line):
            if d1 == d0:
                out[0] += (upto >= d0) * part.length
                out[1] += (upto >= d0) * part.length * d0
                continue
            end = np.clip(upto, d0, d1)
            half, middle = (end - d0) / 2, (end + d0) / 2
            d = middle[:, None] + half[:, None] * _FORM_X
            z = z0 + (z1 - z0) * (d - d0) / (d1 - d0)
            weight = half[:, None] * _FORM_W
            stretch = np.full_like(d, math.hypot(1.0, (z1 - z0) / (d1 - d0)))
        else:
            cx, cz = part.centre
            # the angle runs from the edge inwards
            first = math.atan2(z0 - cz, d0 - cx)
            share = np.clip((np.clip(upto, d0, d1) - cx) / part.radius, -1.0, 1.0)
            side = 1.0 if math.sin(part.start_angle + part.sweep / 2) > 0 else -1.0
            last = np.where(
                upto >= d1, first - part.sweep, np.where(upto <= d0, first, side * np.arccos(share))
            )
            last = first + np.remainder(last - first + math.pi, 2 * math.pi) - math.pi
            half, middle = (last - first) / 2, (last + first) / 2
            t = middle[:, None] + half[:, None] * _FORM_X
            d, z = cx + part.radius * np.cos(t), cz + part.radius * np.sin(t)
            weight = np.abs(half[:, None] * _FORM_W * part.radius * np.sin(t))
            stretch = 1 / np.abs(np.sin(t))
        out[0] += (weight * stretch).sum(axis=1)
        out[1] += (weight * stretch * d).sum(axis=1)
        for power in range(3):
            out[2 + power] += (weight * z * d**power).sum(axis=1)
    return out


class _Way:
    """One stretch of the outline that sends rays: a line, an arc, or an inside corner."""

    def __init__(self, segment: Segment | None, point: complex, begin: float, turn: float) -> None:
        self.segment, self.point, self.begin, self.turn = segment, point, begin, turn
        if isinstance(segment, Line):
            start = complex(*segment.start)
            along = complex(*segment.end) - start
            self.span, self.along, self.point = abs(along), along / abs(along), start
            self.a, self.b = 1.0, 0.0
        elif isinstance(segment, Arc):
            self.span = abs(segment.sweep)
            self.point = complex(*segment.centre)
            self.begin = math.atan2(
                segment.start[1] - segment.centre[1], segment.start[0] - segment.centre[0]
            )
            self.sign = math.copysign(1.0, segment.sweep)
            self.a, self.b = segment.radius, -self.sign
        else:
            self.span, self.a, self.b = abs(turn), 0.0, 1.0

    def rays(self, u: Floats) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
        """Feet and unit directions of the rays."""
        if isinstance(self.segment, Line):
            return self.point + u * self.along, np.full(len(u), 1j * self.along)
        if isinstance(self.segment, Arc):
            arm = np.exp(1j * (self.begin + self.sign * u))
            return self.point + self.segment.radius * arm, -self.sign * arm
        return np.full(len(u), self.point), np.exp(1j * (self.begin - u))


def _reach_line(line: Line, p: NDArray[np.complex128], n: NDArray[np.complex128]) -> Floats:
    """Radius of the disc that touches at p along n and a line."""
    q, along = complex(*line.start), complex(*line.end) - complex(*line.start)
    length = abs(along)
    along /= length
    m = 1j * along
    off, rate = ((p - q) * np.conj(m)).real, (n * np.conj(m)).real
    best = np.full(len(p), np.inf)
    for side in (1.0, -1.0):
        with np.errstate(divide="ignore", invalid="ignore"):
            d = side * off / (1 - side * rate)
            foot = ((p + d * n - q) * np.conj(along)).real
        fits = (d > 1e-12) & (foot > 0) & (foot < length)
        best = np.where(fits, np.minimum(best, np.where(fits, d, np.inf)), best)
    return best


def _reach_arc(arc: Arc, p: NDArray[np.complex128], n: NDArray[np.complex128]) -> Floats:
    """Radius of the disc that touches at p along n and an arc, from within or without."""
    c, radius = complex(*arc.centre), arc.radius
    w = p - c
    square, rate = np.abs(w) ** 2 - radius**2, (w * np.conj(n)).real
    middle = math.atan2(arc.start[1] - c.imag, arc.start[0] - c.real) + arc.sweep / 2
    best = np.full(len(p), np.inf)
    for side in (1.0, -1.0):  # without, within
        with np.errstate(divide="ignore", invalid="ignore"):
            d = side * square / (2 * (radius - side * rate))
        with np.errstate(invalid="ignore"):
            x = w + d * n
            on = np.abs(np.angle(x * np.exp(-1j * middle))) < abs(arc.sweep) / 2 - 1e-13
            right = (np.abs(x) >= radius) if side > 0 else (np.abs(x) <= radius)
        fits = (d > 1e-12) & on & right
        best = np.where(fits, np.minimum(best, np.where(fits, d, np.inf)), best)
    return best


def _reach_point(q: complex, p: NDArray[np.complex128], n: NDArray[np.complex128]) -> Floats:
    w = q - p
    away = (w * np.conj(n)).real
    fits = (away > 1e-9 * np.abs(w)) & (np.abs(w) > 1e-9)
    return np.where(fits, np.abs(w) ** 2 / (2 * np.where(fits, away, 1.0)), np.inf)


def _crossing(segment: Segment, p: NDArray[np.complex128], n: NDArray[np.complex128]) -> Floats:
    """How far along each ray the first crossing with a segment lies."""
    best = np.full(len(p), np.inf)
    if isinstance(segment, Line):
        q, along = complex(*segment.start), complex(*segment.end) - complex(*segment.start)
        cross = (np.conj(n) * along).imag
        with np.errstate(divide="ignore", invalid="ignore"):
            d = (np.conj(q - p) * along).imag / cross
            t = (np.conj(n) * (q - p)).imag / -cross
        return np.where((np.abs(cross) > 1e-12) & (d > 1e-12) & (t >= 0) & (t <= 1), d, best)
    c = complex(*segment.centre)
    w = p - c
    rate, square = (w * np.conj(n)).real, np.abs(w) ** 2 - segment.radius**2
    root = np.sqrt(np.maximum(rate**2 - square, 0.0))
    middle = math.atan2(segment.start[1] - c.imag, segment.start[0] - c.real) + segment.sweep / 2
    for sign in (-1.0, 1.0):
        d = -rate + sign * root
        on = np.abs(np.angle((w + d * n) * np.exp(-1j * middle))) <= abs(segment.sweep) / 2
        fits = (rate**2 > square) & (d > 1e-12) & on
        best = np.minimum(best, np.where(fits, d, np.inf))
    return best


def _heading(segment: Segment, *, end: bool) -> complex:
    if isinstance(segment, Line):
        along = complex(*segment.end) - complex(*segment.start)
        return along / abs(along)
    arm = complex(*(segment.end if end else segment.start)) - complex(*segment.centre)
    return 1j * math.copysign(1.0, segment.sweep) * arm / abs(arm)


def joint_turn(one: Segment, following: Segment) -> float:
    """Angle (radians, left positive) by which the direction turns from one segment to the next."""
    ratio = _heading(following, end=False) / _heading(one, end=True)
    turn = math.atan2(ratio.imag, ratio.real)
    return 0.0 if abs(turn) < 1e-6 else turn


def ray_figures(
    region: Region, form: Form, still: frozenset[int] = frozenset(), loop: int | None = None
) -> RayFigures:
    """Surface and removed wood of a form along the routed segments of a region (or of one loop of it)."""
    reach, found, first = form.reach, np.zeros(4), 0
    routed = [s for at, s in enumerate(region.segments) if at not in still]
    fixed = [s for at, s in enumerate(region.segments) if at in still]
    for number, outline in enumerate(region.loops):
        segments, count = outline.segments, len(outline.segments)
        numbers = range(first, first + count)
        first += count
        if loop is not None and number != loop:
            continue
        for at, segment in enumerate(segments):
            if numbers[at] in still:
                continue
            after = segments[(at + 1) % count]
            here = _Way(segment, 0j, 0.0, 0.0)
            out = [0.0, 0.0]
            for end, to in ((0, at - 1), (1, (at + 1) % count)):
                if numbers[to] in still:
                    turn = joint_turn(segment, after) if end else joint_turn(segments[at - 1], segment)
                    # past the end of an edge that meets a wall at an obtuse angle the bit runs on
                    if 0 < turn < math.pi / 2:
                        more = 1.5 * reach / math.tan(turn) + (0.0 if isinstance(segment, Line) else 1.0)
                        out[end] = more / (1.0 if isinstance(segment, Line) else segment.radius)
            ways = [(here, -out[0], here.span + out[1], (segment,))]
            turn = joint_turn(segment, after)
            if turn < 0 and numbers[(at + 1) % count] not in still:
                begin = _heading(segment, end=True) * 1j
                corner = _Way(None, complex(*segment.end), math.atan2(begin.imag, begin.real), turn)
                ways.append((corner, 0.0, corner.span, (segment, after)))
            for way, low, high, own in ways:
                # a disc of radius D lies within 2 reach of its ray's foot
                near = _box(own[0], 2.01 * reach + 1)
                others = [s for s in routed if s not in own and _overlap(near, _box(s))]
                pieces = sorted({low, 0.0, way.span, high})
                for a, b in pairwise(pieces):
                    inside = a >= 0.0 and b <= way.span
                    rays = _Rays(way, others, own, fixed, form, inside)
                    found += adaptive(rays.taken, panels(rays.label, a, b), 1e-12)
    return RayFigures(float(found[0]), float(found[1]), (float(found[2]), float(found[3])))


def _box(segment: Segment, more: float = 0.0) -> tuple[float, float, float, float]:
    """An upright box around a segment, larger by a margin."""
    xs, ys = zip(segment.start, segment.end, strict=True)
    if isinstance(segment, Arc):
        # no arc bulges further over its ends than the sagitta of its half, or its whole circle
        (cx, cy), radius = segment.centre, segment.radius
        bulge = radius * (1 - math.cos(segment.sweep / 2))
        if abs(segment.sweep) > math.pi:
            xs, ys = (cx - radius, cx + radius), (cy - radius, cy + radius)
        else:
            more += bulge
    return min(xs) - more, min(ys) - more, max(xs) + more, max(ys) + more


def _overlap(one: tuple[float, float, float, float], other: tuple[float, float, float, float]) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]


class _Rays:
    """How far the rays of one way belong to it, and what the form takes along them."""

    def __init__(
        self,
        way: _Way,
        others: list[Segment],
        own: tuple[Segment, ...],
        fixed: list[Segment],
        form: Form,
        inside: bool,
    ) -> None:
        self.way, self.others, self.fixed, self.form, self.inside = way, others, fixed, form, inside
        mine = (
            [way.point] if way.segment is None else [complex(*way.segment.start), complex(*way.segment.end)]
        )
        ends = [complex(*q) for s in (*others, *own) for q in (s.start, s.end)]
        self.points = [q for q in dict.fromkeys(ends) if all(abs(q - one) > 1e-6 for one in mine)]
        self.depths = np.unique([end[0] for part in form.parts for end in (part.start, part.end)])

    def bounds(self, p: NDArray[np.complex128], n: NDArray[np.complex128]) -> tuple[Floats, Floats, Floats]:
        """Inset at which each ray begins to count, at which it ends, and number of what ends it."""
        reach = self.form.reach
        most = [np.full(len(p), reach)]
        segment = self.way.segment
        if isinstance(segment, Arc) and segment.sweep > 0:
            most.append(np.full(len(p), segment.radius))
        if self.inside:
            most += [
                _reach_line(one, p, n) if isinstance(one, Line) else _reach_arc(one, p, n)
                for one in self.others
            ]
            most += [_reach_point(q, p, n) for q in self.points]
        least = np.zeros(len(p))
        if self.fixed:
            wall = np.min([_crossing(one, p, n) for one in self.fixed], axis=0)
            if self.inside:
                most.append(wall)
            else:
                least = np.minimum(wall, np.min(most, axis=0))
        table = np.array(most)
        return least, table.min(axis=0), table.argmin(axis=0)

    def label(self, u: Floats) -> NDArray[np.int64]:
        """A number for each ray, alike where its bounds are one smooth function and within one part of the form."""
        least, most, which = self.bounds(*self.way.rays(u))
        parts = np.searchsorted(self.depths, most) * 50 + np.searchsorted(self.depths, least)
        return np.asarray((which * 2500 + parts) * 2 + (least < most), dtype=np.int64)

    def taken(self, u: Floats) -> Floats:
        """Surface, wood, and wood times place for each unit of u."""
        p, n = self.way.rays(u)
        least, most, _ = self.bounds(p, n)
        sums = form_sums(self.form, most)
        if not self.inside:
            sums = sums - form_sums(self.form, least)
            sums[:, least >= most] = 0.0
        a, b = self.way.a, self.way.b
        surface, wood = a * sums[0] + b * sums[1], a * sums[2] + b * sums[3]
        # the point of a ray at inset d is p + d n
        lean = a * sums[3] + b * sums[4]
        return np.array([surface, wood, p.real * wood + n.real * lean, p.imag * wood + n.imag * lean])
