"""Tops of many shapes, and the same tops as fine polygons for the measuring library."""

from __future__ import annotations

import math

import shapely
from hypothesis import strategies as st

from edgewright.design.outline import Arc, Line, Outline, Segment, rectangle
from edgewright.design.region import Region

CHORDS = 128


def polygon(*points: tuple[float, float]) -> Outline:
    """Straight sides from point to point."""
    return Outline(tuple(Line(a, b) for a, b in zip(points, (*points[1:], points[0]), strict=True)))


def circle(x: float, y: float, radius: float, *, hole: bool = True) -> Outline:
    """Two half circles, clockwise for a hole."""
    east, west, sweep = (x + radius, y), (x - radius, y), -math.pi if hole else math.pi
    return Outline(
        (Arc(east, west, (x, y), radius, sweep), Arc(west, east, (x, y), radius, sweep)),
    )


def rounded(points: list[tuple[float, float]], radii: list[float]) -> Outline:
    """Polygon with a tangent arc of its own radius at each corner, 0 for a sharp one."""
    bends = []
    for at, (corner, radius) in enumerate(zip(points, radii, strict=True)):
        back = complex(*points[at - 1]) - complex(*corner)
        ahead = complex(*points[(at + 1) % len(points)]) - complex(*corner)
        ub, ua = back / abs(back), ahead / abs(ahead)
        turn = math.atan2((-ub.conjugate() * ua).imag, (-ub.conjugate() * ua).real)
        if radius == 0 or abs(turn) < 1e-3:
            bends.append((corner, corner, None, 0.0, 0.0))
            continue
        reach = radius * math.tan(abs(turn) / 2)
        start, end = complex(*corner) + reach * ub, complex(*corner) + reach * ua
        centre = start + math.copysign(radius, turn) * 1j * -ub
        bends.append(
            ((start.real, start.imag), (end.real, end.imag), (centre.real, centre.imag), radius, turn)
        )
    segments: list[Segment] = []
    for at, (start, end, centre, radius, turn) in enumerate(bends):
        if centre is not None:
            segments.append(Arc(start, end, centre, radius, turn))
        following = bends[(at + 1) % len(bends)][0]
        if math.dist(end, following) > 1e-9:
            segments.append(Line(end, following))
    return Outline(tuple(segments))


RACETRACK = Region(rectangle(1200, 600, (300, 300, 300, 300)))
D_END = Region(
    Outline(
        (
            Line((0, 0), (900, 0)),
            Arc((900, 0), (900, 700), (900, 350), 350, math.pi),
            Line((900, 700), (0, 700)),
            Line((0, 700), (0, 0)),
        )
    )
)
L_POINTS = ((0, 0), (1800, 0), (1800, 600), (600, 600), (600, 1500), (0, 1500))
SHARP_L = Region(polygon(*L_POINTS))
ROUNDED_L = Region(rounded(list(L_POINTS), [40, 60, 0, 80, 30, 0]))
HOLED = Region(rectangle(1200, 800, (100, 50, 0, 80)), (circle(400, 400, 150), circle(900, 420, 60)))
DUMBBELL = Region(
    polygon(
        *((0, 0), (400, 0), (400, 180), (800, 180), (800, 0), (1200, 0)),
        *((1200, 400), (800, 400), (800, 220), (400, 220), (400, 400), (0, 400)),
    )
)
#: A square with a bite of 40 mm radius in its south side and a bulge of the same radius in its north side.
BITTEN = Region(
    Outline(
        (
            Line((0, 0), (160, 0)),
            Arc((160, 0), (240, 0), (200, 0), 40, -math.pi),
            Line((240, 0), (400, 0)),
            Line((400, 0), (400, 400)),
            Line((400, 400), (240, 400)),
            Arc((240, 400), (160, 400), (200, 400), 40, math.pi),
            Line((160, 400), (0, 400)),
            Line((0, 400), (0, 0)),
        )
    )
)
#: Two circles that cut each other: sharp tips between arcs.
LENS = Region(
    Outline(
        (
            Arc((0, -300), (0, 300), (-400, 0), 500, 2 * math.atan2(300, 400)),
            Arc((0, 300), (0, -300), (400, 0), 500, 2 * math.atan2(300, 400)),
        )
    )
)
NAMED = {
    "racetrack": RACETRACK,
    "d-end": D_END,
    "sharp L": SHARP_L,
    "rounded L": ROUNDED_L,
    "holed": HOLED,
    "dumbbell": DUMBBELL,
    "bitten": BITTEN,
    "lens": LENS,
}


