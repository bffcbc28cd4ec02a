"""Strip map: the underside with its strips, one figure for each layer, pins and zones without pins.

Strips are glued on with the top face down, so this is an underside view: east is on the left, west on the right.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.compass import SIDES, Side, is_lengthwise
from edgewright.cutlist.model import Piece
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.chalk import chalk_marks
from edgewright.cutlist.sheets.common import (
    check_box,
    heading,
    heading_height,
    paragraph,
    paragraph_height,
)
from edgewright.cutlist.sheets.pin_marks import draw_no_pin_zones, draw_pins, pin_note
from edgewright.cutlist.sheets.underside import Underside
from edgewright.display import show_ticks
from edgewright.drawing.lettering import ASCENT, note_box, text_width
from edgewright.drawing.paper import (
    HIDDEN,
    KEEP,
    LETTERING,
    PANEL,
    THIN,
    PaperBox,
    Pen,
    pick_scale,
    scale_text,
    spread,
)
from edgewright.drawing.view import Box, Note, View
from edgewright.ticks import ticks_to_mm

__all__ = ["strip_map_figures"]

_LABEL: Final = 3.8
#: Room around the ring for names (paper mm).
_OUT: Final = 6.5
_SPLICE: Final = 3.4
#: Words about splices stand this far inside the ring; the band that they take.
_INSIDE: Final = 3.4
_BAND: Final = 7.5


def strip_map_figures(plan: Plan, box: PaperBox = (180.0, 110.0)) -> tuple[View, ...]:
    """Draw the underside with its strips, one figure for each layer.

    Parameters
    ----------
    plan
        A plan; one that is not ready has no figures.
    box
        Width and height that each figure may fill, paper mm, at least 150 x 100.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box)
    if not plan.ready:
        return ()
    figures = []
    count = max(side.layer for side in plan.cut_plan.sides)
    for layer in range(1, count + 1):
        layer_map = _LayerMap(plan, box, layer, count, spelled=False)
        view = layer_map.view()
        if layer_map.shortened:
            view = _LayerMap(plan, box, layer, count, spelled=True).view()
        figures.append(view)
    return tuple(figures)


