"""The tables of a job file about tools, boards, base, room and overrides."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from typing import Annotated, Literal

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.compass import SIDES, PerSide, Side
from edgewright.job_defects import BoardDefect
from edgewright.job_fields import (
    AsTuple,
    Between,
    JobFaultsError,
    PerKey,
    Section,
    say,
)
from edgewright.job_top import ZERO, SideLengths, default, optional, required
from edgewright.job_values import Text
from edgewright.trade import COMMON, Material, inch_text
from edgewright.units import Length

__all__ = [
    "Base",
    "Board",
    "Kerf",
    "Offset",
    "Override",
    "Pins",
    "Router",
    "Saw",
    "Seating",
    "WallDistances",
]

Offset = Annotated[
    Length,
    Between("1/8 in", "24 in", hint="find it by a test cut: from the guide to the near side of the kerf"),
]
Kerf = Annotated[Length, Between("0.5 mm", "6.4 mm", hint="a saw kerf is 1/32 to 1/4 in: measure a test cut")]
BoardSize = Annotated[Length, Between("0 in", "30 ft", above=True)]
Wall = Annotated[Length, Between("0 in", "12 ft", hint="measure from the edge of the old top")]
BoardThickness = Annotated[Length, Between("1/8 in", "4 in")]


class Saw(Section):
    """[saw]: the blade and the guide."""

    kerf: Kerf = default(trade.KERF, "width that the blade turns to dust")
    guide_offset_wide: Offset = default(trade.GUIDE_OFFSET_WIDE, "guide to kerf on the wide side of the shoe")
    guide_offset_narrow: Offset = default(
        trade.GUIDE_OFFSET_NARROW, "guide to kerf on the narrow side of the shoe"
    )
    shoe_side: Literal["wide", "narrow"] = default(
        "wide", "which side of the shoe runs along the guide", COMMON
    )
    guide_side: Literal["keep", "waste"] = default("keep", "which side of the cut the guide lies on", COMMON)
    guide_width: Annotated[Length, Between("1/2 in", "48 in")] = default(
        trade.GUIDE_WIDTH, "width of the guide"
    )
    min_held_width: Annotated[Length, Between("1 in", "48 in")] = default(
        trade.MIN_HELD_WIDTH, "narrowest panel that is ripped hand-held"
    )
    defect_clearance: Annotated[Length, Between("0 in", "2 in")] = default(
        trade.DEFECT_CLEARANCE, "what stays clear of a defect along a strip"
    )

    @property
    def guide_offset(self) -> Length:
        """Offset on the side of the shoe that runs along the guide."""
        return self.guide_offset_wide if self.shoe_side == "wide" else self.guide_offset_narrow


class Router(Section):
    """[router]: the bit's bearing."""

    bearing_height: Annotated[Length, Between("1/32 in", "1 in")] = default(
        trade.BEARING_HEIGHT, "height of the bearing"
    )


class Pins(Section):
    """[pins]: what the nailer holds."""

    lengths: Annotated[
        tuple[Annotated[Length, Between("1/4 in", "4 in")], ...], AsTuple(1, 50, "pin lengths on hand")
    ] = default(trade.PIN_LENGTHS, "pin lengths on hand")
    spacing: Annotated[Length, Between("1 in", "24 in")] = default(trade.PIN_SPACING, "from pin to pin")


class Board(Section):
    """[[stock]]: a board on hand, or one for sale (with a price)."""

    name: Annotated[str, Text(80)] = required('a name of its own, like "rack 1"')
    length: BoardSize = required("along the strips")
    width: BoardSize = required("across the strips")
    thickness: BoardThickness = required("thickness of the board")
    material: Material | None = optional("what it is made of", "the top's material")
    count: Annotated[int, Field(ge=1, le=10_000)] | None = optional(
        "how many", "1 on hand; for sale as many as needed"
    )
    price: Annotated[float, Field(ge=0, le=1_000_000, allow_inf_nan=False)] | None = optional(
        "price of one; with a price the board is for sale", "on hand"
    )
    finished_depth: Annotated[Length, Between("0 in", "6 in")] = default(
        ZERO, "old edge to be cleaned off both long edges"
    )
    defects: Annotated[tuple[BoardDefect, ...], AsTuple(0, 200, "tables like {name, along}")] = default(
        (), "knots and holes that no strip may include; the board is then one by itself"
    )

    @model_validator(mode="after")
    def _wood_between_the_edges(self) -> Board:
        if 2 * self.finished_depth.exact_mm >= self.width.exact_mm:
            message = (
                f"{say(self.finished_depth)} off both long edges leaves nothing of {say(self.width)}: "
                "less than half the width is allowed"
            )
            raise JobFaultsError([(("finished_depth",), message)])
        return self

    @property
    def for_sale(self) -> bool:
        """Whether it must be bought."""
        return self.price is not None

    @property
    def limit(self) -> int | None:
        """How many there are at most; None for as many as needed."""
        return self.count if self.count is not None or self.for_sale else 1

    @property
    def price_cents(self) -> int | None:
        """Price in whole cents, halves up; None when on hand."""
        if self.price is None:
            return None
        return int((Decimal(repr(self.price)) * 100).to_integral_value(ROUND_HALF_UP))


