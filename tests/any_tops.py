"""Random valid tops of every shape that can be measured, with any form on both arrises, drawn from a seed.

The sizes are drawn so that every top is valid by construction: none is tried and thrown away when the program refuses
its edge, so a wrong refusal fails the test.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from random import Random

from edge_rays import joint_turn
from hypothesis import strategies as st

from edgewright.design.ellipse import Ellipse
from edgewright.design.forms import Form, bevel, chamfer, cove, no_form, ogee, round_over
from edgewright.design.outline import Arc, Outline
from edgewright.design.profile import EdgeProfile
from edgewright.design.region import Region
from edgewright.design.shapes.bowed import boat, d_end
from edgewright.design.shapes.boxed import racetrack, rectangle_shape, tapered
from edgewright.design.shapes.corners import round_corners
from edgewright.design.shapes.counter import l_counter, u_counter
from edgewright.design.shapes.cutouts import rectangle_cut_out, round_cut_out, with_cut_outs
from edgewright.design.shapes.ellipse_top import ellipse_shape
from edgewright.design.shapes.imported import from_bulges
from edgewright.design.shapes.live_edge import stations
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.oval import four_arc_oval
from edgewright.design.shapes.polygon import irregular_polygon, regular_polygon
from edgewright.design.shapes.quad import quad
from edgewright.design.shapes.round_top import round_shape
from edgewright.errors import GeometryError


@dataclass(frozen=True)
class Top:
    """A top to be measured: region, edges that are not routed, profile; the exact curve of an ellipse."""

    kind: str
    shape: Shape
    region: Region
    still: frozenset[int]
    profile: EdgeProfile
    ellipse: Ellipse | None = None

    @property
    def reach(self) -> float:
        """Greatest reach of its forms (mm)."""
        return max(self.profile.top.reach, self.profile.bottom.reach)

    @property
    def is_plain(self) -> bool:
        """Whether no routed arc is smaller than the form, and no arc meets another edge at an outside angle."""
        first = 0
        for loop in self.region.loops:
            for at, segment in enumerate(loop.segments):
                if first + at in self.still:
                    continue
                if isinstance(segment, Arc) and segment.sweep > 0 and segment.radius < self.reach:
                    return False
                for one, other in (
                    (loop.segments[at - 1], segment),
                    (segment, loop.segments[(at + 1) % len(loop.segments)]),
                ):
                    if joint_turn(one, other) > 0 and (isinstance(one, Arc) or isinstance(other, Arc)):
                        return False
            first += len(loop.segments)
        return True


def _rectangle(rng: Random) -> Shape:
    length, width = rng.uniform(500, 2400), rng.uniform(350, 1200)
    radii, clips = [0.0] * 4, [None] * 4
    for corner in range(4):
        match rng.choice(("sharp", "round", "small", "clip")):
            case "round":
                radii[corner] = rng.uniform(20, 0.45 * min(length, width))
            case "small":
                radii[corner] = rng.uniform(1, 20)
            case "clip":
                clips[corner] = (rng.uniform(30, 0.4 * length), rng.uniform(30, 0.4 * width))
    return rectangle_shape(length, width, tuple(radii), clips)


def _racetrack(rng: Random) -> Shape:
    length = rng.uniform(800, 2400)
    return racetrack(length, length * rng.uniform(0.3, 0.9))


def _round(rng: Random) -> Shape:
    return round_shape([rng.uniform(400, 1800)])


def _ellipse(rng: Random) -> Shape:
    length = rng.uniform(900, 2400)
    return ellipse_shape(length, length * rng.uniform(0.45, 0.95))


def _oval(rng: Random) -> Shape:
    length = rng.uniform(800, 2400)
    width = length * rng.uniform(0.4, 0.9)
    return four_arc_oval(length, width, rng.uniform(0.2, 0.9) * width / 2)


def _boat(rng: Random) -> Shape:
    length = rng.uniform(1200, 2600)
    middle = rng.uniform(700, 1000)
    return boat(length, middle * rng.uniform(0.6, 0.95), middle)


def _d_end(rng: Random) -> Shape:
    length, width = rng.uniform(900, 2000), rng.uniform(400, 800)
    ends = rng.choice(("east", "west", "both"))
    depth = width / 2 * rng.choice((1.0, rng.uniform(0.2, 0.95)))
    return d_end(
        length,
        width,
        depth,
        ends,
        rng.choice((None, width * rng.uniform(0.9, 0.99))) if depth < width / 3 else None,
    )


def _regular(rng: Random) -> Shape:
    return regular_polygon(rng.randint(3, 12), side=rng.uniform(150, 600))


def _irregular(rng: Random) -> Shape:
    points = _ring_of_points(rng, rng.randint(4, 8), 600, 900)
    sides = [abs(b - a) for a, b in zip(points, [*points[1:], points[0]], strict=True)]
    return irregular_polygon(sides, [abs(point - points[0]) for point in points[2:-1]])


def _tapered(rng: Random) -> Shape:
    length, west = rng.uniform(900, 2400), rng.uniform(400, 900)
    return tapered(length, west, west * rng.uniform(0.5, 0.95), rng.choice(("south", "north", "centre")))


def _quad(rng: Random) -> Shape:
    length, width = rng.uniform(900, 2400), rng.uniform(500, 900)
    a, b, c, d = (
        complex(x + rng.uniform(-15, 15), y + rng.uniform(-15, 15))
        for x, y in ((0, 0), (length, 0), (length, width), (0, width))
    )
    measured = (abs(b - a), abs(c - b), abs(d - c), abs(a - d), abs(c - a), abs(d - b))
    return quad(*(figure + rng.uniform(-0.5, 0.5) for figure in measured))


def _l_counter(rng: Random) -> Shape:
    deep = rng.uniform(400, 650)
    return l_counter(
        rng.uniform(1800, 2600),
        rng.uniform(1500, 2000),
        deep,
        deep * rng.uniform(0.8, 1.1),
        rng.choice((None, math.radians(rng.uniform(75, 120)))),
        rng.choice((0.0, rng.uniform(5, 80))),
        rng.choice(("left", "right")),
    )


def _u_counter(rng: Random) -> Shape:
    deep = rng.uniform(350, 500)
    return u_counter(
        rng.uniform(1800, 2600),
        2.2 * deep,
        2.8 * deep,
        deep,
        0.9 * deep,
        1.1 * deep,
        rng.choice((0.0, rng.uniform(5, 80))),
    )


def _live_edge(rng: Random) -> Shape:
    count = rng.randint(4, 8)
    at = [0.0]
    for _ in range(count - 1):
        at.append(at[-1] + rng.uniform(150, 400))
    sides = [[rng.uniform(300, 400) for _ in at] for _ in range(2)]
    straight = rng.choice((None, "south", "north"))
    if straight is None:
        return stations(at, *sides)
    return stations(
        at, None if straight == "south" else sides[0], None if straight == "north" else sides[1], straight
    )


def _imported(rng: Random) -> Shape:
    points = _ring_of_points(rng, rng.randint(4, 8), 600, 900)
    bulges = [rng.choice((0.0, rng.uniform(-0.2, 0.35))) for _ in points]
    return from_bulges([[(p.real, p.imag, bulge) for p, bulge in zip(points, bulges, strict=True)]])[0]


def _ring_of_points(rng: Random, count: int, least: float, most: float) -> list[complex]:
    return [
        rng.uniform(least, most)
        * complex(math.cos(turn := 2 * math.pi * (at + rng.uniform(-0.2, 0.2)) / count), math.sin(turn))
        for at in range(count)
    ]


KINDS: dict[str, Callable[[Random], Shape]] = {
    "rectangle": _rectangle,
    "racetrack": _racetrack,
    "round": _round,
    "ellipse": _ellipse,
    "four-arc oval": _oval,
    "boat": _boat,
    "D-end": _d_end,
    "regular polygon": _regular,
    "irregular polygon": _irregular,
    "tapered": _tapered,
    "quadrilateral": _quad,
    "L counter": _l_counter,
    "U counter": _u_counter,
    "live edge": _live_edge,
    "imported": _imported,
}
FORMS: dict[str, Callable[[Random, float], Form]] = {
    "round-over": lambda rng, most: round_over(rng.uniform(1, most)),
    "chamfer": lambda rng, most: chamfer(rng.uniform(1, most)),
    "bevel": lambda rng, most: bevel(rng.uniform(1, most), rng.uniform(1, most)),
    "cove": lambda rng, most: cove(rng.uniform(1, most)),
    "ogee": lambda rng, most: ogee(
        rng.uniform(0.5, 0.4 * most), rng.choice((0.0, rng.uniform(0.2, 0.2 * most)))
    ),
    "none": lambda rng, most: no_form(),
}


def draw_profile(rng: Random, most: float = 16.0) -> EdgeProfile:
    """A profile of any two forms of at most a reach (mm), or a bullnose."""
    if rng.random() < 0.1:
        return EdgeProfile.bullnose(rng.uniform(10, 2 * most))
    top, bottom = (FORMS[rng.choice(list(FORMS))](rng, most) for _ in range(2))
    if not (top.parts or bottom.parts):
        top = FORMS["round-over"](rng, most)
    return EdgeProfile(top.depth + bottom.depth + rng.choice((0.0, rng.uniform(1, 25))) + 0.0, top, bottom)


def draw_top(seed: int, kind: str | None = None) -> Top:
    """The top of a seed: of one kind, or of any."""
    rng = Random(seed)
    kind = kind or rng.choice(list(KINDS))
    shape = KINDS[kind](rng)
    profile = draw_profile(rng)
    if shape.ellipse is None and rng.random() < 0.5:
        shape = _rounded(rng, shape)
    region = _with_holes(rng, shape.outline) if rng.random() < 0.5 else Region(shape.outline)
    still = (
        _walls(rng, shape, region, max(profile.top.reach, profile.bottom.reach))
        if rng.random() < 0.4 and shape.ellipse is None
        else frozenset[int]()
    )
    return Top(kind, shape, region, still, profile, shape.ellipse)


def _rounded(rng: Random, shape: Shape) -> Shape:
    """Corners rounded by what finds room, be it smaller than the form or larger."""
    outside, inside = (
        rng.choice((rng.uniform(2, 15), rng.uniform(20, 60))),
        rng.choice((0.0, rng.uniform(3, 30))),
    )
    for _ in range(6):
        try:
            return round_corners(shape, outside, inside)
        except GeometryError:  # no room beside a short edge
            outside, inside = outside / 2, inside / 2
    return shape


def _with_holes(rng: Random, outline: Outline) -> Region:
    """One or two cut-outs where there is room for them, at least 45 mm from the rim and from each other."""
    x0, y0, x1, y1 = outline.bounds
    holes: list[Outline] = []
    for _ in range(40):
        centre = rng.uniform(x0, x1), rng.uniform(y0, y1)
        size = rng.uniform(50, 180)
        one = (
            round_cut_out(centre, size)
            if rng.random() < 0.5
            else rectangle_cut_out(
                centre,
                size,
                size * rng.uniform(0.6, 1.5),
                rng.choice((0.0, rng.uniform(2, 0.25 * size))),
                rng.choice((0.0, rng.uniform(0, 1))),
            )
        )
        try:
            with_cut_outs(outline, [*holes, one], 45.0)
        except GeometryError:  # no room there
            continue
        holes.append(one)
        if len(holes) == 2:
            break
    return Region(outline, tuple(holes))


def _walls(rng: Random, shape: Shape, region: Region, reach: float) -> frozenset[int]:
    """One or two long edges of the rim, and perhaps a cut-out, that are not routed; never all of the rim.

    A rounding smaller than the form that runs into a wall is left to tests of its own: what a bit leaves there is no
    inner parallel.
    """
    segments = shape.outline.segments
    count = len(segments)

    def small(at: int) -> bool:
        one = segments[at % count]
        return isinstance(one, Arc) and one.sweep > 0 and one.radius < reach

    def grazed(at: int) -> bool:
        # a bit that runs on along a wall at a slight angle would take all of the wall's edge
        turns = (
            joint_turn(segments[at - 1], segments[at]),
            joint_turn(segments[at], segments[(at + 1) % count]),
        )
        return any(0 < turn < 0.3 for turn in turns)

    long = [
        at
        for at, one in enumerate(segments)
        if one.length > 150 and not small(at - 1) and not small(at + 1) and not grazed(at)
    ]
    still = set(rng.sample(long, min(len(long), rng.randint(1, 2)))) if count > 2 and long else set()
    if len(still) == count:
        still.pop()
    first = count
    for hole in region.holes:
        if rng.random() < 0.5:
            still |= set(range(first, first + len(hole.segments)))
        first += len(hole.segments)
    return frozenset(still)


def any_tops(kind: str | None = None) -> st.SearchStrategy[Top]:
    """Strategy of tops; each is told by its seed."""
    return st.integers(0, 10**6).map(lambda seed: draw_top(seed, kind))
