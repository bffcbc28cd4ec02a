"""Measured outlines with straight sides: rectangles, tapered tops, quadrilaterals and polygons."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, model_validator

from edgewright.compass import CORNERS, Corner
from edgewright.job_fields import AsTuple, Between, JobFaultsError, PerKey, Section, say
from edgewright.job_outline_base import (
    SHAPE,
    Box,
    OutlineFault,
    OutlineTable,
    Part,
    Size,
    Sizes,
    mm_text,
    triangle_faults,
)
from edgewright.job_top import CornerLengths, optional, required
from edgewright.units import Length

__all__ = ["Clip", "Clips", "Polygon", "Quad", "Rectangle", "RegularPolygon", "Tapered"]

CutBack = Annotated[Length, Between("0 in", "10 ft", above=True, hint="measure both legs from the corner")]


class Clip(Section):
    """The cut-back of one clipped corner."""

    along: CutBack = required("cut-back along the length")
    across: CutBack = required("cut-back across the length, along the width")


class Clips(Section):
    """Clipped corners: one cut-back for all four, or one for each corner that is clipped."""

    along: CutBack | None = optional("cut-back of all corners along the length", "each corner by itself")
    across: CutBack | None = optional("cut-back of all corners across the length", "each corner by itself")
    south_west: Clip | None = optional("cut-back of the south-west corner", "not clipped by itself")
    south_east: Clip | None = optional("cut-back of the south-east corner", "not clipped by itself")
    north_east: Clip | None = optional("cut-back of the north-east corner", "not clipped by itself")
    north_west: Clip | None = optional("cut-back of the north-west corner", "not clipped by itself")

    @model_validator(mode="after")
    def _all_or_each(self) -> Clips:
        faults: list[OutlineFault] = []
        each = [corner for corner in CORNERS if getattr(self, corner) is not None]
        both = {key: getattr(self, key) for key in ("along", "across")}
        given = [key for key, length in both.items() if length is not None]
        if given and each:
            message = (
                f"{say(both[given[0]])} is given beside {each[0]}: clip all corners alike or each by itself"
            )
            faults.append(((given[0],), message))
        elif len(given) == 1:
            other = "across" if given == ["along"] else "along"
            faults.append(((given[0],), f"{say(both[given[0]])} is given without {other}: measure both legs"))
        if faults:
            raise JobFaultsError(faults)
        return self

    def __getitem__(self, corner: Corner) -> Clip | None:
        if self.along is not None and self.across is not None:
            return Clip(along=self.along, across=self.across)
        clip: Clip | None = getattr(self, corner)
        return clip


class Rectangle(OutlineTable):
    """A rectangle whose corners are sharp, round or clipped."""

    shape: Literal["rectangle"] = SHAPE
    length: Size = required("east to west")
    width: Size = required("north to south")
    corner_radius: Annotated[CornerLengths, PerKey(CORNERS, Between("0 in", "10 ft"))] = Field(
        default_factory=CornerLengths, description="radius of the corners: one length or a table of corners"
    )
    clipped: Clips | None = optional(
        "clipped corners: {along, across} for all, or a table of corners", "none unless given"
    )

    def clip(self, corner: Corner) -> Clip | None:
        """Cut-back of a corner, None where it is not clipped."""
        return None if self.clipped is None else self.clipped[corner]

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Corners that are both round and clipped, or that do not fit on a side."""
        for corner in CORNERS:
            radius = self.corner_radius[corner]
            if radius.exact_mm and self.clip(corner) is not None:
                name = corner.replace("_", "-")
                message = (
                    f"{say(radius)} is given beside clipped: the {name} corner is round or clipped, not both"
                )
                yield ("corner_radius", corner), message
                return
        for at, corner in enumerate(CORNERS):
            after = CORNERS[(at + 1) % 4]
            size, name = (self.width, "width") if at % 2 else (self.length, "length")
            here, there = self._reach(corner, at % 2), self._reach(after, at % 2)
            if here + there > size.exact_mm:
                worse = corner if here >= there else after
                alike = self.clipped is not None and self.clipped.along is not None
                place = ("corner_radius",) if self.clip(worse) is None else ("clipped",)
                yield (
                    place if alike else (*place, worse),
                    f"{mm_text(here)} at the {corner.replace('_', '-')} and {mm_text(there)} at the "
                    f"{after.replace('_', '-')} corner do not fit the {name} of {say(size)}: "
                    "together they may reach no further",
                )
                return

    def _reach(self, corner: Corner, axis: int) -> Fraction:
        clip = self.clip(corner)
        if clip is None:
            return self.corner_radius[corner].exact_mm
        return (clip.across if axis else clip.along).exact_mm

    @property
    def box(self) -> Box:
        """Length and width."""
        return self.length.exact_mm, self.width.exact_mm