class Base(Section):
    """[base]: what the top stands on; an overhang goes from the old top's edge to the apron or base."""

    overhang: Annotated[SideLengths, PerKey(SIDES, Between("0 in", "20 ft"))] | None = optional(
        "old top edge to the apron's face: one length or a table of four"
    )
    footprint_length: Annotated[Length, Between("1 in", "20 ft")] | None = optional(
        "length over the apron or base"
    )
    footprint_width: Annotated[Length, Between("1 in", "20 ft")] | None = optional(
        "width over the apron or base"
    )
    apron_depth: Annotated[Length, Between("0 in", "48 in")] | None = optional(
        "apron below the old underside"
    )
    moved: bool = default(False, "whether the base is centred again under the new top")
    screw_length: Annotated[Length, Between("1/4 in", "12 in")] | None = optional("screws that hold the top")
    base_thickness: Annotated[Length, Between("0 in", "12 in")] | None = optional(
        "wood or metal the screws pass"
    )

    @model_validator(mode="after")
    def _one_way_to_say_it(self) -> Base:
        sizes = {k: getattr(self, k) for k in ("footprint_length", "footprint_width")}
        given = [key for key, size in sizes.items() if size is not None]
        if self.overhang is not None and given:
            message = "overhang is given beside a footprint: give the overhang or the footprint, not both"
            raise JobFaultsError([((given[0],), f"{say(sizes[given[0]])} cannot be used, for {message}")])
        if len(given) == 1:
            missing = next(key for key in sizes if key not in given)
            message = f"{say(sizes[given[0]])} is given without {missing}: give both, or the overhang"
            raise JobFaultsError([((given[0],), message)])
        return self


class WallDistances(Section):
    """How far walls or furniture stand from the old top, for the sides that have any."""

    north: Wall | None = optional("old north edge to what stands there")
    east: Wall | None = optional("old east edge to what stands there")
    south: Wall | None = optional("old south edge to what stands there")
    west: Wall | None = optional("old west edge to what stands there")

    def per_side(self) -> PerSide[float | None]:
        """Distances in mm, None where nothing is given."""
        lengths: dict[Side, Length | None] = {side: getattr(self, side) for side in SIDES}
        return PerSide.build(lambda side: None if (wall := lengths[side]) is None else wall.mm)


class Seating(Section):
    """[seating]: chairs and knees."""

    table_height: Annotated[Length, Between("10 in", "60 in", hint="floor to the upper face")] | None = (
        optional("floor to the upper face of the old top")
    )
    arm_height: Annotated[Length, Between("5 in", "60 in", hint="floor to the chair arm")] | None = optional(
        "floor to the chair arms"
    )
    seat_height: Annotated[Length, Between("5 in", "50 in", hint="floor to the seat")] | None = optional(
        "floor to the seats"
    )
    seats: Annotated[int, Field(ge=1, le=100)] | None = optional("how many shall sit")
    chair_width: Annotated[Length, Between("10 in", "48 in")] | None = optional(
        "width of a chair on the customer's page", f"{inch_text(trade.CHAIR_WIDTH.value)}; {COMMON}"
    )
    chair_depth: Annotated[Length, Between("10 in", "48 in")] | None = optional(
        "depth of a chair on the customer's page", f"{inch_text(trade.CHAIR_DEPTH.value)}; {COMMON}"
    )
    wall: WallDistances = Field(
        default_factory=WallDistances, description="walls or furniture beside the table"
    )
    accessible: bool = default(False, "whether knee room for a wheelchair is checked")

    @model_validator(mode="after")
    def _seat_below_table(self) -> Seating:
        seat, table = self.seat_height, self.table_height
        if seat is not None and table is not None and seat.exact_mm >= table.exact_mm:
            message = f"{say(seat)} is not below table_height = {say(table)}: measure both from the floor"
            raise JobFaultsError([(("seat_height",), message)])
        return self


class Override(Section):
    """[[override]]: a finding that the person has seen and overrides; it lapses when its figures change."""

    finding: Annotated[int, Field(ge=100, le=999)] = required("number of the finding")
    figures: Annotated[str, Text(500)] = required("its figures, exactly as printed")
    reason: Annotated[str, Text(200)] = required("why it may be overridden")
