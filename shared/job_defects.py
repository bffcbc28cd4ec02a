"""Places in a top or a board that no strip may include: holes, screw holes, dadoes, repaired edges, knots."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from pydantic import Field

from edgewright.job_fields import AsTuple, Between, Section, say
from edgewright.job_values import Text
from edgewright.trade import CHOICE
from edgewright.units import Length

__all__ = ["BoardDefect", "TopDefect", "box_faults"]

_Place = Annotated[Length, Between("0 in", "30 ft")]
_Span = Annotated[tuple[_Place, ...], AsTuple(2, 2, "from and to")]


class TopDefect(Section):
    """[[top.defects]]: a box on the old top, seen from above, in which nothing may become a strip."""

    name: Annotated[str, Text(80)] = Field(description='what it is, like "screw hole"')
    along: _Span = Field(description="from and to along the length, measured from the west end")
    across: _Span = Field(description="from and to along the width, measured from the south edge")
    metal: bool = Field(
        default=False,
        description="whether metal is in it that a saw must not meet",
        json_schema_extra={"x-origin": CHOICE},
    )


class BoardDefect(Section):
    """A defect of a [[stock]] board: measured from the end you mark and from the edge you rip from."""

    name: Annotated[str, Text(80)] = Field(description='what it is, like "knot"')
    along: _Span = Field(description="from and to along the board, measured from the end that you mark")
    across: _Span | None = Field(
        default=None,
        description="from and to across the board, measured from the edge that strips are ripped from",
        json_schema_extra={"x-origin": "right across the board"},
    )
    metal: bool = Field(
        default=False,
        description="whether metal is in it that a saw must not meet",
        json_schema_extra={"x-origin": CHOICE},
    )


def box_faults(
    defect: TopDefect | BoardDefect, length: Length, width: Length, what: str
) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Faults of a box that does not lie on its top or board.

    Parameters
    ----------
    length, width
        Size of the top or board.
    what
        "top" or "board".
    """
    for key, size, axis in (("along", length, "length"), ("across", width, "width")):
        span = getattr(defect, key)
        if span is None:
            continue
        low, high = span
        if low.exact_mm >= high.exact_mm:
            yield (
                (key,),
                f"{say(low)} to {say(high)} is no span: the first figure must be less than the second; measure both "
                "sides of the defect from the same end or edge",
            )
        elif high.exact_mm > size.exact_mm:
            yield (
                (key,),
                f"{say(high)} lies outside the {what}: at most its {axis} of {say(size)} is allowed",
            )
