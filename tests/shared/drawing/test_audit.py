"""The self-check of views: sound views pass, each kind of fault is named."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from edgewright.drawing.audit import audit_view
from edgewright.drawing.layers import FINISHED_OUTLINE, KEEP_LINES, KERFS, REFERENCE, STRIPS
from edgewright.drawing.view import (
    Box,
    Circle,
    Dimension,
    Hatch,
    Layer,
    Loop,
    Note,
    Segment,
    Shape,
    Vertex,
    View,
)

SQUARE = Loop(((0, 0, 0), (100, 0, 0), (100, 100, 0), (0, 100, 0)))


def view_of(
    *shapes: Shape, layer: Layer = FINISHED_OUTLINE, nominal: Box | None = None, extra: tuple[Layer, ...] = ()
) -> View:
    return View(
        "v",
        "v",
        tuple((layer.name, shape) for shape in shapes),
        (layer, *extra),
        ((layer.name, nominal),) if nominal else (),
    )


def loop(*points: tuple[float, float]) -> Loop:
    return Loop(tuple((x, y, 0.0) for x, y in points))


def one_fault(view: View) -> str:
    [fault] = audit_view(view)
    return fault


@pytest.mark.example
def test_sound_view_has_no_faults() -> None:
    rounded = Loop(
        ((10, 0, 0), (90, 0, math.sqrt(2) - 1), (100, 10, 0), (100, 100, 0), (0, 100, 0), (0, 10, 0))
    )
    view = View(
        "v",
        "v",
        (
            ("FINISHED_OUTLINE", rounded),
            ("FINISHED_OUTLINE", Circle(50, 50, 10)),
            ("REFERENCE", Note(0, 120, 5, "a note")),
            ("REFERENCE", Dimension(0, 0, 100, 0, -10, "100", 5)),
            ("REFERENCE", Hatch(SQUARE, 45, 5)),
            # a crosscut's keep line ends on a rip's
            ("KEEP_LINES", Segment(-20, 100, 120, 100)),
            ("KEEP_LINES", Segment(100, 0, 100, 100)),
        ),
        (FINISHED_OUTLINE, REFERENCE, KEEP_LINES),
        (("FINISHED_OUTLINE", (0, 0, 100, 100)),),
    )
    assert audit_view(view) == ()


@pytest.mark.example
@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (Segment(5, 5, 5, 5), "its length is 0 mm"),
        (Circle(0, 0, 0), "its radius is 0 mm"),
        (loop((0, 0), (1, 0)), "2 vertices enclose nothing"),
        (Loop(((0, 0, 1),)), "1 vertices enclose nothing"),
        (loop((0, 0), (100, 0), (100, 100), (0, 0)), "first vertex is repeated"),
        (loop((0, 0), (100, 0), (100, 0), (0, 100)), "edge 2 is 0 mm long"),
        (loop((0, 0), (math.inf, 0), (1, 1)), "not finite"),
        (Segment(0, 0, math.nan, 0), "not finite"),
        # a bow tie, a loop that touches itself in a corner, and a spike
        (loop((0, 0), (100, 100), (100, 0), (0, 100)), "crosses or touches itself"),
        (loop((0, 0), (50, 50), (100, 0), (100, 100), (50, 50), (0, 100)), "crosses or touches itself"),
        (loop((0, 0), (100, 0), (200, 0), (150, 0), (100, 100)), "crosses or touches itself"),
        # an arc that bulges across the opposite side
        (Loop(((0, 0, 0), (100, 0, 0), (100, 20, 0.9), (0, 20, 0))), None),
        (Loop(((0, 0, 0), (100, 0, 0), (100, 20, -0.9), (0, 20, 0))), "crosses or touches itself"),
        (Note(0, 0, 5, "text"), "a cut layer holds lines and circles only"),
        (Dimension(0, 0, 9, 0, 3, "9", 5), "a cut layer holds lines and circles only"),
        (Hatch(SQUARE, 45, 5), "a cut layer holds lines and circles only"),
    ],
)
def test_fault_of_one_shape(shape: Shape, words: str | None) -> None:
    faults = audit_view(view_of(shape))
    if words is None:
        assert faults == ()
    else:
        assert len(faults) == 1
        assert words in faults[0]
        assert "FINISHED_OUTLINE" in faults[0]


@pytest.mark.example
@pytest.mark.parametrize(
    ("shape", "words"),
    [
        (Note(0, 0, 5, " "), "needs text"),
        (Note(0, 0, 0, "text"), "height greater than 0"),
        (Hatch(SQUARE, 45, 0), "hatch spacing is 0 mm"),
        (Dimension(1, 1, 1, 1, 5, "0", 5), "its length is 0 mm"),
    ],
)
def test_fault_of_one_shape_on_a_layer_for_notes(shape: Shape, words: str) -> None:
    assert words in one_fault(view_of(shape, layer=REFERENCE))


@pytest.mark.example
def test_duplicates_are_found_whichever_way_round() -> None:
    backwards = Loop(tuple(reversed(SQUARE.vertices)))
    assert "lies on loop 1 on FINISHED_OUTLINE" in one_fault(view_of(SQUARE, backwards))
    assert "lies on" in one_fault(view_of(Segment(0, 0, 5, 0), Segment(5, 0, 0, 0), layer=KERFS))
    assert "lies on" in one_fault(view_of(Circle(3, 4, 5), Circle(3, 4, 5), layer=KERFS))
    # an arc and another arc over the same chord are two lines
    half = Loop(((0, 0, 1), (10, 0, 0)))
    assert audit_view(view_of(half, Loop(((0, 0, -1), (10, 0, 0.5))), layer=KERFS)) == ()
    # the same line on two layers is meant: a keep line lies on the finished edge
    both = View(
        "v", "v", (("FINISHED_OUTLINE", SQUARE), ("KEEP_LINES", Segment(0, 100, 100, 100))),
        (FINISHED_OUTLINE, KEEP_LINES),
    )  # fmt: skip
    assert audit_view(both) == ()


@pytest.mark.example
def test_strips_must_not_overlap() -> None:
    def strip(x: float, y: float) -> Loop:
        return loop((x, y), (x + 100, y), (x + 100, y + 40), (x, y + 40))

    assert audit_view(view_of(strip(0, 0), strip(103, 0), strip(0, 43), layer=STRIPS)) == ()
    # two strips in one lane, the second one begins 1 mm too early
    assert "it lies on loop 1 on STRIPS" in one_fault(view_of(strip(0, 0), strip(99, 0), layer=STRIPS))
    # no kerf between two lanes
    assert "it lies on loop 1 on STRIPS" in one_fault(view_of(strip(0, 0), strip(50, 40), layer=STRIPS))
    assert "it crosses loop 1 on STRIPS" in one_fault(view_of(strip(0, 0), strip(99, 3), layer=STRIPS))
    # not a cut layer: lines of a drawing may cross
    assert audit_view(view_of(strip(0, 0), strip(99, 3), layer=KERFS)) == ()


@pytest.mark.example
def test_extents_must_be_the_nominal_ones() -> None:
    assert audit_view(view_of(SQUARE, nominal=(0, 0, 100, 100))) == ()
    fault = one_fault(view_of(SQUARE, nominal=(0, 0, 100, 103.175)))
    assert "fills the box 0 0 100 100 mm, its nominal box is 0 0 100 103.175 mm" in fault
    assert "is empty" in one_fault(
        View("v", "v", (("KERFS", SQUARE),), (KERFS, STRIPS), (("STRIPS", (0, 0, 1, 1)),))
    )


@pytest.mark.example
def test_layers_are_checked() -> None:
    wrong = Layer("Küche", "x", 0.6, "continuous", False)
    faults = audit_view(view_of(SQUARE, layer=wrong))
    assert len(faults) == 2
    assert "must be upper case ASCII" in faults[0]
    assert "0.6 mm wide; ISO 128-2 has 0.13, 0.18" in faults[1]
    assert "no such layer" in one_fault(View("v", "v", (("KERFS", SQUARE), ("NOWHERE", SQUARE)), (KERFS,)))
    assert "two layers have the same name" in one_fault(view_of(SQUARE, layer=KERFS, extra=(KERFS,)))
    assert "0 shapes" in one_fault(View("v", "v", (), (KERFS,)))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.integers(3, 12), st.floats(0, 6), st.floats(-0.3, 0.3), st.data())
def test_a_star_shaped_loop_is_sound_and_two_swapped_corners_are_not(
    count: int, turn: float, bulge: float, data: st.DataObject
) -> None:
    # corners in order round a circle: chords and flat arcs of equal bulge never meet
    points = [
        (100 * math.cos(turn + 2 * math.pi * n / count), 100 * math.sin(turn + 2 * math.pi * n / count))
        for n in range(count)
    ]
    small = bulge / count
    vertices: list[Vertex] = [(x, y, small) for x, y in points]
    assert audit_view(view_of(Loop(tuple(vertices)))) == ()

    if count > 3:
        at = data.draw(st.integers(0, count - 2))
        points[at], points[at + 1] = points[at + 1], points[at]
        assert "crosses or touches itself" in one_fault(view_of(loop(*points)))


@pytest.mark.property
@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.floats(-300, 300), st.floats(-300, 300), st.floats(0, 3.2))
def test_two_squares_cross_when_each_reaches_into_the_other(x: float, y: float, turn: float) -> None:
    c, s = math.cos(turn), math.sin(turn)
    corners = [(x + c * u - s * v, y + s * u + c * v) for u, v in ((0, 0), (60, 0), (60, 60), (0, 60))]
    clear = [(u, v) for u, v in corners if min(u, v, 100 - u, 100 - v) > 0.01]
    outside = [(u, v) for u, v in corners if max(-u, -v, u - 100, v - 100) > 0.01]
    # squares whose edges lie on one another are refused in other words
    faults = audit_view(view_of(SQUARE, loop(*corners)))
    crossed = any("crosses" in fault or "it lies on" in fault for fault in faults)
    if clear and outside:
        assert crossed
    if len(clear) == 4 or max(u for u, _ in corners) < 0 or min(v for _, v in corners) > 100:
        assert not crossed