class Tapered(OutlineTable):
    """A top whose ends are parallel and of different widths."""

    shape: Literal["tapered"] = SHAPE
    length: Size = required("square to the ends")
    west_width: Part = required("width of the west end")
    east_width: Part = required("width of the east end")
    square_side: Literal["south", "north", "centre"] = required(
        'the side square to both ends; "centre" if both sides taper alike'
    )

    @property
    def box(self) -> Box:
        """Length and the greater width."""
        return self.length.exact_mm, max(self.west_width.exact_mm, self.east_width.exact_mm)


class Quad(OutlineTable):
    """Four straight sides out of square: all sides and both diagonals."""

    shape: Literal["quad"] = SHAPE
    south: Part = required("length of the south side")
    east: Part = required("length of the east side")
    north: Part = required("length of the north side")
    west: Part = required("length of the west side")
    diagonals: Annotated[
        tuple[Annotated[Length, Between("1 in", "30 ft")], ...], AsTuple(2, 2, "the two diagonals")
    ] = required("south-west to north-east, then south-east to north-west")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Sides and a diagonal that close no triangle."""
        for number, triangles in enumerate(
            ((("south", "east"), ("west", "north")), (("south", "west"), ("east", "north")))
        ):
            found: dict[tuple[str | int, ...], str] = {}
            for one, other in triangles:
                names = (one, other, f"diagonals[{number}]")
                places = ((one,), (other,), ("diagonals", number))
                lengths = (getattr(self, one), getattr(self, other), self.diagonals[number])
                found = dict(triangle_faults(names, places, lengths)) | found
            yield from found.items()


class RegularPolygon(OutlineTable):
    """All sides and angles alike."""

    one_of = ("across_flats", "across_corners", "side")

    shape: Literal["regular_polygon"] = SHAPE
    sides: Annotated[int, Field(ge=3, le=64)] = required("how many sides")
    across_flats: Size | None = optional("from a side to the one opposite; an even number of sides only")
    across_corners: Size | None = optional("from a corner to the one opposite; an even number of sides only")
    side: Part | None = optional("length of one side")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """An odd number of sides has nothing opposite."""
        for key in ("across_flats", "across_corners"):
            length: Length | None = getattr(self, key)
            if length is not None and self.sides % 2:
                opposite = "sides" if key == "across_flats" else "corners"
                message = (
                    f"{say(length)} cannot be measured on {self.sides} sides, no two {opposite} are opposite"
                )
                yield (key,), message


class Polygon(OutlineTable):
    """Straight sides, all measured, and the diagonals from the first corner."""

    shape: Literal["polygon"] = SHAPE
    sides: Sizes = required("every side counter-clockwise, from the first corner: the south side first")
    diagonals: Sizes = required("from the first corner to the third, the fourth, and so on")
    angles: (
        Annotated[
            tuple[Annotated[float, Field(ge=1, le=359, allow_inf_nan=False)], ...],
            AsTuple(3, 64, "angles in degrees"),
        ]
        | None
    ) = optional("inside angles at the corners in degrees, as a check")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Wrong number of diagonals, or triangles that do not close."""
        count = len(self.sides)
        if count < 3:
            yield ("sides",), f"the list has {count} entries: 3 to 64 are allowed (every side of the top)"
            return
        if len(self.diagonals) != count - 3:
            given = len(self.diagonals)
            message = f"the list has {given} entries: {count} sides need exactly {count - 3}, all from the first corner"
            yield ("diagonals",), message
            return
        if self.angles is not None and len(self.angles) != count:
            yield (
                ("angles",),
                f"the list has {len(self.angles)} entries: {count} are allowed, one for each corner",
            )
        spokes = (self.sides[0], *self.diagonals, self.sides[-1])
        names = ["sides[0]", *(f"diagonals[{n}]" for n in range(count - 3)), f"sides[{count - 1}]"]
        places: list[tuple[str | int, ...]] = [
            ("sides", 0),
            *(("diagonals", n) for n in range(count - 3)),
            ("sides", count - 1),
        ]
        for at in range(count - 2):
            yield from triangle_faults(
                (names[at], f"sides[{at + 1}]", names[at + 1]),
                (places[at], ("sides", at + 1), places[at + 1]),
                (spokes[at], self.sides[at + 1], spokes[at + 1]),
            )
