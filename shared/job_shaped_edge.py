"""[edge] and [[cut_out]] of a shaped top."""

from __future__ import annotations

from typing import Annotated, Any, Final, Literal

from pydantic import Field, GetJsonSchemaHandler, model_validator
from pydantic_core import CoreSchema, core_schema

from edgewright.compass import CORNERS
from edgewright.job_edge import Edge
from edgewright.job_fields import LENGTH_SCHEMA, Between, JobFaultsError, PerKey, Schema, Section, say
from edgewright.job_outline_base import OutlineFault
from edgewright.job_top import NONE, ZERO, CornerLengths, default, optional, required
from edgewright.job_trim import EdgeNames
from edgewright.job_values import Text
from edgewright.trade import COMMON, inch
from edgewright.units import Length

__all__ = ["CutOut", "ShapedEdge"]

BuildUp = Literal["flat", "skirt_under", "skirt_on_edge", "none"]

INSIDE_RADIUS: Final = inch("1/2")
INSIDE_ORIGIN: Final = f"{COMMON}; the trade of brittle sheets went from 3/16 to 1/2 in"


class OneForAll(PerKey):
    """One length for all corners; a table is refused, for a shape's corners have no compass names."""

    def spread(self, value: object, info: core_schema.ValidationInfo) -> object:
        """Spread one length over all keys."""
        if isinstance(value, CornerLengths):
            return value
        return dict.fromkeys(self.keys, self.each.read(value, info))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> Schema:
        return LENGTH_SCHEMA


class ShapedEdge(Edge):
    """[edge] of a shaped top: what is said of any edge, and what a build-up round a shape needs."""

    build_up: BuildUp = default(
        "flat", "strips flat under the edge, a skirt under it or on its edge, or nothing", COMMON
    )
    skirt_drop: Annotated[Length, Between("1/2 in", "24 in")] | None = optional(
        "how far a skirt reaches below the underside"
    )
    segments: Annotated[int, Field(ge=3, le=96)] | None = optional(
        "pieces in a full circle of the build-up", "as few as the blanks give"
    )
    joint_clear: Annotated[Length, Between("0 in", "8 ft")] | None = optional(
        "least distance of a joint of the build-up from a panel seam", "splice.from_seam"
    )
    unrouted: EdgeNames = Field(
        default=(),
        description="names of edges that get no profile, like those at a wall",
        json_schema_extra={"x-origin": NONE},
    )
    corner_radius: Annotated[CornerLengths, OneForAll(CORNERS, Between("0 in", "10 ft"))] = Field(
        default_factory=CornerLengths,
        description="radius of sharp outside corners, seen from above",
        json_schema_extra={"x-origin": NONE},
    )
    inside_radius: Annotated[Length, Between("0 in", "10 ft")] = default(
        INSIDE_RADIUS, "radius of sharp inside corners, seen from above", INSIDE_ORIGIN
    )

    @model_validator(mode="after")
    def _build_up_is_whole(self) -> ShapedEdge:
        faults: list[OutlineFault] = []
        skirt = self.build_up.startswith("skirt")
        if skirt and self.skirt_drop is None:
            message = (
                f'"{self.build_up}" is given without skirt_drop: write how far it reaches below the underside'
            )
            faults.append((("build_up",), message))
        if not skirt and self.skirt_drop is not None:
            message = f'{say(self.skirt_drop)} says nothing with build_up = "{self.build_up}": leave it out'
            faults.append((("skirt_drop",), message))
        for number, name in enumerate(self.unrouted):
            if name in self.unrouted[:number]:
                faults.append((("unrouted", number), f'"{name}" is named twice: name each edge once'))
        if faults:
            raise JobFaultsError(faults)
        return self

    @property
    def outside_radius(self) -> Length:
        """`corner_radius` as the one length that it is here."""
        return self.corner_radius["south_west"]


#: Keys that a cut-out of each kind needs, and may have.
_KEYS: Final[dict[str, tuple[str, ...]]] = {"round": ("diameter",), "rectangle": ("length", "width")}
_MAY: Final[dict[str, tuple[str, ...]]] = {"round": (), "rectangle": ("corner_radius", "turn")}


class CutOut(Section):
    """[[cut_out]]: a hole in the top; places are told from the south-west corner of the box around the old top."""

    kind: Literal["round", "rectangle"] = required("a round or a rectangular hole")
    x: Annotated[Length, Between("0 in", "20 ft")] = required("centre, east of the box's west side")
    y: Annotated[Length, Between("0 in", "20 ft")] = required("centre, north of the box's south side")
    diameter: Annotated[Length, Between("1/2 in", "8 ft")] | None = optional("round: its diameter")
    length: Annotated[Length, Between("1/2 in", "10 ft")] | None = optional("rectangle: east to west")
    width: Annotated[Length, Between("1/2 in", "10 ft")] | None = optional("rectangle: north to south")
    corner_radius: Annotated[Length, Between("0 in", "5 ft")] = default(
        ZERO, "rectangle: radius of its corners"
    )
    turn: Annotated[float, Field(ge=-360, le=360, allow_inf_nan=False)] = default(
        0.0, "rectangle: turned about its centre, degrees counter-clockwise", NONE
    )
    routed: bool = default(False, "whether its edge gets the profile", COMMON)
    name: Annotated[str, Text(80)] | None = optional('a name of its own, like "basin"')

    @model_validator(mode="after")
    def _keys_of_its_kind(self) -> CutOut:
        needed, allowed = _KEYS[self.kind], (*_KEYS[self.kind], *_MAY[self.kind])
        faults: list[OutlineFault] = []
        for key in needed:
            if getattr(self, key) is None:
                faults.append(((key,), f'is missing: kind = "{self.kind}" needs {" and ".join(needed)}'))
        for key in ("diameter", "length", "width", "corner_radius", "turn"):
            if key in self.model_fields_set and key not in allowed:
                value: Any = getattr(self, key)
                figure = say(value) if isinstance(value, Length) else str(value)
                message = f'{figure} says nothing of kind = "{self.kind}": it has {" and ".join(allowed)}'
                faults.append(((key,), message))
        if not faults and self.length is not None and self.width is not None:
            shorter = min(self.length, self.width, key=lambda size: size.exact_mm)
            if 2 * self.corner_radius.exact_mm > shorter.exact_mm:
                message = f"{say(self.corner_radius)} does not fit: at most half of {say(shorter)} is allowed"
                faults.append((("corner_radius",), message))
        if faults:
            raise JobFaultsError(faults)
        return self
