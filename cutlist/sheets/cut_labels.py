"""Labels beside a panel: numbers and positions on leaders, spread so that none hides another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.sheets.common import SMALL, widest
from edgewright.drawing.lettering import ASCENT
from edgewright.drawing.paper import GUIDE, THIN, Pen, Point, spread
from edgewright.drawing.view import Box

__all__ = ["CutLabels", "Label", "Room"]

#: Radius of a number and size of the type of a position (mm).
_RADIUS: Final = 3.4
_FIGURE: Final = 5.2
_STRAIGHT: Final = 7.0
_LEADER: Final = 11.0
_LINE: Final = 1.25
_GUIDE_LEADER: Final = 2.5
#: A guide is drawn this far beyond the panel and into it.
_GUIDE_OUT: Final = 3.0
_GUIDE_IN: Final = 9.0


@dataclass(frozen=True, slots=True)
class Label:
    """A label that belongs to a place ``at_mm`` (wood mm) across the cuts: a cut, or words about a datum edge."""

    at_mm: float
    number: int | None
    lines: tuple[str, ...]

    @property
    def height(self) -> float:
        """Height of the lettering (mm)."""
        return SMALL if self.number is None else _FIGURE

    @property
    def wide(self) -> float:
        """Paper width, number included."""
        number = 0.0 if self.number is None else 2 * _RADIUS + 1.2
        return number + widest(self.lines, self.height)

    @property
    def tall(self) -> float:
        """Paper height."""
        return max(len(self.lines) * self.height * _LINE, 0.0 if self.number is None else 2 * _RADIUS)


@dataclass(frozen=True, slots=True)
class Room:
    """Paper mm that labels need before and after the panel, along the cuts."""

    before: float
    after: float


class CutLabels:
    """Labels of the cuts of one figure: on the right of flat cut lines, below upright ones."""

    def __init__(self, flat: bool, labels: Sequence[Label]) -> None:
        self._flat = flat
        self._labels = labels

    def room(self, guides_inside: bool) -> Room:
        """Room before (guides) and after the panel (labels)."""
        after = max(label.wide if self._flat else label.tall for label in self._labels)
        number = 0.0 if guides_inside else _GUIDE_LEADER + 2 * _RADIUS
        return Room(_GUIDE_OUT + number + 0.3, _LEADER + after + 0.3)

    @property
    def size(self) -> float:
        """Room that all labels need side by side (mm)."""
        return sum(self._sizes())

    def _sizes(self) -> list[float]:
        return [label.tall + 0.8 if self._flat else label.wide + 2.5 for label in self._labels]

    def draw(self, pen: Pen, zero: float, scale: float, edge: float, limits: tuple[float, float]) -> None:
        """Draw the labels.

        Parameters
        ----------
        zero
            Paper position that ``at_mm`` counts from.
        edge
            Paper position of the panel's edge where the leaders start.
        limits
            Ends of the room for the labels across the cuts (paper mm).
        """
        wanted = [zero + label.at_mm / scale for label in self._labels]
        centres = spread(wanted, self._sizes(), *limits)
        if centres is None:
            raise ValueError(f"labels of {self.size:.1f} mm do not fit between {limits}")
        for label, at, centre in zip(self._labels, wanted, centres, strict=True):
            if self._flat:
                pen.line(THIN, (edge, at), (edge + _STRAIGHT, at), (edge + _LEADER - 0.7, centre))
                self._write(pen, label, edge + _LEADER, centre)
            else:
                pen.line(THIN, (at, edge), (at, edge - _STRAIGHT), (centre, edge - _LEADER + 0.7))
                self._write(pen, label, centre - label.wide / 2, edge - _LEADER - label.tall / 2)

    def _write(self, pen: Pen, label: Label, x: float, middle: float) -> None:
        h = label.height
        if label.number is not None:
            pen.number(x + _RADIUS, middle, label.number, _RADIUS)
            x += 2 * _RADIUS + 1.2
        top = middle + len(label.lines) * h * _LINE / 2
        for index, line in enumerate(label.lines):
            pen.text(x, top - (index + 0.5) * h * _LINE - ASCENT * h / 2, h, line)

    def draw_guides(
        self,
        pen: Pen,
        guides: Sequence[tuple[float, int]],
        edge: float,
        limits: tuple[float, float],
        *,
        inside: bool,
    ) -> list[Box]:
        """Draw the ends of the guides with their cut's number; returns the paper they take.

        Parameters
        ----------
        guides
            Pairs of paper position across the cuts and cut number, ascending.
        edge
            Paper position of the panel's edge that the guides stick out of.
        inside
            Whether the numbers stand on the panel, or beside it.
        """
        size = 2 * _RADIUS + 0.6
        centres = spread([at for at, _ in guides], [size] * len(guides), *limits)
        if centres is None:
            raise ValueError(f"{len(guides)} guide numbers do not fit between {limits}")
        into = 1.0 if self._flat else -1.0
        out, end = edge - into * _GUIDE_OUT, edge + into * _GUIDE_IN
        near, away = (end, into) if inside else (out, -into)
        taken = []
        for (at, number), centre in zip(guides, centres, strict=True):
            pen.line(GUIDE, self._point(at, out), self._point(at, end))
            pen.line(THIN, self._point(at, near), self._point(centre, near + away * _GUIDE_LEADER))
            x, y = self._point(centre, near + away * (_GUIDE_LEADER + _RADIUS))
            pen.number(x, y, number, _RADIUS)
            taken.append((x - _RADIUS, y - _RADIUS, x + _RADIUS, y + _RADIUS))
            (x0, y0), (x1, y1) = self._point(at, out), self._point(at, end)
            taken.append((min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)))
        return taken

    def _point(self, across: float, along: float) -> Point:
        return (along, across) if self._flat else (across, along)
