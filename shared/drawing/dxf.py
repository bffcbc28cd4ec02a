"""Write a view as a DXF file.

- R2000: one closed LWPOLYLINE with bulges for each loop, CIRCLE for circles. The default.
- R12: LINE and ARC instead, for old controllers and for readers that turn bulges into chords. R12 has no
  line widths.

Never a spline or an ellipse: arcs stay arcs. Dimensions and hatches are taken apart into plain lines. The
same view gives the same bytes always: no date, no random id.

References
----------
DXF Reference (group codes, header variables)
"""

from __future__ import annotations

import io
import logging
import math
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any, Final, Literal

from edgewright.drawing.arcs import box_around, bulge_arc, edges, is_straight
from edgewright.drawing.check_notes import check_notes
from edgewright.drawing.layers import REFERENCE
from edgewright.drawing.plain_ascii import plain_ascii
from edgewright.drawing.reference import FileUnits, scale_bar, view_box
from edgewright.drawing.strokes import PlainShape, plain_parts
from edgewright.drawing.view import (
    Circle,
    Layer,
    LineType,
    Note,
    Segment,
    View,
)
from edgewright.ticks import TICKS_PER_INCH, TICKS_PER_MM

__all__ = ["Dialect", "dxf_text"]

Dialect = Literal["R2000", "R12"]

#: $INSUNITS (1 inch, 4 millimetre) and $MEASUREMENT (0 imperial, 1 metric), always set together.
_UNIT_CODES: Final[dict[FileUnits, tuple[int, int]]] = {"in": (1, 0), "mm": (4, 1)}
#: Names of line types; dashes in line widths, gaps negative (ISO 128-2: dash 12, long dash 24, gap 3).
_LINE_TYPES: Final[dict[LineType, tuple[str, tuple[float, ...]]]] = {
    "continuous": ("Continuous", ()),
    "dashed": ("DASHED", (12.0, -3.0)),
    "long dash dot": ("LONG_DASH_DOT", (24.0, -3.0, 0.5, -3.0)),
}
#: Dashes are sized for a sheet at 1:10 with narrow lines of 0.35 mm: one line width is 3.5 mm on the wood.
_DASH_UNIT_MM: Final = 3.5
#: Colour numbers: cut layers in the foreground colour, the others grey.
_CUT_COLOUR, _OTHER_COLOUR = 7, 8


def dxf_text(view: View, units: FileUnits, dialect: Dialect = "R2000") -> str:
    """Text of a DXF file, ASCII only.

    Parameters
    ----------
    view
        Drawing in millimetres with at least one shape; check it first, see `edgewright.drawing.audit`.
    units
        One drawing unit is an inch or a millimetre; header, unit note and scale bar say which.
    dialect
        "R2000", or "R12" with lines and arcs only.

    Raises
    ------
    KeyError
        If a shape names a layer that the view does not have.
    """
    import ezdxf

    insunits, measurement = _UNIT_CODES[units]
    stream = io.StringIO()
    with _repeatable(ezdxf):
        document = ezdxf.new(dialect, setup=False, units=insunits)
        document.header["$MEASUREMENT"] = measurement
        _draw(document, view, units, dialect)
        document.write(stream)
    text = stream.getvalue()
    return _with_unit_header(text, insunits, measurement) if dialect == "R12" else text


@contextmanager
def _repeatable(ezdxf: Any) -> Iterator[None]:
    """Leave out the time and the two random ids that the library puts into a file, and its R12 warning."""
    logger, fixed = logging.getLogger("ezdxf"), ezdxf.options.write_fixed_meta_data_for_testing
    # made while a document is begun and again while it is written: set for both
    ezdxf.options.write_fixed_meta_data_for_testing = True
    logger.addFilter(_is_news)
    try:
        yield
    finally:
        logger.removeFilter(_is_news)
        ezdxf.options.write_fixed_meta_data_for_testing = fixed


def _is_news(record: logging.LogRecord) -> bool:
    """Whether a message of the library says more than what ``_with_unit_header`` puts right."""
    return "not exported for DXF R12" not in record.getMessage()


def _draw(document: Any, view: View, units: FileUnits, dialect: Dialect) -> None:
    header, space = document.header, document.modelspace()
    header["$LWDISPLAY"] = 1
    _dimension_style(document)
    names = _layers(document, view, units)
    extra = tuple(
        (REFERENCE.name, shape) for shape in scale_bar(view_box(view), units, tuple(check_notes(view, units)))
    )
    plain = [(names[name], part) for name, shape in (*view.shapes, *extra) for part in plain_parts(shape)]
    for layer, part in plain:
        _add(space, part, layer, units, dialect)
    x0, y0, x1, y1 = (_unit(value, units) for value in box_around(part for _, part in plain))
    # the header alone is overwritten on export, the space alone is not read by every viewer
    space.reset_extents((x0, y0, 0.0), (x1, y1, 0.0))
    header["$EXTMIN"], header["$EXTMAX"] = (x0, y0, 0.0), (x1, y1, 0.0)
    space.reset_limits((x0, y0), (x1, y1))
    header["$LIMMIN"], header["$LIMMAX"] = (x0, y0), (x1, y1)


