"""SVG of a view, at true size: one user unit is one millimetre, so a print at 100 % can be measured.

Arcs stay arcs, hatches are plain lines and lettering is text, so that the file needs nothing but a font.
Numbers have at most four decimals (eight on outlines with arcs, two on shaded faces), never an exponent: the same view
gives the same bytes.

References
----------
W3C SVG 1.1, 8.3.8 (elliptical arc); ISO 128-2 (line types: dash 12 d, gap 3 d, long dash 24 d, dot 0.5 d for
lines d wide)
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from itertools import groupby, pairwise
from typing import Final
from xml.sax.saxutils import escape, quoteattr

from edgewright.drawing.arcs import bulge_arc, edges, is_straight, shape_box
from edgewright.drawing.lettering import FONT, note_box
from edgewright.drawing.strokes import dimension_strokes, hatch_strokes, plain_parts
from edgewright.drawing.view import (
    Box,
    Circle,
    Dimension,
    Face,
    Hatch,
    Layer,
    LineType,
    Loop,
    Note,
    Segment,
    Shape,
    View,
)
from edgewright.text_direction import keep_order

__all__ = ["drawn_box", "svg_text"]

#: Dashes and gaps of ISO 128-2, in line widths.
_DASHES: Final[dict[LineType, tuple[float, ...]]] = {
    "continuous": (),
    "dashed": (12, 3),
    "long dash dot": (24, 3, 0.5, 3),
}
_MARGIN_MM: Final = 1.0
_FAMILY: Final = f"{FONT}, sans-serif"
# what XML 1.0 cannot hold even when escaped
_NOT_XML: Final = re.compile(r"[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def svg_text(view: View, *, title: str, description: str, box: Box | None = None) -> str:
    """SVG document of a view.

    Parameters
    ----------
    view
        At least one shape; each on a layer that the view has.
    title, description
        What a screen reader says; any text. They are named after the view, so that drawings may share a page.
    box
        What the picture shows, mm in the view's frame; left out, all that is drawn and 1 mm around it.

    Returns
    -------
    str
        Width and height are given in mm and equal the view box, so the drawing prints at true size.

    Raises
    ------
    ValueError
        For a view without shapes, or a shape on no layer of the view (a mistake in our own code).
    """
    layers = {layer.name: layer for layer in view.layers}
    missing = sorted({name for name, _ in view.shapes} - set(layers))
    if missing or not view.shapes:
        raise ValueError(f"view {view.name}: no shapes, or shapes on unknown layers {missing}")
    x0, y0, x1, y1 = box or _around(drawn_box(view))
    width, height = _number(x1 - x0), _number(y1 - y0)
    page = _Page(x0, y1)
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}" role="img" aria-labelledby="{view.name}-title {view.name}-desc">',
        f'<title id="{view.name}-title">{_text(title)}</title>',
        f'<desc id="{view.name}-desc">{_text(description)}</desc>',
        f'<rect width="{width}" height="{height}" fill="#ffffff"/>',
        f'<g fill="none" stroke="#000000" font-family="{_FAMILY}">',
    ]
    for name, run in groupby(view.shapes, key=lambda pair: pair[0]):
        lines.append(_group(layers[name]))
        lines += page.run([shape for _, shape in run])
        lines.append("</g>")
    return "\n".join([*lines, "</g>", "</svg>", ""])


def drawn_box(view: View) -> Box:
    """Box around all that is drawn, text and line widths included (mm)."""
    widths = {layer.name: layer.line_width_mm for layer in view.layers}
    boxes = []
    for name, shape in view.shapes:
        half = widths.get(name, 0.0) / 2
        for part in (shape,) if isinstance(shape, Face) else plain_parts(shape):
            if isinstance(part, Note):
                boxes.append(note_box(part))
            else:
                x0, y0, x1, y1 = shape_box(part)
                boxes.append((x0 - half, y0 - half, x1 + half, y1 + half))
    x0s, y0s, x1s, y1s = zip(*boxes, strict=True)
    return min(x0s), min(y0s), max(x1s), max(y1s)


def _around(box: Box) -> Box:
    return box[0] - _MARGIN_MM, box[1] - _MARGIN_MM, box[2] + _MARGIN_MM, box[3] + _MARGIN_MM


class _Page:
    """Turns shapes into elements; y points down from the top of the picture."""

    def __init__(self, left: float, top: float) -> None:
        self._left = left
        self._top = top

    def run(self, shapes: Iterable[Shape]) -> Iterator[str]:
        """Elements of shapes in this order; straight lines after one another are one path, joined where they meet."""
        for kind, run in groupby(shapes, key=type):
            if kind is Segment:
                yield self._lines(shape for shape in run if isinstance(shape, Segment))
            elif kind is Face:
                yield '<g stroke="none">'
                yield from (self._face(shape) for shape in run if isinstance(shape, Face))
                yield "</g>"
            else:
                yield from (element for shape in run for element in self.elements(shape))

    def elements(self, shape: Shape) -> Iterator[str]:
        if isinstance(shape, Note):
            yield self._note(shape)
        elif isinstance(shape, Circle):
            x, y = _number(shape.x - self._left), _number(self._top - shape.y)
            yield f'<circle cx="{x}" cy="{y}" r="{_number(shape.radius)}"/>'
        elif isinstance(shape, Loop):
            yield f'<path d="{self._loop(shape)}"/>'
        elif isinstance(shape, Hatch):
            strokes = hatch_strokes(shape)
            if strokes:
                yield self._lines(strokes)
        elif isinstance(shape, Dimension):
            yield from self._dimension(shape)

    def _face(self, face: Face) -> str:
        shade = f"{math.floor(face.grey * 255 + 0.5):02x}"
        if any(bulge for _, _, bulge in face.loop.vertices):
            path = self._loop(face.loop)
        else:
            # whole hundredths, each point from the one before it: pictures have many small faces
            points = [
                (round((x - self._left) * 100), round((self._top - y) * 100))
                for x, y, _ in face.loop.vertices
            ]
            steps = (
                f"{_number((x - x0) / 100, 2)},{_number((y - y0) / 100, 2)}"
                for (x0, y0), (x, y) in pairwise(points)
            )
            x, y = points[0]
            path = f"M{_number(x / 100, 2)},{_number(y / 100, 2)}l{' '.join(steps)}z"
        return f'<path fill="#{shade * 3}" d="{path}"/>'

    def _dimension(self, dimension: Dimension) -> Iterator[str]:
        """Draw lines, filled arrowheads and text; an arrowhead is two strokes from one tip."""
        lines, note = dimension_strokes(dimension)
        arrows = {i for i in range(1, len(lines)) if _tip(lines[i]) in (_tip(lines[0]), _end(lines[0]))}
        yield self._lines(line for i, line in enumerate(lines) if i not in arrows)
        heads = sorted(arrows)
        for a, b in zip(heads[::2], heads[1::2], strict=True):
            points = " ".join(self._at(*p) for p in (_tip(lines[a]), _end(lines[a]), _end(lines[b])))
            yield f'<polygon points="{points}" fill="#000000" stroke="none"/>'
        yield self._note(note)

    def _note(self, note: Note) -> str:
        x, y = _number(note.x - self._left), _number(self._top - note.y)
        turn = f' transform="rotate({_number(-note.angle)} {x} {y})"' if note.angle else ""
        return (
            f'<text x="{x}" y="{y}" font-size="{_number(note.height_mm)}" text-anchor="{note.anchor}"'
            f' fill="#000000" stroke="none"{turn}>{_text(note.text)}</text>'
        )

    def _lines(self, segments: Iterable[Segment]) -> str:
        path, here = [], ""
        for segment in segments:
            start, end = self._at(segment.x0, segment.y0), self._at(segment.x1, segment.y1)
            path.append(f"L{end}" if start == here else f"M{start}L{end}")
            here = end
        return f'<path d="{"".join(path)}"/>'

    def _loop(self, loop: Loop) -> str:
        path: list[str] = []
        # More places where there are arcs: a radius a hair short of half its chord moves a half circle far more.
        places = 8 if any(bulge for _, _, bulge in loop.vertices) else 4
        for start, end, bulge in edges(loop):
            if not path:
                path.append(f"M{self._at(*start, places)}")
            if is_straight(start, end, bulge):
                path.append(f"L{self._at(*end, places)}")
            else:
                arc = bulge_arc(start, end, bulge)
                r = _number(arc.radius, places)
                # seen on the page a positive turn is still to the left, which SVG calls 0
                flags = f"{int(abs(arc.turn) > math.pi)} {int(arc.turn < 0)}"
                path.append(f"A{r} {r} 0 {flags} {self._at(*end, places)}")
        return "".join(path) + "Z"

    def _at(self, x: float, y: float, places: int = 4) -> str:
        return f"{_number(x - self._left, places)},{_number(self._top - y, places)}"


def _tip(segment: Segment) -> tuple[float, float]:
    return segment.x0, segment.y0


def _end(segment: Segment) -> tuple[float, float]:
    return segment.x1, segment.y1


def _group(layer: Layer) -> str:
    dashes = " ".join(_number(dash * layer.line_width_mm) for dash in _DASHES[layer.line_type])
    pattern = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<g class={quoteattr(layer.name)} stroke-width="{_number(layer.line_width_mm)}"{pattern}>'


def _text(text: str) -> str:
    return escape(keep_order(_NOT_XML.sub("\ufffd", text)))


def _number(value: float, places: int = 4) -> str:
    """At most so many decimals, no idle zeros, no minus in front of nothing."""
    text = f"{value:.{places}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
