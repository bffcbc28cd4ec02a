"""Drawing on paper: scales, line layers and a pen that keeps what was drawn.

All positions are paper millimetres, so lettering has its true size. Scales are those of the shop wall; the
drawing states which one it has.

References
----------
ISO 5455 (a scale is written 1:n); ISO 128-2 (widths); ISO 129-1 (running dimensions start at a small circle)
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import Final

from edgewright.drawing.arcs import loop_of
from edgewright.drawing.lettering import text_width
from edgewright.drawing.view import (
    Anchor,
    Circle,
    Face,
    Hatch,
    Layer,
    Loop,
    Note,
    Segment,
    Shape,
    Vertex,
    View,
)

__all__ = [
    "DATUM",
    "GUIDE",
    "HATCHING",
    "HIDDEN",
    "KEEP",
    "LETTERING",
    "PANEL",
    "PAPER_LAYERS",
    "PINS",
    "SCALES",
    "THIN",
    "PaperBox",
    "Pen",
    "Point",
    "pick_scale",
    "scale_text",
    "spread",
]

Point = tuple[float, float]
#: Width and height that a figure may fill, mm.
PaperBox = tuple[float, float]

#: How many millimetres of wood one millimetre of paper shows.
SCALES: Final = (1.0, 2.0, 2.5, 5.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 50.0, 100.0, 200.0)

DATUM: Final = Layer("DATUM_EDGE", "edge that positions are measured from", 1.4, "continuous", False)
PANEL: Final = Layer("EDGES", "edges of parts", 0.5, "continuous", False)
KEEP: Final = Layer("KEEP_LINES", "where the wood that stays begins", 0.35, "continuous", False)
GUIDE: Final = Layer("GUIDE", "edge of the saw's guide", 0.25, "long dash dot", False)
HIDDEN: Final = Layer("HIDDEN", "edges that are covered or cut off", 0.25, "dashed", False)
HATCHING: Final = Layer("HATCHING", "kerfs, cut faces and zones", 0.18, "continuous", False)
THIN: Final = Layer("THIN", "leaders, dimensions and small signs", 0.25, "continuous", False)
PINS: Final = Layer("PINS", "pins", 0.35, "continuous", False)
LETTERING: Final = Layer("LETTERING", "text", 0.25, "continuous", False)
PAPER_LAYERS: Final = (PANEL, DATUM, KEEP, GUIDE, HIDDEN, HATCHING, THIN, PINS, LETTERING)

_ARROW: Final = 2.7
_TIGHT: Final = 1e-6


def pick_scale(parts: Sequence[tuple[float, float]], least: float = 1.0) -> float | None:
    """Largest scale at which every part fits.

    Parameters
    ----------
    parts
        Pairs of a size of wood and the paper there is for it, mm.
    least
        No larger scale than this is wanted (1 is full size).

    Returns
    -------
    float or None
        Millimetres of wood in one of paper; None where even the smallest scale does not fit.
    """
    for scale in SCALES:
        if scale >= least and all(size / scale <= room + _TIGHT for size, room in parts):
            return scale
    return None


def scale_text(scale: float) -> str:
    """Write a scale like ``scale 1:12``."""
    return f"scale 1:{scale:g}"


def spread(wanted: Sequence[float], sizes: Sequence[float], low: float, high: float) -> list[float] | None:
    """Centres near the wanted ones so that nothing overlaps, in the same order; None where they do not fit.

    Parameters
    ----------
    wanted
        Centres, ascending.
    sizes
        Room that each takes, the gap to its neighbour included.
    low, high
        Ends of the room.
    """
    if sum(sizes) > high - low + _TIGHT:
        return None
    # groups of touching items: each group lies around the mean of what its items want
    groups: list[tuple[float, list[int]]] = []
    for index in range(len(wanted)):
        members = [index]
        start = _group_start(members, wanted, sizes, low, high)
        while groups and groups[-1][0] + sum(sizes[i] for i in groups[-1][1]) > start - _TIGHT:
            members = groups.pop()[1] + members
            start = _group_start(members, wanted, sizes, low, high)
        groups.append((start, members))
    centres = [0.0] * len(wanted)
    for start, members in groups:
        at = start
        for index in members:
            centres[index] = at + sizes[index] / 2
            at += sizes[index]
    return centres


def _group_start(
    members: list[int], wanted: Sequence[float], sizes: Sequence[float], low: float, high: float
) -> float:
    before, starts = 0.0, []
    for index in members:
        starts.append(wanted[index] - sizes[index] / 2 - before)
        before += sizes[index]
    return min(max(sum(starts) / len(starts), low), high - before)


class Pen:
    """Collects the shapes of one figure; equal lines are kept once."""

    def __init__(self) -> None:
        self._shapes: list[tuple[str, Shape]] = []
        self._drawn: set[tuple[str, tuple[Point, ...]]] = set()

    def view(self, name: str, title: str) -> View:
        """Figure of all that was drawn; lettering comes last."""
        lettering = [pair for pair in self._shapes if pair[0] == LETTERING.name]
        lines = [pair for pair in self._shapes if pair[0] != LETTERING.name]
        used = {layer for layer, _ in self._shapes}
        layers = tuple(layer for layer in PAPER_LAYERS if layer.name in used)
        return View(name, title, (*lines, *lettering), layers)

    def shape(self, layer: Layer, shape: Shape) -> None:
        """Draw any shape."""
        self._shapes.append((layer.name, shape))

    def line(self, layer: Layer, *points: Point) -> None:
        """Draw a line through points; stretches of no length and stretches drawn before are left out."""
        for a, b in itertools.pairwise(points):
            ends = tuple(sorted(((round(a[0], 4), round(a[1], 4)), (round(b[0], 4), round(b[1], 4)))))
            if math.dist(a, b) > 1e-3 and (layer.name, ends) not in self._drawn:
                self._drawn.add((layer.name, ends))
                self.shape(layer, Segment(*a, *b))

    def outline(self, layer: Layer, points: Sequence[Point]) -> None:
        """Draw the edges of a polygon."""
        self.line(layer, *points, points[0])

    def box(self, layer: Layer, x0: float, y0: float, x1: float, y1: float) -> None:
        """Draw the edges of an upright rectangle."""
        self.outline(layer, ((x0, y0), (x1, y0), (x1, y1), (x0, y1)))

    def hatch(self, points: Sequence[Point], angle: float, spacing_mm: float) -> None:
        """Hatch a polygon."""
        self.shape(HATCHING, Hatch(polygon(points), angle, spacing_mm))

    def text(
        self, x: float, y: float, height: float, text: str, anchor: Anchor = "start", angle: float = 0.0
    ) -> float:
        """Write one line; returns its width (mm)."""
        self.shape(LETTERING, Note(x, y, height, text, anchor, angle))
        return text_width(text, height)

    def lines_of_text(self, x: float, top: float, height: float, lines: Sequence[str], pitch: float) -> float:
        """Write lines below ``top``; returns where the last line's room ends (mm)."""
        for number, line in enumerate(lines):
            self.text(x, top - number * pitch - 0.8 * height, height, line)
        return top - len(lines) * pitch

    def number(self, x: float, y: float, number: int, radius: float = 2.6) -> None:
        """Write a number in a circle (radius in mm), white inside so that no line runs through it."""
        self.shape(THIN, Face(loop_of(Circle(x, y, radius)), 1.0))
        self.shape(THIN, Circle(x, y, radius))
        height = (3.4 if number < 100 else SMALL) * radius / NUMBER_RADIUS
        self.text(x, y - 0.365 * height, height, str(number), "middle")

    def arrow(self, tip: Point, back: Point) -> None:
        """Slim filled arrowhead at ``tip``, coming from ``back``; length to width 3:1."""
        size = math.dist(tip, back)
        ux, uy = (tip[0] - back[0]) / size, (tip[1] - back[1]) / size
        x, y = tip[0] - ux * _ARROW, tip[1] - uy * _ARROW
        half = _ARROW / 6
        head = (tip, (x - uy * half, y + ux * half), (x + uy * half, y - ux * half))
        self.shape(THIN, Face(polygon(head), 0.0))

    def dot(self, layer: Layer, x: float, y: float, radius: float) -> None:
        """Draw a filled dot."""
        self.shape(layer, Circle(x, y, radius))
        self.shape(layer, Face(loop_of(Circle(x, y, radius)), 0.0))

    def running(self, origin: Point, ends: Sequence[Point]) -> None:
        """Running dimension: a small circle at the origin, one arrowhead at each end, all on one line."""
        self.shape(THIN, Circle(*origin, 0.9))
        if ends:
            far = max(ends, key=lambda end: math.dist(origin, end))
            self.line(THIN, origin, far)
            for end in ends:
                if math.dist(origin, end) > 1e-3:
                    self.arrow(end, origin)


NUMBER_RADIUS: Final = 2.6
SMALL: Final = 3.2


def polygon(points: Sequence[Point]) -> Loop:
    """Loop of straight edges."""
    vertices: tuple[Vertex, ...] = tuple((x, y, 0.0) for x, y in points)
    return Loop(vertices)