def _with_unit_header(text: str, insunits: int, measurement: int) -> str:
    """Put both unit variables into an R12 header: the library drops them, and inches would be read as mm."""
    version = "  9\n$ACADVER\n  1\nAC1009\n"
    if text.count(version) != 1:
        raise RuntimeError(
            "the DXF library wrote no $ACADVER into an R12 header: this version of it cannot be used"
        )
    variables = f"  9\n$INSUNITS\n 70\n{insunits}\n  9\n$MEASUREMENT\n 70\n{measurement}\n"
    return text.replace(version, version + variables)


def _unit(value: float, units: FileUnits) -> float:
    """Drawing units of a position in mm; on whole ticks the float nearest to the exact inch figure."""
    if units == "mm":
        return value + 0.0  # no -0.0 in the file
    ticks = value * TICKS_PER_MM
    whole = round(ticks)
    # mm as a float is already rounded: 36 1/4 in would come out as 36.25000000000001
    return whole / TICKS_PER_INCH if abs(ticks - whole) < 1e-9 else value / 25.4


def _dimension_style(document: Any) -> None:
    """Set scale 1 and sizes in the style and in the header alike: some viewers read one, some the other."""
    style = document.dimstyles.get("Standard")
    for name, value in (
        ("dimlfac", 1.0),
        ("dimtxt", 2.5),
        ("dimasz", 2.5),
        ("dimexe", 1.25),
        ("dimexo", 0.625),
    ):
        style.dxf.set(name, value)
        document.header[f"${name.upper()}"] = value
    document.header["$DIMSTYLE"] = "Standard"


def _layers(document: Any, view: View, units: FileUnits) -> dict[str, str]:
    """Add layers and their line types; gives each layer's name in the file."""
    wanted: list[Layer] = list(view.layers)
    if all(layer.name != REFERENCE.name for layer in wanted):
        wanted.append(REFERENCE)
    for name, dashes in _LINE_TYPES.values():
        if dashes:
            sizes = [_unit(_DASH_UNIT_MM * dash, units) for dash in dashes]
            pattern = [math.fsum(abs(size) for size in sizes), *sizes]
            document.linetypes.add(name, pattern, description=name.replace("_", " ").lower())
    names = {}
    for layer in wanted:
        names[layer.name] = plain_ascii(layer.name)
        document.layers.add(
            names[layer.name],
            color=_CUT_COLOUR if layer.cut else _OTHER_COLOUR,
            linetype=_LINE_TYPES[layer.line_type][0],
            lineweight=round(layer.line_width_mm * 100),
        )
    return names


def _add(space: Any, shape: PlainShape, layer: str, units: FileUnits, dialect: Dialect) -> None:
    attributes = {"layer": layer}

    def at(x: float, y: float) -> tuple[float, float]:
        return _unit(x, units), _unit(y, units)

    if isinstance(shape, Segment):
        space.add_line(at(shape.x0, shape.y0), at(shape.x1, shape.y1), attributes)
    elif isinstance(shape, Circle):
        space.add_circle(at(shape.x, shape.y), _unit(shape.radius, units), attributes)
    elif isinstance(shape, Note):
        _add_text(space, shape, attributes, units)
    elif dialect == "R2000":
        vertices = [(*at(x, y), bulge) for x, y, bulge in shape.vertices]
        space.add_lwpolyline(vertices, format="xyb", close=True, dxfattribs=attributes)
    else:
        for start, end, bulge in edges(shape):
            if not is_straight(start, end, bulge):
                arc = bulge_arc(start, end, bulge)
                # an ARC always runs counter-clockwise
                ends = sorted((arc.begin, arc.begin + arc.turn))
                first, last = (math.degrees(angle) % 360 for angle in ends)
                space.add_arc(at(arc.x, arc.y), _unit(arc.radius, units), first, last, dxfattribs=attributes)
            else:
                space.add_line(at(*start), at(*end), attributes)


def _add_text(space: Any, note: Note, attributes: dict[str, str], units: FileUnits) -> None:
    from ezdxf.enums import TextEntityAlignment

    anchors = {
        "start": TextEntityAlignment.LEFT,
        "middle": TextEntityAlignment.CENTER,
        "end": TextEntityAlignment.RIGHT,
    }
    height = _unit(note.height_mm, units)
    text = space.add_text(plain_ascii(note.text), height=height, rotation=note.angle, dxfattribs=attributes)
    text.set_placement((_unit(note.x, units), _unit(note.y, units)), align=anchors[note.anchor])
