"""The tables of a job file about the build-up under the edge: edge and splice."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Final, Literal

from pydantic import Field, model_validator

from edgewright import trade
from edgewright.compass import CORNERS
from edgewright.job_fields import Between, JobFaultsError, PerKey, Section, say
from edgewright.job_forms import EdgeForm
from edgewright.job_top import NONE, ZERO, CornerLengths, default, optional
from edgewright.trade import COMMON
from edgewright.units import Length

__all__ = ["ARRISES", "Arris", "Edge", "Splice"]

Arris = Literal["top", "bottom"]
ARRISES: Final[tuple[Arris, ...]] = ("top", "bottom")

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
    top_form: EdgeForm | None = optional(
        'another form of the top arris, like {form = "chamfer", size = "1/4 in"}', "a round-over"
    )
    bottom_form: EdgeForm | None = optional("another form of the bottom arris", "a round-over")
    bullnose: bool = Field(
        default=False,
        description="half round: both round-overs have half the thickness",
        json_schema_extra={"x-origin": NONE},
    )
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

    @model_validator(mode="after")
    def _one_form_for_each_arris(self) -> Edge:
        faults: list[tuple[tuple[str | int, ...], str]] = []
        for arris in ARRISES:
            form: EdgeForm | None = getattr(self, f"{arris}_form")
            if form is not None and f"{arris}_round_over" in self.model_fields_set:
                beside = f"{arris}_round_over = {say(getattr(self, f'{arris}_round_over'))}"
                faults.append(
                    ((f"{arris}_form",), f'form "{form.form}" is given beside {beside}: give one of the two')
                )
        if self.bullnose:
            keys = [f"{arris}_{kind}" for kind in ("round_over", "form") for arris in ARRISES]
            beside = " and ".join(
                key for key in keys if key in self.model_fields_set and getattr(self, key) is not None
            )
            if beside:
                message = (
                    f"true is given beside {beside}: a bullnose is the form of both arrises; leave one out"
                )
                faults.append((("bullnose",), message))
        if faults:
            raise JobFaultsError(faults)
        return self

    @property
    def routed_words(self) -> str:
        """What is routed on the edge, in a word or two: its round-overs unless it has other forms."""
        if self.bullnose:
            return "bullnose"
        return "round-overs" if self.top_form is None and self.bottom_form is None else "routed forms"

    def thickness(self, top_mm: Fraction) -> Fraction:
        """Thickness of the edge, exact mm: the top (its mean thickness, exact mm) and all layers of strips."""
        strip = top_mm if self.strip_thickness is None else self.strip_thickness.exact_mm
        return top_mm + self.layers * strip

    def reach(self, arris: Arris, thickness: Fraction) -> Fraction:
        """How far in from the edge the form of an arris begins, exact mm, on an edge of this thickness (exact mm)."""
        form: EdgeForm | None = getattr(self, f"{arris}_form")
        return self._round_over(arris, thickness) if form is None else form.reach

    def height(self, arris: Arris, thickness: Fraction) -> Fraction:
        """How much of the edge's thickness (exact mm) the form of an arris takes, exact mm."""
        form: EdgeForm | None = getattr(self, f"{arris}_form")
        return self._round_over(arris, thickness) if form is None else form.height

    def _round_over(self, arris: Arris, thickness: Fraction) -> Fraction:
        if self.bullnose:
            return thickness / 2
        radius: Length = getattr(self, f"{arris}_round_over")
        return radius.exact_mm


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

    @model_validator(mode="after")
    def _no_splices_where_none_are_allowed(self) -> Splice:
        if not self.allowed and self.max_per_side:
            message = (
                f"{self.max_per_side} is given beside allowed = false: leave it out, or write allowed = true; "
                "0 is possible"
            )
            raise JobFaultsError([(("max_per_side",), message)])
        return self

    def most(self, side_mm: Fraction) -> int:
        """Most splices in a side of this length (mm)."""
        if not self.allowed:
            return 0
        if self.max_per_side is not None:
            return self.max_per_side
        return 1 + int(side_mm // trade.SPLICE_SIDE_LENGTH.value)