class _LayerMap:
    """The map of one layer."""

    def __init__(self, plan: Plan, box: PaperBox, layer: int, layers: int, *, spelled: bool) -> None:
        self._plan, self._box, self._layer, self._spelled = plan, box, layer, spelled
        which = "" if layers == 1 else f", layer {layer} of {layers}"
        self._title = f"UNDERSIDE: strips{which}"
        self._sides = {side.id: side for side in plan.cut_plan.sides if side.layer == layer}
        self._pieces = [piece for piece in plan.cut_plan.pieces if piece.side_id in self._sides]
        #: Whether a piece has only its name beside it, as there was no room for more.
        self.shortened = False
        notes = self._notes()
        self._below = sum(paragraph_height(note, box[0]) for note in notes) + 1
        self._under = self._place()
        self._text_below = notes

    def _place(self) -> Underside:
        """Put the top in the middle of the room between heading and notes, as large as it fits."""
        plan, box = self._plan, self._box
        proud = ticks_to_mm(plan.cut_plan.proud_ticks)
        length, width = (ticks_to_mm(size) for size in plan.cut_plan.finished_ticks)
        top = box[1] - heading_height(box, self._title, self._lines(12.5))
        tall = top - self._below - 2 * _OUT
        scale = pick_scale([(length + 2 * proud, box[0] - 2 * _OUT), (width + 2 * proud, tall)]) or 200.0
        # the height that is not needed is left
        used = min(tall, (width + 2 * proud) / scale + 3)
        self._box = (box[0], box[1] - tall + used)
        bottom = self._below + _OUT + (used - width / scale) / 2
        return Underside(plan, (box[0] - length / scale) / 2, bottom, scale)

    def view(self) -> View:
        pen, under = Pen(), self._under
        heading(pen, self._box, self._title, self._lines(under.scale))
        pen.shape(KEEP, under.outline())
        for piece in self._pieces:
            side = self._sides[piece.side_id]
            pen.outline(PANEL, under.corners(side, piece))
        draw_pins(pen, under, self._layer)
        draw_no_pin_zones(pen, under, self._layer)
        for where in SIDES:
            self._draw_names(pen, where)
        taken = [*self._draw_seams(pen), *self._draw_splices(pen)]
        chalk_marks(pen, under.inner_box(), taken)
        y = self._below - 1
        for note in self._text_below:
            y = paragraph(pen, 0, y, note, self._box[0])
        return pen.view(f"underside-{self._layer}", self._title)

    # what is written

    def _lines(self, scale: float) -> list[str]:
        return [
            "The top lies face DOWN: east is on the left, west on the right.",
            f"{scale_text(scale).capitalize()}. Plan {self._plan.code}.",
        ]

    def _notes(self) -> list[str]:
        plan, notes = self._plan, []
        splices = [
            f"{piece.side_id} {self._splice(piece)}" for piece in self._pieces if piece.side_start_ticks
        ]
        if splices:
            notes.append(f"Splices, from the finished corner: {'; '.join(splices)}.")
        notes.append(pin_note(Underside(plan, 0, 0, 1), self._layer))
        if plan.cut_plan.proud_ticks:
            proud = show_ticks(plan.cut_plan.proud_ticks, plan.job.units)
            notes.append(f"Strips stand {proud} proud until flush-trimmed.")
        if plan.job.top.seams:
            notes.append("Dashed: seam in the top.")
        if self._spelled:
            notes.append(f"Pieces: {'; '.join(sorted(map(self._text, self._pieces)))}.")
        return notes

    def _text(self, piece: Piece) -> str:
        fit = ", to fit" if self._to_fit(piece) else ""
        return f"{piece.id} {show_ticks(piece.length_ticks, self._plan.job.units)}{fit}"

    def _to_fit(self, piece: Piece) -> bool:
        """Whether the piece fills what is left between two strips; of a spliced side the last one does."""
        side = self._sides[piece.side_id]
        between = side.start_offset_ticks > 0 and side.end_offset_ticks > 0 and side.end_cut == "square"
        return between and piece.side_start_ticks + piece.length_ticks == side.length_ticks

    def _splice(self, piece: Piece) -> str:
        """Where a piece is spliced to the one before it, from the finished corner."""
        side = self._sides[piece.side_id]
        at = show_ticks(side.start_offset_ticks + piece.side_start_ticks, self._plan.job.units)
        return f"{at} from {'W' if is_lengthwise(side.side) else 'S'}"

    # drawing

    def _draw_seams(self, pen: Pen) -> list[Box]:
        """Draw seams of the top; returns the paper they take."""
        (left, bottom), (right, top) = self._under.at(0, 0), self._under.at(*self._under.size)
        boxes = [(x, bottom, x, top) for x in self._under.seams("north")]
        boxes += [(left, y, right, y) for y in self._under.seams("east")]
        for x0, y0, x1, y1 in boxes:
            pen.line(HIDDEN, (x0, y0), (x1, y1))
        return boxes

    def _draw_names(self, pen: Pen, where: Side) -> None:
        """Names and lengths outside the ring, beside their pieces; names alone where space is short."""
        x0, y0, x1, y1 = self._under.outer_box()
        low, high = (x0, x1) if is_lengthwise(where) else (y0, y1)
        found = sorted(
            (self._middle(piece), piece.id)
            for piece in self._pieces
            if self._sides[piece.side_id].side == where
        )
        by_id = {piece.id: self._text(piece) for piece in self._pieces}
        names = [name for _, name in found]
        for texts in ([by_id[name] for name in names], names):
            sizes = [text_width(text, _LABEL) + 2 for text in texts]
            centres = spread([at for at, _ in found], sizes, low, high)
            if centres is not None:
                break
            self.shortened = True
        for text, centre in zip(texts, centres or [], strict=False):
            if where == "north":
                pen.text(centre, y1 + 1.8, _LABEL, text, "middle")
            elif where == "south":
                pen.text(centre, y0 - 1.8 - ASCENT * _LABEL, _LABEL, text, "middle")
            elif where == "east":
                pen.text(x0 - 1.8, centre, _LABEL, text, "middle", 90)
            else:
                pen.text(x1 + 1.8 + ASCENT * _LABEL, centre, _LABEL, text, "middle", 90)

    def _middle(self, piece: Piece) -> float:
        """Middle of a piece along its side (paper mm)."""
        side = self._sides[piece.side_id]
        corners = self._under.corners(side, piece)
        axis = 0 if is_lengthwise(side.side) else 1
        return (corners[0][axis] + corners[1][axis]) / 2

    def _draw_splices(self, pen: Pen) -> list[Box]:
        """Mark splices, and write where they are if there is room inside; returns the paper that takes."""
        x0, y0, x1, y1 = self._under.inner_box()
        by_side: dict[Side, list[tuple[float, str]]] = {}
        tick = 2.6 * self._under.scale / ticks_to_mm(1)
        for piece in self._pieces:
            if not piece.side_start_ticks:
                continue
            side = self._sides[piece.side_id]
            along, ring = side.start_offset_ticks + piece.side_start_ticks, self._under.ring
            edge = self._under.at(*self._under.on_side(side.side, along, ring))
            inside = self._under.at(*self._under.on_side(side.side, along, ring + tick))
            pen.line(THIN, edge, inside)
            place = inside[0 if is_lengthwise(side.side) else 1]
            by_side.setdefault(side.side, []).append((place, f"splice {self._splice(piece)}"))
        if x1 - x0 < 90 or y1 - y0 < 34:
            return []
        notes = [
            note for where, found in by_side.items() for note in self._splice_notes(where, sorted(found))
        ]
        for note in notes:
            pen.shape(LETTERING, note)
        return [note_box(note) for note in notes]

    def _splice_notes(self, where: Side, found: Sequence[tuple[float, str]]) -> list[Note]:
        """What is written about the splices of one side; nothing where they have no room side by side."""
        x0, y0, x1, y1 = self._under.inner_box()
        flat = is_lengthwise(where)
        sizes = [text_width(text, _SPLICE) + 2 if flat else 1.4 * _SPLICE for _, text in found]
        # words beside an upright side keep clear of the bands that flat sides write in
        low, high = (x0, x1) if flat else (y0 + _BAND, y1 - _BAND)
        centres = spread([at for at, _ in found], sizes, low, high) or []
        middle = 0.36 * _SPLICE
        notes = []
        for (_, text), centre in zip(found, centres, strict=False):
            if flat:
                y = y1 - _INSIDE - ASCENT * _SPLICE if where == "north" else y0 + _INSIDE
                notes.append(Note(centre, y, _SPLICE, text, "middle"))
            elif where == "east":
                notes.append(Note(x0 + _INSIDE, centre - middle, _SPLICE, text))
            else:
                notes.append(Note(x1 - _INSIDE, centre - middle, _SPLICE, text, "end"))
        return notes
