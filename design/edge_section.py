"""Section through the edge at full size: hold it beside a sample.

The outer edge is on the right, the top face up. The strip is broken off where it is wider than the page. An edge that
is too thick for the paper is drawn smaller, and the figure says so. Where no such profile exists (its findings say
why) there is no section.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.design.checks import job_pin_choices
from edgewright.design.edge_wood import EdgeWood
from edgewright.design.form_words import bit_name, form_text
from edgewright.design.forms import Form
from edgewright.design.model import Design
from edgewright.design.pin_figures import pin_row_text
from edgewright.design.profile import EdgeProfile
from edgewright.display import show_mm, show_ticks
from edgewright.drawing.lettering import wrapped
from edgewright.drawing.paper import (
    PINS,
    THIN,
    PaperBox,
    Pen,
    Point,
    pick_scale,
    scale_text,
    spread,
)
from edgewright.drawing.view import View
from edgewright.errors import GeometryError
from edgewright.job_any import AnyJob
from edgewright.ticks import ticks_to_mm
from edgewright.units import Units

__all__ = ["FULL_SIZE", "EdgeLayers", "edge_section"]

#: Title of a section that a sample can be held against.
FULL_SIZE: Final = "Edge, full size"
#: Sizes of the type, mm: capitals of the heading are 7 mm high and are read from two metres.
_HEADING: Final = 9.6
_FIGURE: Final = 4.6
_SMALL: Final = 3.7
#: Air between the heading, which reaches below its line, and the lines under it (paper mm).
_BELOW_HEADING: Final = 1.2
#: Room of the heading with two lines below it (paper mm).
_ABOVE: Final = 1.15 * _HEADING + _BELOW_HEADING + 2 * 1.35 * _SMALL
#: Room on the right for labels, and on the left for thicknesses (paper mm).
_RIGHT: Final = 68.0
_LEFT: Final = 30.0
_LEAST: Final[PaperBox] = (150.0, 90.0)
_HOW: Final = "Top face up, finished edge on the right."


@dataclass(frozen=True, slots=True)
class EdgeLayers:
    """What the section shows of a job's edge: the top and what lies below it, lengths in mm.

    ``layers`` of ``layer_mm`` each lie below the top; ``pinned`` is False where they are not pinned from below.
    """

    job: AnyJob
    profile: EdgeProfile | None
    thickness_mm: float
    layer_mm: float
    layers: int
    pinned: bool = True


def edge_section(
    design: Design | EdgeLayers, strip_width_ticks: int, box: PaperBox = (180.0, 110.0), *, code: str = ""
) -> tuple[View, ...]:
    """Draw the section of the edge, at full size where the box allows it.

    Parameters
    ----------
    design
        Gives thicknesses, profile, bearing and pins. One without a profile has no section.
    strip_width_ticks
        Width of the strips, greater than 0.
    box
        Width and height that the figure may fill, paper mm, at least 150 x 90.
    code
        Plan code, written beside the scale.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    if box[0] < _LEAST[0] or box[1] < _LEAST[1]:
        raise GeometryError(
            f"the figure's box is {box[0]:g} x {box[1]:g} mm; it must be at least "
            f"{_LEAST[0]:g} x {_LEAST[1]:g} mm: take larger paper"
        )
    profile = design.profile
    if profile is None:
        return ()
    if not isinstance(design, EdgeLayers):
        layers = design.job.edge.layers
        design = EdgeLayers(design.job, profile, design.thickness_mm, design.strip_thickness_mm, layers)
    return (_Section(design, profile, strip_width_ticks, box, code).view(),)


