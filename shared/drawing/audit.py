"""Check a view before it is written to a file: what a saw or router must never be given.

Findings are sentences; an empty tuple means the view is sound. A crossing that is finer than ``CHORD_MM``
and hidden in an arc is not looked for.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from edgewright.drawing.arcs import Point, box_around, edges, loop_of
from edgewright.drawing.crossing import FIT_MM, crossings
from edgewright.drawing.view import (
    LINE_WIDTHS_MM,
    Circle,
    Dimension,
    Face,
    Hatch,
    Layer,
    Loop,
    Note,
    Segment,
    Shape,
    View,
)

__all__ = ["audit_view"]


def audit_view(view: View) -> tuple[str, ...]:
    """Faults of a view, one sentence each.

    Looks for shapes on unknown layers, figures that are not finite, loops that are not closed areas,
    edges of no length, a first vertex repeated at the end, duplicates in a layer, text on cut layers,
    cut lines that cross themselves or each other, and layers that do not fill their nominal box.
    """
    layers = {layer.name: layer for layer in view.layers}
    faults = list(_layer_faults(view, layers))
    sound = []
    for number, (name, shape) in enumerate(view.shapes, start=1):
        place = f"{type(shape).__name__.lower()} {number} on {name}"
        layer = layers.get(name)
        if layer is None:
            faults.append(f"{place}: the view has no such layer; add it to the view's layers")
            continue
        found = list(_shape_faults(shape, place))
        if layer.cut and isinstance(shape, (Note, Dimension, Hatch, Face)):
            found.append(f"{place}: a cut layer holds lines and circles only; move it to a layer for notes")
        faults += found
        if not found:
            sound.append((name, shape, place))
    for layer in view.layers:
        own = [(shape, place) for name, shape, place in sound if name == layer.name]
        faults += crossings(own) if layer.cut else _duplicates(own)
    faults += _extent_faults(view)
    return tuple(f"{view.name}: {fault}" for fault in faults)


def _layer_faults(view: View, layers: dict[str, Layer]) -> Iterator[str]:
    if not view.shapes:
        yield "the view has 0 shapes; at least 1 is needed"
    if len(layers) != len(view.layers):
        yield "two layers have the same name; give each its own"
    for layer in layers.values():
        if not (layer.name.isascii() and layer.name.replace("_", "").isalnum() and layer.name.isupper()):
            yield f"layer name {layer.name!r} must be upper case ASCII with underscores"
        if layer.line_width_mm not in LINE_WIDTHS_MM:
            yield (
                f"layer {layer.name} has lines {layer.line_width_mm:g} mm wide; "
                f"ISO 128-2 has {', '.join(f'{width:g}' for width in LINE_WIDTHS_MM)} mm"
            )


def _shape_faults(shape: Shape, place: str) -> Iterator[str]:
    figures = _figures(shape)
    if not all(map(math.isfinite, figures)):
        yield f"{place}: a figure is not finite; give numbers in mm"
        return
    if isinstance(shape, (Segment, Dimension)):
        if math.hypot(shape.x1 - shape.x0, shape.y1 - shape.y0) <= FIT_MM:
            yield f"{place}: its length is 0 mm; leave it out"
    elif isinstance(shape, Circle):
        if shape.radius <= FIT_MM:
            yield f"{place}: its radius is {shape.radius:g} mm; it must be greater than 0 mm"
    elif isinstance(shape, Note):
        if shape.height_mm <= 0 or not shape.text.strip():
            yield f"{place}: a note needs text and a height greater than 0 mm"
    elif isinstance(shape, Hatch):
        if shape.spacing_mm <= 0:
            yield f"{place}: the hatch spacing is {shape.spacing_mm:g} mm; it must be greater than 0 mm"
        yield from _loop_faults(shape.loop, place)
    elif isinstance(shape, Face):
        if not 0 <= shape.grey <= 1:
            yield f"{place}: its grey is {shape.grey:g}; it must lie between 0 (black) and 1 (white)"
        yield from _loop_faults(shape.loop, place)
    else:
        yield from _loop_faults(shape, place)


def _loop_faults(loop: Loop, place: str) -> Iterator[str]:
    count = len(loop.vertices)
    bulged = any(bulge for _, _, bulge in loop.vertices)
    least = 2 if bulged else 3
    if count < least:
        yield f"{place}: {count} vertices enclose nothing; at least {least} are needed"
        return
    if math.dist(loop.vertices[0][:2], loop.vertices[-1][:2]) <= FIT_MM:
        yield f"{place}: the first vertex is repeated at the end; a loop closes by itself"
        return
    for number, (start, end, _) in enumerate(edges(loop), start=1):
        if math.dist(start, end) <= FIT_MM:
            yield f"{place}: edge {number} is 0 mm long; leave its vertex out"


def _figures(shape: Shape) -> tuple[float, ...]:
    if isinstance(shape, Loop):
        return tuple(value for vertex in shape.vertices for value in vertex)
    if isinstance(shape, Segment):
        return shape.x0, shape.y0, shape.x1, shape.y1
    if isinstance(shape, Circle):
        return shape.x, shape.y, shape.radius
    if isinstance(shape, Note):
        return shape.x, shape.y, shape.height_mm, shape.angle
    if isinstance(shape, Dimension):
        return shape.x0, shape.y0, shape.x1, shape.y1, shape.offset_mm, shape.height_mm
    if isinstance(shape, Face):
        return (*_figures(shape.loop), shape.grey)
    return (*_figures(shape.loop), shape.angle, shape.spacing_mm)


def _duplicates(shapes: list[tuple[Shape, str]]) -> Iterator[str]:
    """Shapes of a layer that no tool follows which are the same; neighbours may share an edge."""
    seen: dict[object, str] = {}
    for shape, place in shapes:
        key = frozenset(_keys(shape))
        if key in seen:
            yield f"{place}: it lies on {seen[key]}; draw it once"
        seen.setdefault(key, place)


def _keys(shape: Shape) -> list[object]:
    """One comparable value for each edge; both directions of an edge give the same."""
    if isinstance(shape, (Note, Dimension, Hatch, Face)):
        return [shape]
    if isinstance(shape, Circle):
        shape = loop_of(shape)
    if isinstance(shape, Segment):
        pieces: list[tuple[Point, Point, float]] = [((shape.x0, shape.y0), (shape.x1, shape.y1), 0.0)]
    else:
        pieces = list(edges(shape))
    keys: list[object] = []
    for start, end, bulge in pieces:
        a, b = _rounded(start), _rounded(end)
        keys.append((a, b, round(bulge, 9)) if a <= b else (b, a, round(-bulge, 9)))
    return keys


def _rounded(point: Point) -> Point:
    return round(point[0], 6) + 0.0, round(point[1], 6) + 0.0


def _extent_faults(view: View) -> Iterator[str]:
    for name, nominal in view.nominal:
        shapes = view.on(name)
        if not shapes:
            yield f"layer {name} is empty; it must fill its nominal box"
            continue
        box = box_around(shapes)
        if not all(abs(a - b) <= FIT_MM for a, b in zip(box, nominal, strict=True)):
            got, want = (" ".join(f"{value:.6g}" for value in figures) for figures in (box, nominal))
            yield (
                f"layer {name} fills the box {got} mm, its nominal box is {want} mm; they must be the same"
            )