@st.composite
def tops(draw: st.DrawFn) -> Region:
    """Star-shaped polygon with inside and outside corners, some rounded, perhaps with a round hole."""
    count = draw(st.integers(3, 9))
    angles = [2 * math.pi * (at + draw(st.floats(-0.3, 0.3))) / count for at in range(count)]
    points = []
    for angle in angles:
        reach = draw(st.floats(250, 900))
        points.append((reach * math.cos(angle), reach * math.sin(angle)))
    radii = []
    for at, corner in enumerate(points):
        back = complex(*points[at - 1]) - complex(*corner)
        ahead = complex(*points[(at + 1) % count]) - complex(*corner)
        turn = math.pi - abs(math.atan2((back.conjugate() * ahead).imag, (back.conjugate() * ahead).real))
        room = 0.45 * min(abs(back), abs(ahead)) / max(math.tan(turn / 2), 1e-3)
        share = draw(st.one_of(st.just(0.0), st.floats(0.05, 1)))
        radii.append(min(share * room, 400.0) if share else 0.0)
    outer = rounded(points, radii)
    holes: tuple[Outline, ...] = ()
    middle = shapely.Point(0, 0)
    room = middle.distance(shapely.LinearRing(walk(outer, 16)))
    if draw(st.booleans()) and room > 60 and fine(Region(outer)).contains(middle):
        holes = (circle(0, 0, draw(st.floats(10, 0.7 * room))),)
    return Region(outer, holes)


def walk(outline: Outline, chords: int = CHORDS) -> list[tuple[float, float]]:
    """Points along the outline, each arc cut into chords by turning its start about its centre."""
    points = []
    for segment in outline.segments:
        points.append(segment.start)
        if isinstance(segment, Arc):
            arm = complex(*segment.start) - complex(*segment.centre)
            for step in range(1, chords):
                turn = segment.sweep * step / chords
                at = complex(*segment.centre) + arm * complex(math.cos(turn), math.sin(turn))
                points.append((at.real, at.imag))
    return points


def fine(region: Region, chords: int = CHORDS) -> shapely.Polygon:
    """The region with its arcs cut into chords."""
    return shapely.Polygon(walk(region.outer, chords), [walk(hole, chords) for hole in region.holes])


def sag(region: Region, chords: int = CHORDS) -> float:
    """How far the chords of `fine` lie from their arcs at most: R (1 - cos(θ/2n)), in mm."""
    return max(
        (
            segment.radius * (1 - math.cos(segment.sweep / (2 * chords)))
            for segment in region.segments
            if isinstance(segment, Arc)
        ),
        default=0.0,
    )


@st.composite
def lattice_tops(draw: st.DrawFn) -> Region:
    """Boxes put together on a coarse grid: many events of an inset fall on one another exactly."""
    boxes = []
    for _ in range(draw(st.integers(1, 6))):
        west, south = draw(st.integers(0, 8)), draw(st.integers(0, 8))
        boxes.append(
            shapely.box(west, south, west + draw(st.integers(1, 8)), south + draw(st.integers(1, 8)))
        )
    whole = shapely.unary_union(boxes)
    largest = max(shapely.get_parts(whole), key=lambda part: part.area)
    largest = shapely.orient_polygons(largest.simplify(0))
    # every corner may be rounded by half a step or a whole one where its sides leave room for two of them
    size = 20.0

    def loop(ring: shapely.LinearRing) -> Outline:
        points = [(x * size, y * size) for x, y in ring.coords[:-1]]
        radii = [draw(st.sampled_from((0.0, 0.0, 5.0, 10.0))) for _ in points]
        return rounded(points, radii)

    holes = [loop(ring) for ring in largest.interiors]
    outer = loop(largest.exterior)
    disc = shapely.Point(draw(st.integers(0, 16)), draw(st.integers(0, 16)))
    if largest.contains(disc.buffer(1)) and draw(st.booleans()):
        holes.append(circle(disc.x * size, disc.y * size, draw(st.sampled_from((5.0, 8.0, 10.0)))))
    return Region(outer, tuple(holes))
