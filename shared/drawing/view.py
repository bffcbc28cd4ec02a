"""A drawing as plain data: every writer draws the same view, so that DXF, SVG and page can never disagree.

All positions are millimetres, x to the right and y up. A shape names its layer; the layer carries purpose,
line width and line type. A writer converts units and picks entities, it decides nothing about the geometry.

References
----------
ISO 128-2 (line types and widths; wide to narrow 2:1)
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

__all__ = [
    "LINE_WIDTHS_MM",
    "NARROW_MM",
    "WIDE_MM",
    "Anchor",
    "Box",
    "Circle",
    "Dimension",
    "Face",
    "Hatch",
    "Layer",
    "LineType",
    "Loop",
    "Note",
    "Segment",
    "Shape",
    "Vertex",
    "View",
]

LineType = Literal["continuous", "dashed", "long dash dot"]
Anchor = Literal["start", "middle", "end"]
#: x and y in mm, and the bulge of the edge that begins here: tan(turn / 4), positive counter-clockwise.
Vertex = tuple[float, float, float]
#: x min, y min, x max, y max in mm.
Box = tuple[float, float, float, float]

#: Line widths of ISO 128-2, mm.
LINE_WIDTHS_MM: Final = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
WIDE_MM: Final = 0.7
NARROW_MM: Final = 0.35


@dataclass(frozen=True, slots=True)
class Layer:
    """A layer.

    Attributes
    ----------
    name
        Plain trade words, upper case ASCII with underscores.
    purpose
        What its lines mean, one phrase.
    line_width_mm
        One of ``LINE_WIDTHS_MM``.
    cut
        True where a tool follows the lines: such a layer holds no text, dimension or hatch.
    """

    name: str
    purpose: str
    line_width_mm: float
    line_type: LineType
    cut: bool


@dataclass(frozen=True, slots=True)
class Loop:
    """A closed line of straight edges and arcs; the first vertex is not repeated at the end."""

    vertices: tuple[Vertex, ...]


@dataclass(frozen=True, slots=True)
class Segment:
    """A straight open line."""

    x0: float
    y0: float
    x1: float
    y1: float


@dataclass(frozen=True, slots=True)
class Circle:
    """A full circle about (x, y)."""

    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Note:
    """One line of text.

    Attributes
    ----------
    x, y
        The anchor's point on the base line.
    angle
        Degrees counter-clockwise from x.
    """

    x: float
    y: float
    height_mm: float
    text: str
    anchor: Anchor = "start"
    angle: float = 0.0


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length between two points, written on a line beside them.

    Attributes
    ----------
    offset_mm
        Distance of the dimension line, positive to the left of the way from the first point to the second.
    text
        What is written, made by whoever knows the job's units and rounding.
    height_mm
        Lettering height; arrowheads and extension lines follow from it.
    """

    x0: float
    y0: float
    x1: float
    y1: float
    offset_mm: float
    text: str
    height_mm: float


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines that fill a loop; ``angle`` in degrees from x, ``spacing_mm`` between the lines."""

    loop: Loop
    angle: float
    spacing_mm: float


@dataclass(frozen=True, slots=True)
class Face:
    """A loop filled with an even grey, 0 black to 1 white, over all that was drawn before; it has no edge line.

    Faces make pictures, not drawings: writers of line drawings leave them out.
    """

    loop: Loop
    grey: float


Shape = Loop | Segment | Circle | Note | Dimension | Hatch | Face


@dataclass(frozen=True, slots=True)
class View:
    """A drawing.

    Attributes
    ----------
    name
        Short file word.
    shapes
        Pairs of layer name and shape, drawn in this order.
    nominal
        Pairs of layer name and the box that its shapes must fill exactly; the self-check compares them.
    """

    name: str
    title: str
    shapes: tuple[tuple[str, Shape], ...]
    layers: tuple[Layer, ...]
    nominal: tuple[tuple[str, Box], ...] = ()

    def on(self, layer_name: str) -> tuple[Shape, ...]:
        """Shapes of one layer in drawing order."""
        return tuple(shape for name, shape in self.shapes if name == layer_name)
