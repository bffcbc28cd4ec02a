"""Strip map: the underside with its strips, a sheet for each layer; pins, zones without pins, and a list to tick.

Strips are glued on with the top face down, so this is an underside view: east is on the left, west on the right.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.compass import SIDES, Side, is_lengthwise
from edgewright.cutlist.model import Piece
from edgewright.cutlist.plan import Plan
from edgewright.cutlist.sheets.chalk import LARGE_CHALK, chalk_marks
from edgewright.cutlist.sheets.common import check_box, paragraph, paragraph_height
from edgewright.cutlist.sheets.pin_marks import draw_no_pin_zones, draw_pins, pin_note
from edgewright.cutlist.sheets.strip_list import StripList, is_to_fit, list_pages, piece_size, splice_words
from edgewright.cutlist.sheets.underside import Underside
from edgewright.cutlist.sheets.wall import BENCH, PAGE, wall_heading, wall_heading_height
from edgewright.display import show_ticks
from edgewright.drawing.lettering import ASCENT, DESCENT, note_box, text_width
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

#: Sizes of the type of names with their lengths, and of names alone, largest first (mm).
_FULL: Final = (9.6, 8.0, 6.6, 5.6)
_ALONE: Final = (9.6, 8.0, 6.6, 5.6, 4.6, 3.8)
#: Room around the ring for names (paper mm).
_OUT: Final = 2.0 + (ASCENT + DESCENT) * _FULL[0]
_FROM_RING: Final = 1.8
#: The map takes at most this share of the page, so that the list has room below it.
_MAP: Final = 0.55
_SPLICE: Final = 4.0
#: Words about splices stand this far inside the ring; the band that they take.
_INSIDE: Final = 3.4
_BAND: Final = 8.0
_HIDDEN_NAMES: Final = (
    "Names that have no room on the drawing stand in the list, in their order from west and from south."
)


def strip_map_figures(plan: Plan, box: PaperBox = (180.0, 250.0)) -> tuple[View, ...]:
    """Draw the underside with its strips: a sheet for each layer, with more for its list if that is long.

    Parameters
    ----------
    plan
        A plan; one that is not ready has no figures.
    box
        Width and height that each figure fills, paper mm, at least 150 x 200.

    Raises
    ------
    GeometryError
        For a box that is too small.
    """
    check_box(box, PAGE)
    if not plan.ready:
        return ()
    count = max(side.layer for side in plan.cut_plan.sides)
    return tuple(view for layer in range(1, count + 1) for view in _LayerMap(plan, box, layer, count).views())


class _LayerMap:
    """The map of one layer."""

    def __init__(self, plan: Plan, box: PaperBox, layer: int, layers: int) -> None:
        self._plan, self._box, self._layer = plan, box, layer
        which = "" if layers == 1 else f", layer {layer} of {layers}"
        self._title = f"UNDERSIDE: strips{which}"
        self._big = "UNDERSIDE" if layers == 1 else f"UNDERSIDE, LAYER {layer} OF {layers}"
        self._sides = {side.id: side for side in plan.cut_plan.sides if side.layer == layer}
        self._pieces = sorted(
            (piece for piece in plan.cut_plan.pieces if piece.side_id in self._sides),
            key=lambda p: (SIDES.index(self._sides[p.side_id].side), p.side_start_ticks),
        )
        self._names = {where: self._names_of(where) for where in SIDES}

    def views(self) -> list[View]:
        """The map with the first rows of the list, and the rest of the list."""
        # where names are left out a sentence says so, and takes room itself
        scale = self._scale(self._notes(hidden=True))
        under = self._place(scale, 0.0)
        placed = {where: self._placed(under, where) for where in SIDES}
        notes = self._notes(hidden=any(found is None for found in placed.values()))
        rooms = [self._list_room(scale, notes), self._box[1] - self._heading_height()]
        lists = list_pages(self._plan, self._pieces, self._box[0], rooms)
        return [
            self._map(scale, notes, lists[0]),
            *(self._more(number, rows) for number, rows in enumerate(lists[1:], start=2)),
        ]

    def _map(self, scale: float, notes: Sequence[str], rows: StripList) -> View:
        pen = Pen()
        wall_heading(pen, self._box, self._big, self._lines(scale))
        spare = max(0.0, self._list_room(scale, notes) - rows.height)
        bottom = rows.draw(pen, 0.0, spare / 2)
        y = bottom + self._notes_height(notes)
        free = self._box[1] - self._heading_height() - y - self._tall(scale)
        under = self._place(scale, y + free / 2 + _OUT)
        pen.shape(KEEP, under.outline())
        for piece in self._pieces:
            pen.outline(PANEL, under.corners(self._sides[piece.side_id], piece))
        draw_pins(pen, under, self._layer)
        draw_no_pin_zones(pen, under, self._layer)
        for where in SIDES:
            self._draw_names(pen, under, where)
        taken = [*self._draw_seams(pen, under), *self._draw_splices(pen, under)]
        chalk_marks(pen, under.inner_box(), taken, LARGE_CHALK)
        for note in notes:
            y = paragraph(pen, 0, y, note, self._box[0], BENCH)
        return pen.view(f"underside-{self._layer}", self._title)

    def _more(self, number: int, rows: StripList) -> View:
        pen, title = Pen(), f"{self._title}, continued"
        top = wall_heading(pen, self._box, self._big, [f"Strips, continued. Plan {self._plan.code}."])
        rows.draw(pen, top - rows.height, 0.0)
        return pen.view(f"underside-{self._layer}-{number}", title)

    # how large

    def _heading_height(self) -> float:
        return wall_heading_height(self._box, self._big, self._lines(12.5))

    def _notes_height(self, notes: Sequence[str]) -> float:
        return sum(paragraph_height(note, self._box[0], BENCH) for note in notes) + 1.5

    def _tall(self, scale: float) -> float:
        """Paper height of the ring with the names around it."""
        proud, width = self._plan.cut_plan.proud_ticks, self._plan.cut_plan.finished_ticks[1]
        return ticks_to_mm(width + 2 * proud) / scale + 2 * _OUT

    def _list_room(self, scale: float, notes: Sequence[str]) -> float:
        return self._box[1] - self._heading_height() - self._tall(scale) - self._notes_height(notes)

    def _scale(self, notes: Sequence[str]) -> float:
        cut = self._plan.cut_plan
        length, width = (ticks_to_mm(size + 2 * cut.proud_ticks) for size in cut.finished_ticks)
        left = self._box[1] - self._heading_height() - self._notes_height(notes)
        high = min(_MAP * self._box[1], left) - 2 * _OUT
        return pick_scale([(length, self._box[0] - 2 * _OUT), (width, high)]) or 200.0

    def _place(self, scale: float, bottom: float) -> Underside:
        proud = ticks_to_mm(self._plan.cut_plan.proud_ticks) / scale
        length = ticks_to_mm(self._plan.cut_plan.finished_ticks[0]) / scale
        return Underside(self._plan, (self._box[0] - length) / 2, bottom + proud, scale)

    # what is written

    def _lines(self, scale: float) -> list[str]:
        return [
            "The top lies face DOWN: east is on the left, west on the right.",
            f"{scale_text(scale).capitalize()}. Plan {self._plan.code}.",
        ]

    def _notes(self, *, hidden: bool) -> list[str]:
        plan = self._plan
        notes = [pin_note(Underside(plan, 0, 0, 1), self._layer)]
        if plan.cut_plan.proud_ticks:
            proud = show_ticks(plan.cut_plan.proud_ticks, plan.job.units)
            notes.append(f"Strips stand {proud} proud until flush-trimmed.")
        if plan.job.top.seams:
            notes.append("Dashed: seam in the top.")
        if hidden:
            notes.append(_HIDDEN_NAMES)
        return notes

    def _names_of(self, where: Side) -> list[Piece]:
        """Pieces of a side as they follow one another on the page, from left or from below."""
        here = [piece for piece in self._pieces if self._sides[piece.side_id].side == where]
        return sorted(here, key=lambda p: p.side_start_ticks, reverse=is_lengthwise(where))

    def _text(self, piece: Piece) -> str:
        fit = ", to fit" if is_to_fit(self._sides[piece.side_id], piece) else ""
        return f"{piece.id} {piece_size(self._plan, piece)}{fit}"

    # drawing

    def _draw_seams(self, pen: Pen, under: Underside) -> list[Box]:
        """Draw seams of the top; returns the paper they take."""
        (left, bottom), (right, top) = under.at(0, 0), under.at(*under.size)
        boxes = [(x, bottom, x, top) for x in under.seams("north")]
        boxes += [(left, y, right, y) for y in under.seams("east")]
        for x0, y0, x1, y1 in boxes:
            pen.line(HIDDEN, (x0, y0), (x1, y1))
        return boxes

    def _placed(self, under: Underside, where: Side) -> tuple[float, dict[str, float]] | None:
        """Size of the type and the middle of each text of a side; None where not even the names have room."""
        _, y0, _, y1 = under.outer_box()
        # words beside an upright side must not run into those above and below the ring
        low, high = (0.0, self._box[0]) if is_lengthwise(where) else (y0, y1)
        here = self._names[where]
        axis = 0 if is_lengthwise(where) else 1
        corners = [under.corners(self._sides[piece.side_id], piece) for piece in here]
        wanted = [(outer[0][axis] + outer[1][axis]) / 2 for outer in corners]
        for sizes, words in ((_FULL, [self._text(p) for p in here]), (_ALONE, [p.id for p in here])):
            for size in sizes:
                rooms = [text_width(text, size) + 0.5 * size for text in words]
                centres = spread(wanted, rooms, low, high)
                if centres is not None:
                    return size, dict(zip(words, centres, strict=True))
        return None

    def _draw_names(self, pen: Pen, under: Underside, where: Side) -> None:
        """Names, with lengths where there is room, outside the ring beside their pieces."""
        found = self._placed(under, where)
        if found is None:
            return
        x0, y0, x1, y1 = under.outer_box()
        size, centres = found
        for text, centre in centres.items():
            if where == "north":
                pen.text(centre, y1 + _FROM_RING + DESCENT * size / 2, size, text, "middle")
            elif where == "south":
                pen.text(centre, y0 - _FROM_RING - ASCENT * size, size, text, "middle")
            elif where == "east":
                pen.text(x0 - _FROM_RING, centre, size, text, "middle", 90)
            else:
                pen.text(x1 + _FROM_RING + ASCENT * size, centre, size, text, "middle", 90)

    def _draw_splices(self, pen: Pen, under: Underside) -> list[Box]:
        """Mark splices, and write where they are if there is room inside; returns the paper that takes."""
        x0, y0, x1, y1 = under.inner_box()
        by_side: dict[Side, list[tuple[float, str]]] = {}
        tick = 2.6 * under.scale / ticks_to_mm(1)
        for piece in self._pieces:
            if not piece.side_start_ticks:
                continue
            side = self._sides[piece.side_id]
            along, ring = side.start_offset_ticks + piece.side_start_ticks, under.ring
            edge = under.at(*under.on_side(side.side, along, ring))
            inside = under.at(*under.on_side(side.side, along, ring + tick))
            pen.line(THIN, edge, inside)
            place = inside[0 if is_lengthwise(side.side) else 1]
            by_side.setdefault(side.side, []).append((place, splice_words(self._plan, side, piece)))
        if x1 - x0 < 90 or y1 - y0 < 34:
            return []
        notes = [
            note
            for where, found in by_side.items()
            for note in _splice_notes(under.inner_box(), where, sorted(found))
        ]
        for note in notes:
            pen.shape(LETTERING, note)
        return [note_box(note) for note in notes]


def _splice_notes(inner: Box, where: Side, found: Sequence[tuple[float, str]]) -> list[Note]:
    """What is written about the splices of one side; nothing where they have no room side by side."""
    x0, y0, x1, y1 = inner
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
