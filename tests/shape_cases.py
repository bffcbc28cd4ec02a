"""What the tests of measured shapes share: inches, measuring an outline from outside, random shapes."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely
from hypothesis import strategies as st
from region_cases import fine

from edgewright.design.region import Region
from edgewright.design.shapes.bowed import boat, d_end
from edgewright.design.shapes.boxed import racetrack, rectangle_shape, tapered
from edgewright.design.shapes.counter import l_counter, u_counter
from edgewright.design.shapes.model import Shape
from edgewright.design.shapes.oval import four_arc_oval
from edgewright.design.shapes.polygon import regular_polygon
from edgewright.design.shapes.round_top import round_shape

INCH = 25.4


def inches(*figures: float) -> tuple[float, ...]:
    """Figures in inches as mm."""
    return tuple(figure * INCH for figure in figures)


def is_closed(shape: Shape) -> bool:
    """Whether each edge starts where the one before it ends, to a millionth of a millimetre."""
    edges = shape.outline.segments
    return all(math.dist(a.end, b.start) < 1e-6 for a, b in pairwise((*edges, edges[0])))


def joint_turns(shape: Shape) -> list[float]:
    """Turn (radians) at the end of each edge, from points a ten-thousandth of an edge away: no tangent is asked for."""

    def at(edge, t):
        if hasattr(edge, "sweep"):
            angle = (
                math.atan2(edge.start[1] - edge.centre[1], edge.start[0] - edge.centre[0]) + t * edge.sweep
            )
            return complex(*edge.centre) + edge.radius * complex(math.cos(angle), math.sin(angle))
        return complex(*edge.start) + t * (complex(*edge.end) - complex(*edge.start))

    edges = shape.outline.segments
    turns = []
    for one, other in pairwise((*edges, edges[0])):
        ratio = (at(other, 1e-4) - at(other, 0)) / (at(one, 1) - at(one, 1 - 1e-4))
        turns.append(math.atan2(ratio.imag, ratio.real))
    return turns


def polygon_area(shape: Shape) -> float:
    """Area by the measuring library, arcs as chords, the chords' error taken out by halving them once."""
    coarse, finer = (fine(Region(shape.outline), chords).area for chords in (64, 128))
    return (4 * finer - coarse) / 3


def chords(shape: Shape) -> shapely.Polygon:
    """The shape as a fine polygon."""
    return fine(shape.region)


SIZES = st.floats(300, 3000)


def or_none(most: float) -> st.SearchStrategy[float]:
    """Nothing, or a figure that can be measured."""
    return st.one_of(st.just(0.0), st.floats(0.01 * most, most))


@st.composite
def shapes(draw: st.DrawFn) -> Shape:
    """Any kind of shape that needs no adjusting, of random figures that fit together."""
    length = draw(SIZES)
    width = length * draw(st.floats(0.2, 0.95))
    share = draw(st.floats(0.05, 0.95))
    kind = draw(
        st.sampled_from(("corners", "race", "round", "oval", "boat", "d", "regular", "taper", "L", "U"))
    )
    match kind:
        case "corners":
            radii = [draw(or_none(width / 2)) for _ in range(4)]
            clips: list[tuple[float, float] | None] = [None] * 4
            at = draw(st.integers(0, 3))
            radii[at], clips[at] = 0.0, (share * length / 2, share * width / 2)
            return rectangle_shape(length, width, (radii[0], radii[1], radii[2], radii[3]), clips)
        case "race":
            return racetrack(length, width)
        case "round":
            return round_shape([length])
        case "oval":
            return four_arc_oval(length, width, share * width / 2)
        case "boat":
            return boat(length, share * width, width)
        case "d":
            ends = draw(st.sampled_from(("east", "west", "both")))
            return d_end(length, width, share * width / 2, ends, draw(st.sampled_from((width, 0.99 * width))))
        case "regular":
            return regular_polygon(draw(st.integers(3, 12)), side=length)
        case "taper":
            return tapered(length, width, share * width, draw(st.sampled_from(("south", "north", "centre"))))
        case "L":
            deep = 0.3 * share * length
            angle = math.radians(draw(st.floats(50, 150)))
            return l_counter(length, 0.8 * length, deep, 0.9 * deep, angle, draw(or_none(deep / 4)))
        case _:
            deep = 0.4 * share * length
            return u_counter(length, 1.3 * deep, 2 * deep, deep, 0.9 * deep, deep, draw(or_none(deep / 10)))
