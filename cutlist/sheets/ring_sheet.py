"""Ring map: the underside of a top of any outline with the pieces of its build-up, one figure for each layer."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from edgewright.cutlist.ring_corners import rounded_corners
from edgewright.cutlist.ring_pins import RingPin, ring_pins
from edgewright.cutlist.sheets.common import SMALL, check_box, paragraph, paragraph_height
from edgewright.cutlist.sheets.outline_frame import OutlineFrame, labelled, put_labels
from edgewright.cutlist.sheets.places import Places, block_size
from edgewright.cutlist.sheets.wall import BENCH, wall_heading, wall_heading_height
from edgewright.design.anytop.model import ShapedDesign
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.checks import job_pin_choices
from edgewright.design.outline import Point
from edgewright.design.pin_figures import corner_clear_text, pin_row_text, pin_spacing_text
from edgewright.design.segments import winding
from edgewright.display import show_mm, show_ticks
from edgewright.drawing.paper import HIDDEN, KEEP, PANEL, PINS, THIN, PaperBox, Pen, scale_text
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import Box, View

__all__ = ["ring_figures"]

#: Sizes of the type of a piece, largest first, of the chalk marks, and the radius of a pin (mm).
_SIZES: Final = (7.5, 5.5, 4.2, 3.6)
_LEVELS: Final = 6
_CHALK: Final = (7.0, 4.6)
_DOT: Final = 0.5
#: A name that stands further from its piece has a line to it (paper mm).
_BESIDE: Final = 4.0
_LEAST: Final[PaperBox] = (150.0, 140.0)


def ring_figures(design: ShapedDesign, box: PaperBox = (180.0, 200.0)) -> tuple[View, ...]:
    """Draw the ring of each layer with the top face down.

    Parameters
    ----------
    design
        Its pieces are drawn as they are glued on, before they are trimmed flush; none without a build-up.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 140.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, _LEAST)
    layers = sorted({piece.layer for piece in design.pieces})
    return tuple(
        _layer(design, [piece for piece in design.pieces if piece.layer == layer], layer, len(layers), box)
        for layer in layers
    )


def _layer(design: ShapedDesign, pieces: Sequence[RingPiece], layer: int, layers: int, box: PaperBox) -> View:
    """Draw a layer; pieces that are not named in it are told below, which takes room of the drawing."""
    told: list[RingPiece] = []
    while True:
        view, crowded = _drawn(design, pieces, layer, layers, box, told)
        if _room_for(crowded, box) <= _room_for(told, box):
            return view
        told = crowded


def _room_for(crowded: Sequence[RingPiece], box: PaperBox) -> float:
    return paragraph_height(_crowded(crowded), box[0], BENCH) if crowded else 0.0


def _drawn(
    design: ShapedDesign,
    pieces: Sequence[RingPiece],
    layer: int,
    layers: int,
    box: PaperBox,
    told: Sequence[RingPiece],
) -> tuple[View, list[RingPiece]]:
    """Drawing with room below for the names of the pieces that are ``told`` there, and which should be."""
    which = (
        "" if layers == 1 else f", layer {layer} of {layers}, {'at the top' if layer == 1 else 'below it'}"
    )
    skirt = any(piece.kind == "skirt" for piece in pieces)
    title = f"UNDERSIDE: {'skirt' if skirt else 'ring of strips'}{which}"
    big = f"UNDERSIDE: {'SKIRT' if skirt else 'RING'}{'' if layers == 1 else f' {layer} OF {layers}'}"
    xs = [x for piece in pieces for x, _ in piece.plan]
    ys = [y for piece in pieces for _, y in piece.plan]
    x0, y0, x1, y1 = design.region.bounds
    bounds = (min(x0, *xs), min(y0, *ys), max(x1, *xs), max(y1, *ys))
    pins = [pin for pin in ring_pins(design) if pin.layer == layer]
    lines = _lines(12.5, which)
    top = wall_heading_height(box, big, lines)
    notes = [
        _PLACED if not skirt else "The skirt stands on edge.",
        *([] if skirt else [_pin_note(design, layer)]),
    ]
    below = sum(paragraph_height(note, box[0], BENCH) for note in notes) + _room_for(told, box) + 2
    room = (box[0] - 1.0, box[1] - top - below - 4.0)
    frame, places, labels = labelled(
        bounds,
        design.region.loops,
        (design.finished.outline, design.finished.names),
        room,
        (0.5, below),
        heights=_CHALK,
        parts=[piece.plan for piece in pieces],
    )
    pen = Pen()
    for outline in design.region.loops:
        pen.shape(KEEP, frame.loop(outline))
    for seam in design.panel_seams:
        pen.line(HIDDEN, frame.at(seam.start), frame.at(seam.end))
        places.keep_clear((frame.at(seam.start), frame.at(seam.end)))
    for piece in pieces:
        pen.outline(PANEL, frame.points(piece.plan))
    put_labels(pen, frame, places, labels)
    _pins(pen, frame, places, design, pins)
    for piece in pieces:
        _splice(pen, frame, places, piece)
    crowded = _labels(pen, frame, places, pieces, design)
    if crowded:
        notes.append(_crowded(crowded))
    at = sum(paragraph_height(note, box[0], BENCH) for note in notes)
    for note in notes:
        at = paragraph(pen, 0, at, note, box[0], BENCH)
    high = drawn_box(pen.view("", ""))[3] + 3.0
    wall_heading(pen, (box[0], min(high + top, box[1])), big, _lines(frame.scale, which))
    return pen.view(f"ring_{layer}", title), crowded


