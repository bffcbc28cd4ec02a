"""The tables of a job file about the old top: job, top and trim; and how a key is declared."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Final, Literal

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.compass import SIDES, Corner, PerSide, Side
from edgewright.job_defects import TopDefect
from edgewright.job_fields import AsTuple, Between, JobFaultsError, Section, say
from edgewright.job_thickness import AnyTop
from edgewright.job_values import Text
from edgewright.trade import CHOICE, Default, Material, inch_text
from edgewright.units import Length, Units

__all__ = [
    "NONE",
    "ZERO",
    "CornerLengths",
    "FinishedEdge",
    "FinishedEdges",
    "JobInfo",
    "Seam",
    "SideLengths",
    "Top",
    "TopSize",
    "Trim",
    "as_length",
    "default",
    "optional",
    "required",
]

ZERO: Final = Length("0 in", Fraction(0))
NONE: Final = "none unless given"

Side4 = Annotated[Length, Between("0 in", "20 ft")]
Radius = Annotated[Length, Between("0 in", "10 ft")]
TopSize = Annotated[Length, Between("6 in", "20 ft", hint="measure from edge to edge")]
Reading = Annotated[Length, Between("1/4 in", "4 in", hint="measure the top itself with a caliper")]


def as_length(mm: Fraction) -> Length:
    """Length of a trade default, with the text a person would write for it."""
    return Length(inch_text(mm), mm)


def required(about: str) -> Any:
    """Declare a key without default."""
    return Field(description=about)


def optional(about: str, origin: str = "not given") -> Any:
    """Declare a key that may be left out; ``origin`` says what then holds."""
    return Field(default=None, description=about, json_schema_extra={"x-origin": origin})


def default(value: Any, about: str, origin: str = CHOICE) -> Any:
    """Declare a key with a default; a `Default` of the trade brings its own origin."""
    if isinstance(value, Default):
        value, origin = value.value, value.origin
    elif value == ZERO or value == ():
        origin = NONE
    if isinstance(value, Fraction):
        value = as_length(value)
    elif isinstance(value, tuple) and value and isinstance(value[0], Fraction):
        value = tuple(as_length(mm) for mm in value)
    return Field(default=value, description=about, json_schema_extra={"x-origin": origin})


class JobInfo(Section):
    """[job]: whose table it is and how it is written down."""

    title: Annotated[str, Text(200)] = required("name of the job in any script, 1 to 200 characters")
    units: Literal["in", "mm"] | None = optional(
        "unit of bare numbers, and of what is shown", "shown in inches"
    )
    bench_grid: Annotated[Length, Between("0.1 mm", "5 mm")] | None = optional(
        "step that chosen sizes are snapped to", f'1/32 in, or 0.5 mm with units = "mm"; {CHOICE}'
    )
    date: Annotated[str, Text(20)] | None = optional('date as it shall be printed, in quotes, like "2 May"')
    revision: Annotated[str, Text(12)] | None = optional(
        'revision as it shall be printed, in quotes, like "B"'
    )
    shop: Annotated[str, Text(30)] | None = optional(
        "whose sheets these are, as it stands in their title block"
    )
    customer: Annotated[str, Text(60)] | None = optional(
        "for whom it is, as it stands on the customer's page"
    )
    drawn_by: Annotated[str, Text(20)] | None = optional("who made the plan, as it stands in the title block")
    approved_by: Annotated[str, Text(20)] | None = optional("who checked it, as it stands in the title block")

    label_width: Annotated[Length, Between("58 mm", "180 mm")] | None = optional(
        "width of the labels of the pieces", f"60 mm; {CHOICE}"
    )
    label_height: Annotated[Length, Between("40 mm", "200 mm")] | None = optional(
        "height of the labels of the pieces", f"45 mm; {CHOICE}"
    )

    @model_validator(mode="after")
    def _grid_in_whole_ticks(self) -> JobInfo:
        grid = self.bench_grid
        if grid is not None and (grid.exact_mm * 320).denominator != 1:
            message = f"{say(grid)} is not a whole number of 1/320 mm: use 64ths of an inch or 0.1 mm"
            raise JobFaultsError([(("bench_grid",), message)])
        return self

    @property
    def shown_units(self) -> Units:
        """Unit of what is shown."""
        return self.units or "in"

    @property
    def label_size(self) -> tuple[Length, Length]:
        """Width and height of a label."""
        return self.label_width or Length("60 mm", Fraction(60)), self.label_height or Length(
            "45 mm", Fraction(45)
        )

    @property
    def grid(self) -> Length:
        """Bench grid, given or by units."""
        if self.bench_grid is not None:
            return self.bench_grid
        return (
            as_length(trade.GRID_INCH.value) if self.shown_units == "in" else Length("0.5 mm", Fraction(1, 2))
        )


class Seam(Section):
    """A panel seam right across the top."""

    across: Literal["length", "width"] = required(
        '"length": the seam runs north to south and divides the length; "width": it divides the width'
    )
    at: Annotated[Length, Between("0 in", "20 ft", above=True)] = required(
        "from the west (length) or south edge"
    )


class FinishedEdge(Section):
    """The old finish of one edge."""

    depth: Annotated[Length, Between("0 in", "6 in")] = default(ZERO, "how deep finish, tape or profile goes")
    arris_radius: Annotated[Length, Between("0 in", "2 in")] = default(ZERO, "radius of the old arris")


class FinishedEdges(Section):
    """The old finish of each edge."""

    north: FinishedEdge = Field(default_factory=FinishedEdge, description="the old finish of the north edge")
    east: FinishedEdge = Field(default_factory=FinishedEdge, description="the old finish of the east edge")
    south: FinishedEdge = Field(default_factory=FinishedEdge, description="the old finish of the south edge")
    west: FinishedEdge = Field(default_factory=FinishedEdge, description="the old finish of the west edge")

    def __getitem__(self, side: Side) -> FinishedEdge:
        edge: FinishedEdge = getattr(self, side)
        return edge


class SideLengths(Section):
    """One length for each side."""

    north: Side4 = required("at the north side")
    east: Side4 = required("at the east side")
    south: Side4 = required("at the south side")
    west: Side4 = required("at the west side")

    def per_side(self) -> PerSide[Length]:
        """Return the same as a plain value."""
        return PerSide(self.north, self.east, self.south, self.west)


class CornerLengths(Section):
    """One length for each corner."""

    south_west: Radius = default(ZERO, "at the south-west corner")
    south_east: Radius = default(ZERO, "at the south-east corner")
    north_east: Radius = default(ZERO, "at the north-east corner")
    north_west: Radius = default(ZERO, "at the north-west corner")

    def __getitem__(self, corner: Corner) -> Length:
        length: Length = getattr(self, corner)
        return length


class Top(AnyTop):
    """[top]: the old top as measured."""

    length: TopSize = required("east to west")
    width: TopSize = required("north to south")
    thickness: Annotated[
        tuple[Reading, ...], AsTuple(1, 50, "thickness readings with a caliper", single=True)
    ] = required("one caliper reading or a list of readings")
    material: Material = required("what the top is made of")
    corner_radius: Radius = default(ZERO, "radius of the old corners, seen from above")
    diagonals: (
        Annotated[tuple[Annotated[Length, Between("6 in", "30 ft")], ...], AsTuple(2, 2, "the two diagonals")]
        | None
    ) = optional("the two diagonals, south-west to north-east first")
    seams: Annotated[tuple[Seam, ...], AsTuple(0, 50, 'tables like {across = "length", at = "40 in"}')] = (
        default((), "panel seams in the top")
    )
    defects: Annotated[
        tuple[TopDefect, ...], AsTuple(0, 200, "boxes, each under its own [[top.defects]]")
    ] = default((), "holes, screw holes, dadoes and repairs that no strip may include")
    finished_edge: FinishedEdges = Field(
        default_factory=FinishedEdges, description="the old finish of each edge"
    )
    glue_face_bare: bool = default(True, "whether the underside is bare wood where strips are glued")
    grain: Literal["length", "width"] | None = optional(
        "solid wood: what the grain of the top runs along", "along the longer extent"
    )

    @property
    def grain_along(self) -> Literal["length", "width"]:
        """What the grain runs along: as given, else the longer extent."""
        if self.grain is not None:
            return self.grain
        return "length" if self.length.exact_mm >= self.width.exact_mm else "width"


class Trim(Section):
    """[trim]: what comes off, kerf included: an amount for each side or a finished size."""

    north: Side4 = default(ZERO, "amount off the north side")
    east: Side4 = default(ZERO, "amount off the east side")
    south: Side4 = default(ZERO, "amount off the south side")
    west: Side4 = default(ZERO, "amount off the west side")
    finished_width: Annotated[Length, Between("2 in", "20 ft")] | None = optional("width that shall be left")
    width_from: Literal["north", "south", "both"] = default(
        "both", "the side that finished_width is cut from"
    )
    finished_length: Annotated[Length, Between("2 in", "20 ft")] | None = optional(
        "length that shall be left"
    )
    length_from: Literal["east", "west", "both"] = default(
        "both", "the side that finished_length is cut from"
    )

    @model_validator(mode="after")
    def _one_way_to_say_it(self) -> Trim:
        faults: list[tuple[tuple[str | int, ...], str]] = []
        axes: tuple[tuple[str, tuple[Side, ...]], ...] = (
            ("width", ("north", "south")),
            ("length", ("east", "west")),
        )
        for axis, sides in axes:
            size = getattr(self, f"finished_{axis}")
            amounts = [
                f"{side} = {say(getattr(self, side))}" for side in sides if side in self.model_fields_set
            ]
            if size is not None and amounts:
                beside = " and ".join(amounts)
                message = f"{say(size)} is given beside {beside}: give the size or the amounts, not both"
                faults.append(((f"finished_{axis}",), message))
            if size is None and f"{axis}_from" in self.model_fields_set:
                word = getattr(self, f"{axis}_from")
                message = f'"{word}" says nothing without finished_{axis}: add it or leave this out'
                faults.append(((f"{axis}_from",), message))
        if faults:
            raise JobFaultsError(faults)
        return self

    def amounts(self, top: Top) -> PerSide[Fraction]:
        """Exact mm that come off each side of ``top``; negative where a finished size exceeds the top."""
        off: dict[Side, Fraction] = {side: getattr(self, side).exact_mm for side in SIDES}
        for size, old, start, low, high in (
            (self.finished_width, top.width, self.width_from, "south", "north"),
            (self.finished_length, top.length, self.length_from, "west", "east"),
        ):
            if size is not None:
                both = old.exact_mm - size.exact_mm
                off[low] = both / 2 if start == "both" else both if start == low else Fraction(0)  # type: ignore[index]
                off[high] = both - off[low]  # type: ignore[index]
        return PerSide(**off)
