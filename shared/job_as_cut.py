"""The table [as_cut] of a job file: what was measured after the saw stopped, so that the rest is planned from it.

Here stand the faults that the table and the old top show between them. What only the plan shows that was being cut
is found by `edgewright.cutlist.as_cut`.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated

from pydantic import Field

from edgewright.compass import OPPOSITE, SIDES, Side, is_lengthwise
from edgewright.job_checks import LEAST_LEFT
from edgewright.job_fields import AsTuple, Between, Section, say
from edgewright.job_shop import Kerf, Offset
from edgewright.job_top import NONE, ZERO, Top, default, optional, required
from edgewright.trade import inch_text
from edgewright.units import Length

__all__ = ["AsCut", "AsCutPiece", "SidesOff", "as_cut_faults"]

Fault = tuple[tuple[str | int, ...], str]

PanelSize = Annotated[
    Length, Between(inch_text(LEAST_LEFT), "20 ft", hint="measure the panel as it lies there")
]
SideOff = Annotated[Length, Between("0 in", "20 ft")]
PieceLength = Annotated[Length, Between("0 in", "20 ft", above=True, hint="only what is sound of it")]


class AsCutPiece(Section):
    """[[as_cut.piece]]: what came off in one cut."""

    side: Side = required("the side it came off")
    length: PieceLength = required("along the cut")
    width: PieceLength = required("across the cut, at the narrowest place")
    usable: bool = default(True, "false for one that was spoiled")
    cut: Annotated[int, Field(ge=1, le=1000)] | None = optional(
        "number of the cut it came off in", "the pieces of a side stand in the order of its cuts"
    )


class SidesOff(Section):
    """What has come off each side so far."""

    north: SideOff = default(ZERO, "off the north side")
    east: SideOff = default(ZERO, "off the east side")
    south: SideOff = default(ZERO, "off the south side")
    west: SideOff = default(ZERO, "off the west side")

    def __getitem__(self, side: Side) -> Length:
        length: Length = getattr(self, side)
        return length


class AsCut(Section):
    """[as_cut]: cuts that are made and what was measured then; the rest is planned again."""

    cuts: Annotated[int, Field(ge=0, le=1000)] = required(
        "how many cuts of the plan are made; 0 after a test cut in scrap"
    )
    length: PanelSize | None = optional("the panel now, east to west", "no cut has changed it")
    width: PanelSize | None = optional("the panel now, north to south", "no cut has changed it")
    off: SidesOff | None = optional(
        "instead of length and width: what has come off each side in all, kerfs included, however it was planned",
        "follows from length, width and the plan",
    )
    kerf: Kerf | None = optional("kerf of the test cut", "as under [saw]")
    guide_offset: Offset | None = optional(
        "guide to the near side of the kerf, by the test cut", "as under [saw]"
    )
    pieces: Annotated[
        tuple[AsCutPiece, ...], AsTuple(0, 1000, "pieces, each under its own [[as_cut.piece]]")
    ] = Field(
        default=(),
        alias="piece",
        description="what came off, spoiled pieces as well",
        json_schema_extra={"x-origin": NONE},
    )

    def measured(self, side: Side) -> tuple[str, Length | None]:
        """Key and size of the panel now, across ``side``."""
        return ("width", self.width) if is_lengthwise(side) else ("length", self.length)


def as_cut_faults(top: Top, as_cut: AsCut) -> Iterator[Fault]:
    """Sizes that no cuts through this top can have left."""
    sides: tuple[Side, Side] = ("north", "east")
    for side in sides:
        key, panel = as_cut.measured(side)
        old = top.width if is_lengthwise(side) else top.length
        if panel is None:
            continue
        if panel.exact_mm > old.exact_mm:
            yield (
                ("as_cut", key),
                f"{say(panel)} is larger than the old top: at most its {key} of {say(old)} is allowed, for a saw "
                "only takes away; measure again, or put [top] right",
            )
            continue
        off = [p.width for p in as_cut.pieces if is_lengthwise(p.side) == is_lengthwise(side)]
        if panel.exact_mm + sum((w.exact_mm for w in off), Fraction(0)) > old.exact_mm:
            listed = " and ".join([say(panel), *map(say, off)])
            yield (
                ("as_cut", key),
                f"{listed} together are more than the old top's {key} of {say(old)}: measure panel and pieces again",
            )
    yield from _piece_faults(top, as_cut)
    if as_cut.off is not None:
        yield from _off_faults(top, as_cut, as_cut.off)


def _piece_faults(top: Top, as_cut: AsCut) -> Iterator[Fault]:
    numbers: set[int] = set()
    for index, piece in enumerate(as_cut.pieces):
        place = ("as_cut", "piece", index)
        along, old = ("length", top.length) if is_lengthwise(piece.side) else ("width", top.width)
        if piece.length.exact_mm > old.exact_mm:
            yield (
                (*place, "length"),
                f"{say(piece.length)} is longer than the {piece.side} side: at most the old top's {along} of "
                f"{say(old)} is allowed",
            )
        if piece.cut is not None:
            if piece.cut > as_cut.cuts:
                made = f"only {as_cut.cuts} are made" if as_cut.cuts else "none is made"
                yield (
                    (*place, "cut"),
                    f"{piece.cut} is no cut that was made: cuts = {as_cut.cuts} says that {made}",
                )
            elif piece.cut in numbers:
                yield (*place, "cut"), f"{piece.cut} is the cut of an earlier piece: a cut frees one piece"
            numbers.add(piece.cut)
    if len(as_cut.pieces) > as_cut.cuts:
        yield (
            ("as_cut", "piece", as_cut.cuts),
            f"this is piece {as_cut.cuts + 1}, and cuts = {as_cut.cuts}: at most {as_cut.cuts} can have come off, for "
            "a cut frees one piece",
        )


def _off_faults(top: Top, as_cut: AsCut, off: SidesOff) -> Iterator[Fault]:
    """What came off by sides, where it contradicts the top, the cuts or the pieces."""
    for key in ("length", "width"):
        panel = getattr(as_cut, key)
        if panel is not None:
            yield ("as_cut", key), f"{say(panel)} is given beside off: give the size of the panel, or off"
    cut_sides = [side for side in SIDES if off[side].exact_mm]
    least = len(cut_sides)
    if least > as_cut.cuts:
        yield (
            ("as_cut", "cuts"),
            f"{as_cut.cuts} is too few: something came off {' and '.join(cut_sides)}, so at least {least} must be made",
        )
    sides: tuple[Side, Side] = ("north", "east")
    for side in sides:
        key, old = ("width", top.width) if is_lengthwise(side) else ("length", top.length)
        here, there = off[side], off[OPPOSITE[side]]
        if here.exact_mm + there.exact_mm > old.exact_mm - LEAST_LEFT:
            yield (
                ("as_cut", "off", side if here.exact_mm >= there.exact_mm else OPPOSITE[side]),
                f"{say(here)} and {say(there)} off the {side} and the {OPPOSITE[side]} side are too much of a {key} of "
                f"{say(old)}: at least {inch_text(LEAST_LEFT)} must be there",
            )
    for side in SIDES:
        indices = [index for index, piece in enumerate(as_cut.pieces) if piece.side == side]
        wide = sum((as_cut.pieces[index].width.exact_mm for index in indices), Fraction(0))
        if indices and wide > off[side].exact_mm:
            yield (
                ("as_cut", "piece", indices[-1], "width"),
                f"the pieces of the {side} side are wider than what came off it, {say(off[side])}: measure again",
            )
    for index, piece in enumerate(as_cut.pieces):
        if piece.cut is None:
            yield (
                ("as_cut", "piece", index, "cut"),
                "is missing: beside off each piece says the number of the cut it came off in",
            )