_PLACED: Final = (
    "Pieces are drawn as glued on, before their ends and outer edges are trimmed flush. "
    "Cut the last piece of a ring to fit."
)


def _lines(scale: float, which: str) -> list[str]:
    layer = f" {which.removeprefix(', ').capitalize()}." if which else ""
    return [
        "Top face DOWN, seen from above as it lies: east is on the left, west on the right.",
        f"{scale_text(scale).capitalize()}. Numbers are those of the pieces.{layer}",
    ]


def _crowded(pieces: Sequence[RingPiece]) -> str:
    names = ", ".join(piece.id for piece in pieces)
    return f"No room for {names}: numbers run counter-clockwise seen from the face, clockwise here."


def _pin_note(design: ShapedDesign, layer: int) -> str:
    pin, units = job_pin_choices(design.job)[layer - 1], design.job.units
    if pin.length is None:
        return "No pin fits: glue and clamp only."
    note = (
        f"Dots: pins {show_ticks(pin.length, units)} long, about every {pin_spacing_text(pin, units)}, "
        f"{pin_row_text(pin, units)} or more from the finished edge."
    )
    if rounded_corners(design):
        note += f" Hatched: NO PIN in a corner to be rounded nor within {corner_clear_text(units)} of it."
    return note


def _pins(
    pen: Pen, frame: OutlineFrame, places: Places, design: ShapedDesign, pins: Sequence[RingPin]
) -> None:
    """Dot the pins; hatch the corners where none may stand."""
    for pin in pins:
        if not pin.left_out:
            x, y = frame.at(pin.at)
            pen.dot(PINS, x, y, _DOT)
            places.take((x - _DOT, y - _DOT, x + _DOT, y + _DOT))
    if not pins:
        return
    ring = design.strip_width_mm - design.job.edge.proud.mm
    for corner in rounded_corners(design):
        zone = frame.points(corner.zone(ring))
        pen.hatch(zone, 45, 0.9)
        pen.outline(THIN, zone)
        places.keep_clear((*zone, zone[0]))


def _splice(pen: Pen, frame: OutlineFrame, places: Places, piece: RingPiece) -> None:
    """Mark where a strip of several pieces goes on: letters after the first follow on from a splice."""
    if not piece.id[-1].isalpha() or piece.id.endswith("a"):
        return
    a, b = frame.at(piece.plan[0]), frame.at(piece.plan[3])
    ux, uy = _unit(a, b)
    outer, inner = (a[0] - 1.5 * ux, a[1] - 1.5 * uy), (b[0] + 3 * ux, b[1] + 3 * uy)
    pen.line(KEEP, outer, inner)
    wide, high = block_size(("splice",), SMALL)
    away = (abs(ux) * wide + abs(uy) * high) / 2 + 1.0
    spots = [(inner[0] + ux * (away + more), inner[1] + uy * (away + more)) for more in (0.0, 3.0, 8.0)]
    places.put(pen, ("splice",), SMALL, spots)


def _labels(
    pen: Pen, frame: OutlineFrame, places: Places, pieces: Sequence[RingPiece], design: ShapedDesign
) -> list[RingPiece]:
    """Write name and length of every piece as large as leaves room for all; returns those that have none."""

    def left(level: int) -> int:
        tried = places.copy()
        return sum(not _label(None, frame, tried, piece, design, level) for piece in pieces)

    fewest = {}
    for level in range(_LEVELS):
        fewest[level] = left(level)
        if not fewest[level]:
            break
    level = min(fewest, key=lambda one: fewest[one])
    return [piece for piece in pieces if not _label(pen, frame, places, piece, design, level)]