class _Section:
    """Positions are wood mm: x to the left from the finished edge is negative, y up from the underside."""

    def __init__(
        self, design: EdgeLayers, profile: EdgeProfile, strip_width: int, box: PaperBox, code: str
    ) -> None:
        self._design, self._profile, self._box, self._code = design, profile, box, code
        self._units = design.job.units
        self._strip = ticks_to_mm(strip_width)
        self._strip_text = show_ticks(strip_width, self._units)
        self._pin = job_pin_choices(design.job)[0] if design.pinned else None
        tall = box[1] - 10 - _ABOVE - 21
        self._scale = pick_scale([(profile.thickness, tall)]) or 200.0
        # the height that is not needed is left
        high = profile.thickness / self._scale
        labels = sum(_label_size(lines) for _, lines, _ in self._label_list())
        used = min(tall, max(high + 14, 50.0, 2 * labels - high))
        self._box = (box[0], box[1] - tall + used)
        tall = used
        self._edge = box[0] - _RIGHT
        self._bottom = 19.0 + (tall - profile.thickness / self._scale) / 2 + 8

    @property
    def _height(self) -> float:
        return self._profile.thickness

    def _at(self, x: float, y: float) -> Point:
        return self._edge + x / self._scale, self._bottom + y / self._scale

    def view(self) -> View:
        pen = Pen()
        whole = self._scale == 1
        title = FULL_SIZE if whole else f"Edge, NOT full size, 1:{self._scale:g}"
        y = self._box[1] - 0.8 * _HEADING
        pen.text(0, y, _HEADING, title)
        y -= _BELOW_HEADING
        code = f" Plan {self._code}." if self._code else ""
        use = "Hold a sample against it." if whole else "Too thick for this paper: hold no sample against it."
        for line in (f"{scale_text(self._scale).capitalize()}.{code} {use}", _HOW):
            y -= 1.35 * _SMALL
            pen.text(0, y, _SMALL, line)
        # a strip that is wider than the page is broken off; the top always is
        room = (self._edge - _LEFT) * self._scale
        broken = self._strip > room - 12 * self._scale
        top_end = -room
        strip_end = top_end if broken else -self._strip
        wood = EdgeWood(self._profile, self._seams(), top_end, strip_end)
        wood.draw(pen, self._at)
        self._draw_pin(pen)
        self._draw_thicknesses(pen, top_end)
        self._draw_width(pen, strip_end, broken)
        self._draw_labels(pen, wood)
        self._draw_bar(pen)
        return pen.view("edge", title)

    def _seams(self) -> list[float]:
        """Heights of the glue seams above the underside, lowest first."""
        design = self._design
        return [design.layer_mm * n for n in range(1, design.layers + 1)]

    def _draw_pin(self, pen: Pen) -> None:
        pin = self._pin
        if pin is None or pin.length is None:
            return
        row = -ticks_to_mm(pin.row_from_edge)
        # the first layer is pinned with nothing below it, so its pin starts at that layer's underside
        foot = self._seams()[-1] - self._design.layer_mm
        head = foot + ticks_to_mm(pin.length)
        pen.line(PINS, self._at(row, foot), self._at(row, head))
        x, low = self._at(row, 0)
        y = low - 5
        pen.line(THIN, (x, low - 0.8), (x, y - 1.5))
        pen.line(THIN, (self._edge, low - 0.8), (self._edge, y - 9.5))
        self._size_across(pen, x, self._edge, y, pin_row_text(pin, self._units) + " pin row, at least")

    def _size_across(self, pen: Pen, x0: float, x1: float, y: float, text: str) -> None:
        """Dimension below the section with its text on the right of it."""
        if x1 - x0 < 7:
            pen.line(THIN, (x0 - 5, y), (x1 + 5, y))
            pen.arrow((x0, y), (x0 - 5, y))
            pen.arrow((x1, y), (x1 + 5, y))
            pen.text(x1 + 6, y - 0.36 * _FIGURE, _FIGURE, text)
            return
        pen.line(THIN, (x0, y), (x1 + 3, y))
        pen.arrow((x0, y), (x1, y))
        pen.arrow((x1, y), (x0, y))
        pen.text(x1 + 4, y - 0.36 * _FIGURE, _FIGURE, text)

    def _draw_width(self, pen: Pen, strip_end: float, broken: bool) -> None:
        if not self._design.layers:
            return
        x, low = self._at(strip_end, 0)
        y = low - 12.5
        text = f"{self._strip_text} strip{', broken off' if broken else ''}"
        pen.line(THIN, (x, low - 0.8), (x, y - 1.5))
        pen.line(THIN, (self._edge, low - 0.8), (self._edge, y - 1.5))
        self._size_across(pen, x, self._edge, y, text)

    def _draw_thicknesses(self, pen: Pen, end: float) -> None:
        """Thicknesses on the left: the top and each layer, then all of it, labels spread by height."""
        design, units = self._design, self._units
        seams = self._seams()
        x = self._at(end, 0)[0]
        spans = list(zip([0.0, *seams], [*seams, self._height], strict=True))
        names = [show_mm(design.layer_mm, units)] * len(seams) + [show_mm(design.thickness_mm, units)]
        middles = [self._at(0, (low + high) / 2)[1] for low, high in spans]
        low_y, high_y = self._at(0, 0)[1] - 8, self._at(0, self._height)[1] + 8
        centres = spread(middles, [1.3 * _FIGURE] * len(names), low_y, high_y) or middles
        for y in (0.0, *seams, self._height):
            pen.line(THIN, (x - 0.8, self._at(0, y)[1]), (x - 5, self._at(0, y)[1]))
        for (low, high), name, centre in zip(spans, names, centres, strict=True):
            a, b = self._at(0, low)[1], self._at(0, high)[1]
            pen.line(THIN, (x - 4, a), (x - 4, b))
            if b - a > 6.5:
                pen.arrow((x - 4, a), (x - 4, b))
                pen.arrow((x - 4, b), (x - 4, a))
            if abs(centre - (a + b) / 2) > 0.5:
                pen.line(THIN, (x - 4, (a + b) / 2), (x - 6, centre))
            pen.text(x - 6.5, centre - 0.36 * _FIGURE, _FIGURE, name, "end")

    def _draw_labels(self, pen: Pen, wood: EdgeWood) -> None:
        """What stands at which height, on the right: radii, flat, seams, bearing bands and the whole thickness."""
        labels = self._label_list()
        low = self._at(0, 0)[1] - 2
        high = self._box[1] - _ABOVE - 1
        while True:
            wanted = [self._at(0, y)[1] for y, _, _ in labels]
            centres = spread(wanted, [_label_size(lines) for _, lines, _ in labels], low, high)
            spare = [label for label in labels if label[2]]
            if centres is not None or not labels:
                break
            # on small paper what can also be read off the dimensions goes first
            labels.remove(spare[0] if spare else labels[0])
        for (height, text, _), y, centre in zip(labels, wanted, centres or [], strict=True):
            x = self._at(wood.reach(height), 0)[0]
            pen.line(THIN, (x + 0.6, y), (self._edge + 9, y), (self._edge + 15, centre))
            top = centre + len(text) * 1.25 * _SMALL / 2
            for index, line in enumerate(text):
                pen.text(self._edge + 16, top - (index + 0.5) * 1.25 * _SMALL - 0.36 * _SMALL, _SMALL, line)
        self._draw_bands(pen)

    def _bands(self) -> list[tuple[float, float, str]]:
        """Where the bearing runs for each form: low, high (wood mm) and the bit's name."""
        profile, height = self._profile, self._design.job.router.bearing_height.mm
        bands = []
        if profile.bottom.parts:
            low = profile.bottom.depth
            bands.append((low, low + height, bit_name("bottom", profile.bottom)))
        if profile.top.parts:
            top = profile.thickness - profile.top.depth
            bands.append((top - height, top, bit_name("top", profile.top)))
        return bands

    def _draw_bands(self, pen: Pen) -> None:
        """Bearing bands as narrow hatched strips beside the edge."""
        for index, (low, high, _) in enumerate(self._bands()):
            x = self._edge + 1.2 + 3.2 * index
            y0, y1 = self._at(0, low)[1], self._at(0, high)[1]
            corners = ((x, y0), (x + 2.4, y0), (x + 2.4, y1), (x, y1))
            pen.outline(THIN, corners)
            pen.hatch(corners, 135, 0.9)

    def _label_list(self) -> list[tuple[float, list[str], bool]]:
        """Height (wood mm), lines, and whether the figure can be read off the dimensions as well."""
        profile, units = self._profile, self._units
        high = profile.thickness
        labels = [
            (_label_depth(profile.bottom), _form_label(profile.bottom, units), False),
            (high - _label_depth(profile.top), _form_label(profile.top, units), False),
            (high, f"thickness {show_mm(high, units)}", False),
        ]
        for low, upper, name in self._bands():
            words = f"bearing of the {name}:\n{show_mm(low, units)} to {show_mm(upper, units)} up"
            labels.append(((low + upper) / 2, words, False))
        for seam in self._seams():
            ridden = any(low < seam < upper for low, upper, _ in self._bands())
            fill = ":\nfill first, the bearing rides on it" if ridden else ""
            labels.append((seam, f"glue seam {show_mm(seam, units)} up{fill}", not ridden))
        return [(height, wrapped(text, _SMALL, _RIGHT - 17), spare) for height, text, spare in sorted(labels)]

    def _draw_bar(self, pen: Pen) -> None:
        """Scale bar: 2 in or 50 mm of wood, to check the print with a rule."""
        units = self._units
        parts, part = (4, 12.7) if units == "in" else (5, 10.0)
        text = "2 in" if units == "in" else "50 mm"
        step = part / self._scale
        x, y = 1.0, 2.0
        for index in range(parts):
            left = x + index * step
            corners = ((left, y), (left + step, y), (left + step, y + 2.2), (left, y + 2.2))
            pen.outline(THIN, corners)
            if index % 2 == 0:
                pen.hatch(corners, 45, 0.3)
        pen.text(x + parts * step + 2, y - 0.1, _SMALL, f"{text} of wood: measure this bar on the print")


def _label_size(lines: Sequence[str]) -> float:
    """Room of a label with its gap (paper mm)."""
    return len(lines) * 1.25 * _SMALL + 1.0


def _label_depth(form: Form) -> float:
    """Where on a form its label points: where a quarter circle is cut by its own diagonal, else half way down."""
    return form.depth * (1 - math.sqrt(0.5)) if form.is_round_over else form.depth / 2


def _form_label(form: Form, units: Units) -> str:
    """Label of a form: only the radius of a round-over, else its name and sizes."""
    return f"R {show_mm(form.reach, units)}" if form.name == "round-over" else form_text(form, units)
