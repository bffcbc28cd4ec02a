"""Trims of a top of any outline: the finished outline, the cuts in their order, and the offcuts that they give."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from edgewright.design.anytop.measured import placed_shape
from edgewright.design.outline import Line, Outline, rectangle
from edgewright.design.region import Region
from edgewright.design.segments import point_at
from edgewright.design.shapes.loop import move_outline
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.placing import placed
from edgewright.design.trims.cut_order import OrderTable, compare_orders, order_by_rips, saw_in_order
from edgewright.design.trims.edge_names import edge_number, inherited_names
from edgewright.design.trims.inner_shape import ShapeCuts, all_round, shape_cuts
from edgewright.design.trims.keep_line import off_edge, parallel_to
from edgewright.design.trims.offcut import Offcut
from edgewright.design.trims.square_fits import Fit, largest_fit, match_edge, rectangle_along
from edgewright.design.trims.straight_cut import Sawn, StraightCut, saw
from edgewright.design.trims.trammel import Trammel
from edgewright.errors import GeometryError, blaming
from edgewright.job_shaped import ShapedJob
from edgewright.units import Length

__all__ = ["RouterPath", "ShapedTrims", "cut_to_outline", "squared_up", "trimmed"]


@dataclass(frozen=True, slots=True)
class RouterPath:
    """A straight finished edge that is routed along a guide, as a saw cut through would go into wood that stays."""

    name: str
    edge: Line


@dataclass(frozen=True, slots=True)
class ShapedTrims:
    """How a top comes to its finished outline (mm).

    Attributes
    ----------
    finished
        The finished outline with the names of its edges.
    cuts
        Saw cuts in the order they are made, each with what it leaves.
    offcuts
        What they give, in the same order.
    paths, arcs
        Edges that are routed instead: along a straight guide, and on a trammel.
    fits
        For a top that is trimmed to its largest true rectangle: the rectangles square to each old edge instead.
    orders
        What each order of the saw cuts yields; None for fewer than two cuts.
    """

    finished: Shape
    cuts: tuple[Sawn, ...] = ()
    offcuts: tuple[Offcut, ...] = ()
    paths: tuple[RouterPath, ...] = ()
    arcs: tuple[Trammel, ...] = ()
    fits: tuple[Fit, ...] = ()
    orders: OrderTable | None = None


def trimmed(old: Shape, holes: tuple[Outline, ...], job: ShapedJob, strip_width: float) -> ShapedTrims:
    """Trim an old top as its job asks.

    Parameters
    ----------
    old, holes
        The old top and the holes that it has already.
    job
        Its [trim] says how; chosen sizes are snapped to the bench grid.
    strip_width
        Width of the strips (mm) by which orders of cuts are compared.

    Raises
    ------
    GeometryError
        If a named edge does not exist, a cut misses the top or leaves nothing, or a shape does not fit in it.
    """
    region, kerf = Region(old.outline, holes), job.saw.kerf.mm
    trim, cutter = job.trim, job.router.cutter.mm
    if trim.all_round is not None and trim.all_round.exact_mm:
        made = all_round(region, snapped(trim.all_round, job), kerf, cutter)
        return _of_shape(old, region, made, strip_width, trim.cut_order)
    if trim.edges:
        cuts: list[StraightCut] = []
        shape, left = old, region
        for pair in trim.cuts:
            if pair.length.exact_mm:
                with blaming("trim", "edges", pair.name):
                    number = _number(shape, pair.name)
                    cuts.append(off_edge(left, number, snapped(pair.length, job), kerf, pair.name))
                    left = saw(left, cuts[-1]).kept
                shape = Shape(left.outer, inherited_names(shape, left.outer))
        return _sawn(old, region, cuts, strip_width)
    if trim.parallel is not None:
        way = trim.parallel
        with blaming("trim", "parallel", "to"):
            datum = _number(old, way.to)
        with blaming("trim", "parallel", "edge"):
            cut_edge = _number(old, way.edge)
        at = point_at(old.outline.segments[cut_edge], 0.5)
        one = parallel_to(region, datum, snapped(way.distance, job), kerf, at, way.edge)
        return _sawn(old, region, [one], strip_width)
    if trim.largest_rectangle:
        return _largest(old, region, job, strip_width)
    if trim.to is not None:
        new = placed_shape(trim.to, old, kerf, job.units)
        made = shape_cuts(region, new.outline, kerf, cutter)
        return _of_shape(old, region, made, strip_width, trim.cut_order, new)
    return ShapedTrims(old)


def cut_to_outline(blank: Shape, wanted: Shape, job: ShapedJob) -> ShapedTrims:
    """Cut a blank to an outline that lies in it; see `trimmed`. Orders of cuts are not compared: little comes off."""
    region = Region(blank.outline)
    made = shape_cuts(region, wanted.outline, job.saw.kerf.mm, job.router.cutter.mm)
    return _of_shape(blank, region, made, None, (), wanted)


def snapped(length: Length, job: ShapedJob) -> float:
    """A chosen size on the bench grid (mm).

    Raises
    ------
    GeometryError
        If nothing is left of it.
    """
    grid = job.bench_grid.mm
    steps = round(length.mm / grid)
    if not steps:
        raise GeometryError(
            f"{length.mm:g} mm is less than half a step of the bench grid, {grid:g} mm, and no cut is set so finely: "
            "leave it out, or give a finer bench_grid under [job]"
        )
    return steps * grid


def _number(shape: Shape, name: str) -> int:
    number = edge_number(shape, name)
    if number is None:
        known = ", ".join(f'"{one}"' for one in dict.fromkeys(shape.names))
        raise GeometryError(f'there is no edge "{name}" to cut; this top has {known}: name one of them')
    return number


def _sawn(
    old: Shape,
    region: Region,
    cuts: Sequence[StraightCut],
    strip_width: float | None,
) -> ShapedTrims:
    done, offcuts = saw_in_order(region, cuts, tuple(range(len(cuts))))
    kept = done[-1].kept.outer if done else region.outer
    finished = Shape(kept, inherited_names(old, kept))
    orders = None
    if len(cuts) > 1 and strip_width is not None:
        orders = compare_orders(region, cuts, strip_width, cuts[0].kerf)
    return ShapedTrims(finished, done, offcuts, orders=orders)


def _of_shape(
    old: Shape,
    region: Region,
    made: ShapeCuts,
    strip_width: float | None,
    wanted: Sequence[str],
    new: Shape | None = None,
) -> ShapedTrims:
    """Saw what can be sawn right through, in the wanted order of edges, else rips first; the rest is routed."""
    outline = made.finished.outer
    through = [one for one, stops in zip(made.straight, made.stops, strict=True) if not stops]
    stopped = [one for one, stops in zip(made.straight, made.stops, strict=True) if stops]
    names = inherited_names(old, outline) if new is None else new.names
    by_line = dict(zip(outline.segments, names, strict=True))
    cuts = [StraightCut(one.keep, one.kerf, one.at, by_line.get(one.keep, one.name)) for one in through]
    cuts = [cuts[number] for number in order_by_rips(region, cuts)]
    if wanted:
        # edges that are not named come last
        cuts.sort(key=lambda one: wanted.index(one.name) if one.name in wanted else len(wanted))
    found = _sawn(old, region, cuts, strip_width) if cuts else ShapedTrims(old)
    finished = Shape(outline, names)
    if new is not None:
        finished = replace(finished, ellipse=new.ellipse, fit_error_mm=new.fit_error_mm)
    paths = tuple(RouterPath(by_line.get(one.keep, one.name), one.keep) for one in stopped)
    arcs = () if finished.ellipse is not None else made.arcs
    return ShapedTrims(finished, found.cuts, found.offcuts, paths, arcs, orders=found.orders)


def squared_up(old: Shape, holes: tuple[Outline, ...]) -> tuple[Shape, tuple[Outline, ...]]:
    """The old top turned so that its largest true rectangle lies upright, by at most an eighth of a turn."""
    first = largest_fit(Region(old.outline, holes)).outline.segments[0]
    (ax, ay), (bx, by) = first.start, first.end
    turn = math.remainder(math.atan2(by - ay, bx - ax), math.pi / 2)
    if abs(turn) <= 1e-12:
        return old, holes
    return placed(old, (0.0, 0.0), -turn), tuple(move_outline(hole, (0.0, 0.0), -turn) for hole in holes)


def _largest(old: Shape, region: Region, job: ShapedJob, strip_width: float) -> ShapedTrims:
    """Largest true rectangle of a top that was squared up, its sizes snapped down to the bench grid."""
    found = rectangle_along(region, (1.0, 0.0))
    outline = _snapped_down(found.outline, job.bench_grid.mm)
    cuts = shape_cuts(region, outline, job.saw.kerf.mm, job.router.cutter.mm)
    made = _of_shape(old, region, cuts, strip_width, job.trim.cut_order)
    fits = [
        match_edge(region, number)
        for number, segment in enumerate(old.outline.segments)
        if isinstance(segment, Line)
    ]
    return replace(made, fits=tuple(fits[:4]))


def _snapped_down(outline: Outline, grid: float) -> Outline:
    """An upright rectangle with both sizes on the grid, about the same centre."""
    x0, y0, x1, y1 = outline.bounds
    length, width = (math.floor(size / grid + 1e-9) * grid for size in (x1 - x0, y1 - y0))
    if min(length, width) <= 0:
        raise GeometryError(
            f"the largest true rectangle is {x1 - x0:.5g} x {y1 - y0:.5g} mm; both must be at least the bench "
            f"grid of {grid:.4g} mm: measure the top again"
        )
    return rectangle(length, width, origin=((x0 + x1 - length) / 2, (y0 + y1 - width) / 2))
