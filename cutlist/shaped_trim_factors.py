"""What is weighed of the trims of a top of any outline: which edge, in which order, and how an odd top is made true."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Final

from edgewright.cutlist.variant_choices import Choice, Factor, length_text, with_tables
from edgewright.design.anytop.measured import measured_shape
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.outline import Line, Outline
from edgewright.design.region import Region
from edgewright.design.shapes.model import Shape
from edgewright.design.trims.edge_names import edge_number
from edgewright.design.trims.shadow import Frame
from edgewright.design.trims.square_fits import match_edge
from edgewright.errors import GeometryError
from edgewright.job_outline import PlacedRectangle
from edgewright.job_shaped import ShapedJob
from edgewright.job_trim import ShapedTrim
from edgewright.units import Length

__all__ = ["edge_factors", "fit_factors", "order_factors"]

#: Orders of cuts that are planned at most, the best ones.
MOST_ORDERS: Final = 6
#: Two edges face one another if they are turned less than this from running opposite ways.
_FACING: Final = -math.cos(math.radians(45))
#: Sides that differ by less than this are parallel or square: the size is then off by less than a tape shows.
_TRUE_MM: Final = 25.4 / 64


def _length(mm: float) -> Length:
    """A length that stands in the job as it would be typed."""
    text = f"{mm:.9g}"
    return Length(f"{text} mm", Fraction(text))


def _with_trim(job: ShapedJob, **ways: Any) -> ShapedJob:
    return with_tables(job, trim=ShapedTrim.model_validate(ways))


def edge_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Share out what comes off an edge with the edge opposite it."""
    if design is None or job.trim.way != "edges":
        return
    amounts = {pair.name: pair.length.exact_mm for pair in job.trim.edges}
    told: set[str] = set()
    for name, amount in amounts.items():
        opposite = _opposite(design.old, name)
        if opposite is None or name in told or not amount:
            continue
        told |= {name, opposite}
        total = amount + amounts.get(opposite, amount * 0)
        shares = (
            (f"all off {name}", total),
            (f"all off {opposite}", total * 0),
            ("half off each", total / 2),
        )

        def change(off: Any, name: str = name, opposite: str = opposite, total: Any = total) -> Any:
            def changed(job: ShapedJob) -> ShapedJob:
                kept = {pair.name: pair.length.exact_mm for pair in job.trim.edges} | {
                    name: off,
                    opposite: total - off,
                }
                edges = {edge: Length(f"{float(mm):.6g} mm", mm) for edge, mm in kept.items() if mm}
                order = tuple(edge for edge in job.trim.cut_order if edge in edges)
                order += tuple(edge for edge in edges if order and edge not in order)
                return _with_trim(job, edges=edges, **({"cut_order": order} if order else {}))

            return changed

        choices = tuple(Choice(words, change(off)) for words, off in shares)
        off = amounts.get(opposite, amount * 0)
        written = f"{length_text(amount, job.units)} {name}, {length_text(off, job.units)} {opposite}"
        heading = f"where {length_text(total, job.units)} between {name} and {opposite} come off"
        yield Factor("sides", heading, written, choices)


def _opposite(shape: Shape, name: str) -> str | None:
    """Name of the straight edge that runs most against a named one, the longest of several; no short part of a side."""
    number = edge_number(shape, name)
    edges = shape.outline.segments
    if number is None or not isinstance(edges[number], Line):
        return None
    ux, uy = Frame.on(_line(edges[number])).along
    least = edges[number].length / 2
    found = []
    for edge, known in zip(edges, shape.names, strict=True):
        if isinstance(edge, Line) and known != name and edge.length >= least:
            vx, vy = Frame.on(edge).along
            dot = ux * vx + uy * vy
            if dot < _FACING:
                found.append((-round(dot, 2), edge.length, known))
    return max(found)[2] if found else None


def _line(edge: object) -> Line:
    assert isinstance(edge, Line)
    return edge


