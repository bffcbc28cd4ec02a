"""The tables of a job file about the build-up under the edge: edge and splice."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.compass import CORNERS
from edgewright.job_fields import Between, JobFaultsError, PerKey, Section, say
from edgewright.job_top import ZERO, CornerLengths, default, optional
from edgewright.trade import COMMON
from edgewright.units import Length

__all__ = ["Edge", "Splice"]

RoundOver = Annotated[Length, Between("0 in", "2 in", hint="it is the radius of the router bit")]


class Edge(Section):
    """[edge]: the strips under the edge and the profile routed on it."""

    layers: Annotated[int, Field(ge=1, le=4)] = default(1, "layers of strips under the top")
    strip_thickness: Annotated[Length, Between("1/8 in", "4 in")] | None = optional(
        "thickness of the strips", "the top's own thickness"
    )
    strip_width: Annotated[
        Length | Literal["widest"], Between("1/4 in", "12 in", hint='the default is "widest"', word="widest")
    ] = default("widest", "a width, or the widest that the offcuts give", COMMON)
    max_strip_width: Annotated[Length, Between("1/2 in", "12 in")] = default(
        trade.MAX_STRIP_WIDTH, "more width than this is not looked for"
    )
    corners: Literal["butt", "pinwheel", "mitre"] = default("butt", "how strips meet at a corner", COMMON)
    through: Literal["long", "short"] = default("long", "which pair runs through at butt corners", COMMON)
    nest_mitres: bool = default(True, "whether mitred pieces may be laid out end for end in one stick")
    alternate_layers: bool = default(
        True, "whether the other pair runs through in every second layer", COMMON
    )
    top_round_over: RoundOver = default(trade.ROUND_OVER, "radius of the top round-over")
    bottom_round_over: RoundOver = default(trade.ROUND_OVER, "radius of the bottom round-over")
    corner_radius: Annotated[CornerLengths, PerKey(CORNERS, Between("0 in", "10 ft"))] = Field(
        default_factory=CornerLengths,
        description="radius of the finished corners, seen from above: one or a table",
    )
    proud: Annotated[Length, Between("0 in", "1/2 in", hint="1/16 in is usual")] = default(
        ZERO, "how far strips stand out until flush-trimmed"
    )

    @model_validator(mode="after")
    def _width_below_its_cap(self) -> Edge:
        width, cap = self.strip_width, self.max_strip_width
        if (
            isinstance(width, Length)
            and "max_strip_width" in self.model_fields_set
            and width.exact_mm > cap.exact_mm
        ):
            message = f"{say(width)} exceeds max_strip_width = {say(cap)}: change one of them"
            raise JobFaultsError([(("strip_width",), message)])
        return self


class Splice(Section):
    """[splice]: where a side may be made of more than one piece."""

    allowed: bool = default(True, "whether a side may be spliced at all", COMMON)
    min_piece: Annotated[Length, Between("1 in", "8 ft")] = default(trade.MIN_PIECE, "shortest piece")
    from_corner: Annotated[Length, Between("0 in", "8 ft")] = default(
        trade.SPLICE_FROM_CORNER, "least distance from a corner"
    )
    from_seam: Annotated[Length, Between("0 in", "8 ft")] = default(
        trade.SPLICE_FROM_SEAM, "least distance from a panel seam"
    )
    stagger_widths: Annotated[float, Field(ge=0, le=20, allow_inf_nan=False)] = default(
        trade.SPLICE_STAGGER, "least distance from a splice in the layer below, in strip widths"
    )
    max_per_side: Annotated[int, Field(ge=0, le=20)] | None = optional(
        "most splices in one side", f"1 in a side under 8 ft, one more for each further 8 ft; {COMMON}"
    )

    def most(self, side_mm: Fraction) -> int:
        """Most splices in a side of this length (mm)."""
        if not self.allowed:
            return 0
        if self.max_per_side is not None:
            return self.max_per_side
        return 1 + int(side_mm // trade.SPLICE_SIDE_LENGTH.value)