def _label(
    pen: Pen | None, frame: OutlineFrame, places: Places, piece: RingPiece, design: ShapedDesign, level: int
) -> bool:
    """Write one piece's name and length at a level of size or, where there is no room, smaller."""
    size = show_mm(piece.blank_length, design.job.units)
    lettering: list[tuple[tuple[str, ...], float]]
    lettering = [((piece.id, size), height) for height in _SIZES[:3]]
    lettering += [((piece.id,), height) for height in _SIZES[1:]]
    # in a wide piece smaller lettering says more than larger beside it
    middle = [] if piece.kind == "skirt" else [_middle(frame.points(piece.plan))]
    tries: list[tuple[tuple[str, ...], float, Iterable[Point]]]
    tries = [(lines, height, middle) for lines, height in lettering[level:] if len(lines) > 1]
    tries += [
        (lines, height, _spots(frame, piece, design, block_size(lines, height)))
        for lines, height in lettering[level:]
    ]
    for lines, height, spots in tries:
        box = places.put(pen, lines, height, spots)
        if box is not None:
            if pen is not None:
                _leader(pen, frame, piece, box)
            return True
    return False


def _leader(pen: Pen, frame: OutlineFrame, piece: RingPiece, box: Box) -> None:
    """Line from a piece to its name where that stands away from it."""
    points = frame.points(piece.plan)
    middle = _middle(points) if piece.kind != "skirt" else _between(points[0], points[1])
    x = min(max(middle[0], box[0]), box[2])
    y = min(max(middle[1], box[1]), box[3])
    half = min(_across(points, middle), 12.0)
    if math.dist((x, y), middle) > half + _BESIDE:
        pen.line(THIN, middle, (x, y))


def _across(points: Sequence[Point], middle: Point) -> float:
    """How far a piece reaches from its middle, square to its longest edge."""
    ((a, b),) = _longest(points)
    ux, uy = _unit(a, b)
    return max(abs((y - middle[1]) * ux - (x - middle[0]) * uy) for x, y in points)


def _between(a: Point, b: Point) -> Point:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def _spots(
    frame: OutlineFrame, piece: RingPiece, design: ShapedDesign, size: tuple[float, float]
) -> Iterator[Point]:
    """Middles of a block of lettering that is told to belong to a piece: in it, or beside it inside the ring."""
    points = frame.points(piece.plan)
    wide, high = size
    if piece.kind == "skirt":
        # the plan of a bent skirt may go all the way round: its name stands inside its first stretch
        middle = _between(points[0], points[1])
        ways = [_unit(points[0], points[1])]
    else:
        middle = _middle(points)
        ways = [_unit(a, b) for a, b in _longest(points)]
    yield middle
    for ux, uy in ways:
        normal = (-uy, ux)
        half = min(_across(points, middle), 12.0)
        length = max(math.dist(a, b) for a, b in _longest(points))
        away = half + (abs(normal[0]) * wide + abs(normal[1]) * high) / 2 + 0.8
        for side in (1, -1):
            for more in (0.0, 1.5, 4.0):
                for slide in (0.0, 5.0, -5.0, 10.0, -10.0):
                    spot = (
                        middle[0] + side * normal[0] * (away + more) + slide * ux,
                        middle[1] + side * normal[1] * (away + more) + slide * uy,
                    )
                    if abs(slide) <= length / 2 and _inside(frame, spot, design):
                        yield spot


def _longest(points: Sequence[Point]) -> list[tuple[Point, Point]]:
    pairs = list(zip(points, [*points[1:], points[0]], strict=True))
    return [max(pairs, key=lambda pair: math.dist(*pair))]


def _unit(a: Point, b: Point) -> Point:
    size = math.dist(a, b) or 1.0
    return (b[0] - a[0]) / size, (b[1] - a[1]) / size


def _inside(frame: OutlineFrame, spot: Point, design: ShapedDesign) -> bool:
    """Whether a place of the page lies in the finished top, outside of its cut-outs."""
    x = frame.bounds[2] - (spot[0] - frame.left) * frame.scale
    y = frame.bounds[1] + (spot[1] - frame.bottom) * frame.scale
    return bool(winding(design.finished.outline, (x, y))) and not any(
        winding(hole.outline, (x, y)) for hole in design.cut_outs
    )


def _middle(points: Sequence[Point]) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)