def order_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Orders of the cuts, those first that give most strip."""
    if design is None or job.trim.way != "edges" or design.trims.orders is None:
        return
    names = [sawn.cut.name for sawn in design.trims.cuts]
    used = tuple(names)

    def change(order: tuple[str, ...]) -> Callable[[ShapedJob], ShapedJob]:
        return lambda job: _with_trim(
            job, edges={pair.name: pair.length for pair in job.trim.edges}, cut_order=order
        )

    orders = [tuple(names[number] for number in row.numbers) for row in design.trims.orders.rows]
    others = [order for order in orders if order != used][: MOST_ORDERS - 1]
    choices = tuple(Choice(", ".join(order), change(order)) for order in others)
    if choices:
        yield Factor("orders", "order of the cuts", ", ".join(used), choices)


def fit_factors(job: ShapedJob, design: ShapedDesign | None) -> Iterator[Factor]:
    """Three ways to make four straight sides true that are out of square.

    The largest true rectangle; one edge parallel to the edge opposite; a true rectangle square to one edge, such as
    the one at a wall.
    """
    if design is None or job.trim.way not in (None, "largest_rectangle", "parallel"):
        return
    old, holes = measured_shape(job.top.outline, job.saw.kerf.mm, job.units)
    edges = old.outline.segments
    if len(edges) != 4 or not all(isinstance(edge, Line) for edge in edges) or _is_true(old.outline):
        return
    region = Region(old.outline, holes)
    choices = [] if job.trim.way == "largest_rectangle" else [Choice("largest true rectangle", _largest)]
    choices += [
        Choice(f"{old.names[edge]} parallel to {old.names[other]}", _parallel(old, edge, other, distance))
        for edge, other, distance in _parallels(old.outline)
    ]
    choices += [
        Choice(f"square to {name}", _squared(region, number)) for number, name in enumerate(old.names)
    ]
    way = job.trim.parallel
    written = "nothing comes off" if way is None else f"{way.edge} parallel to {way.to}, as written"
    if job.trim.way == "largest_rectangle":
        written = "largest true rectangle"
    yield Factor("fits", "how the top is made true", written, tuple(choices))


def _is_true(outline: Outline) -> bool:
    """Whether four sides are a rectangle, as far as a tape shows."""
    south, east, north, west = (_line(edge) for edge in outline.segments)
    diagonals = [math.dist(south.start, east.end), math.dist(east.start, north.end)]
    pairs = ((south.length, north.length), (east.length, west.length), (diagonals[0], diagonals[1]))
    return all(abs(one - other) <= _TRUE_MM for one, other in pairs)


def _largest(job: ShapedJob) -> ShapedJob:
    return _with_trim(job, largest_rectangle=True)


@dataclass(frozen=True, slots=True)
class _Sized:
    """A true rectangle on the bench grid: its sizes (mm), its centre in the frame of the old top, its direction."""

    length: float
    width: float
    centre: tuple[float, float]
    turn_deg: float


def _parallels(outline: Outline) -> Iterator[tuple[int, int, float]]:
    """Edge, the edge opposite, and what is left between them: the least distance there is now (mm)."""
    for number in range(4):
        edge, other = _line(outline.segments[number]), _line(outline.segments[(number + 2) % 4])
        frame = Frame.on(other)
        heights = [frame.local(point)[1] for point in (edge.start, edge.end)]
        if max(heights) - min(heights) > _TRUE_MM:
            yield number, (number + 2) % 4, min(heights)


def _parallel(old: Shape, edge: int, other: int, distance: float) -> Callable[[ShapedJob], ShapedJob]:
    def change(job: ShapedJob) -> ShapedJob:
        way = {"edge": old.names[edge], "to": old.names[other], "distance": _length(_down(distance, job))}
        return _with_trim(job, parallel=way)

    return change


def _squared(region: Region, edge: int) -> Callable[[ShapedJob], ShapedJob]:
    """The largest rectangle square to an edge, which it keeps where it reaches it."""

    def change(job: ShapedJob) -> ShapedJob:
        new = _rectangle(match_edge(region, edge).outline, _line(region.outer.segments[edge]), job)
        x0, y0, x1, y1 = region.outer.bounds
        table = {
            "shape": "rectangle",
            "length": _length(new.length),
            "width": _length(new.width),
            "offset": (_length(new.centre[0] - (x0 + x1) / 2), _length(new.centre[1] - (y0 + y1) / 2)),
            "turn": new.turn_deg,
        }
        return _with_trim(job, to=PlacedRectangle.model_validate(table))

    return change


def _rectangle(found: Outline, wall: Line, job: ShapedJob) -> _Sized:
    """A rectangle along an edge, its sizes snapped down; it stays at the edge, and in the middle along it."""
    frame = Frame.on(wall)
    corners = [frame.local(segment.start) for segment in found.segments]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    length, depth = _down(max(xs) - min(xs), job), _down(max(ys) - min(ys), job)
    if min(length, depth) <= 0:
        raise GeometryError(
            f"the largest rectangle square to it is {max(xs) - min(xs):.5g} x {max(ys) - min(ys):.5g} mm; both must "
            f"be at least the bench grid of {job.bench_grid.mm:.4g} mm: measure the top again"
        )
    centre = frame.world(((min(xs) + max(xs)) / 2, max(min(ys), 0.0) + depth / 2))
    turn = math.degrees(math.atan2(frame.along[1], frame.along[0]))
    # by quarters of a turn, so that what is the length stays the longer way of the old top
    quarters = round(turn / 90)
    if quarters % 2:
        length, depth = depth, length
    return _Sized(length, depth, centre, turn - 90 * quarters)


def _down(mm: float, job: ShapedJob) -> float:
    grid = job.bench_grid.mm
    return math.floor(mm / grid + 1e-9) * grid
