"""What the tables of measured outlines share: kinds of length, and how a fault of several figures is told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any, ClassVar, Final

from pydantic import model_validator

from edgewright.job_fields import AsTuple, Between, JobFaultsError, Section, brief, say
from edgewright.job_top import required
from edgewright.trade import inch_text
from edgewright.units import Length

__all__ = [
    "SHAPE",
    "Box",
    "NamedLength",
    "OutlineFault",
    "OutlineTable",
    "Part",
    "Size",
    "Sizes",
    "mm_text",
    "one_way",
    "triangle_faults",
]

Size = Annotated[Length, Between("6 in", "20 ft", hint="measure from edge to edge")]
Part = Annotated[Length, Between("1/4 in", "20 ft")]
Sizes = Annotated[tuple[Part, ...], AsTuple(0, 64, "lengths")]
#: How every table declares its ``shape``.
SHAPE: Final[Any] = required("which kind of outline it is")
#: Length and width (exact mm) of the box around an outline.
Box = tuple[Fraction, Fraction]
#: Place from the table down, and sentence.
OutlineFault = tuple[tuple[str | int, ...], str]


@dataclass(frozen=True, slots=True)
class NamedLength:
    """A length at a named edge."""

    name: str
    length: Length


class OutlineTable(Section):
    """One measured outline; ``shape`` says which kind it is."""

    #: Keys of which exactly one (or with `may_have_none` at most one) is given.
    one_of: ClassVar[tuple[str, ...]] = ()
    may_have_none: ClassVar[bool] = False

    shape: str = SHAPE

    @model_validator(mode="after")
    def _figures_fit_together(self) -> OutlineTable:
        faults = [*one_way(self, self.one_of, self.may_have_none)] or [*self.figure_faults()]
        if faults:
            raise JobFaultsError(faults)
        return self

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Find what cannot be one outline, though each figure by itself could be."""
        yield from ()

    @property
    def box(self) -> Box | None:
        """Length and width of the box around the outline where they are plain from the figures, else None."""
        return None

    def follows(self) -> dict[str, Any]:
        """Values used where a key is left out and its value follows from other keys."""
        return {}

    def read_from_elsewhere(self) -> dict[str, Any]:
        """Plain data that stands in no key of its own but belongs to the job's digest, and what keys it replaces."""
        return {}


def mm_text(mm: Fraction) -> str:
    """Write exact mm in inches where they come out even to a 64th, else in millimetres."""
    inches = mm / Fraction(254, 10)
    return inch_text(mm) if mm >= 0 and 64 % inches.denominator == 0 else f"{float(mm):.4g} mm"


def one_way(table: Section, keys: tuple[str, ...], may_have_none: bool) -> Iterator[OutlineFault]:
    """Find that more than one of ``keys`` is given, or none of them where one must be."""
    given = [key for key in keys if getattr(table, key) not in (None, (), False)]
    if len(given) > 1:
        first = getattr(table, given[0])
        figure = say(first) if isinstance(first, Length) else brief(first)
        yield (
            (given[-1],),
            f"is given beside {given[0]} ({figure}): keep one of {given[0]}, {', '.join(given[1:])}",
        )
    elif keys and not given and not may_have_none:
        yield (), f"holds none of {', '.join(keys)}: give exactly one of them"


def triangle_faults(
    names: Sequence[str], places: Sequence[tuple[str | int, ...]], sides: Sequence[Length]
) -> Iterator[OutlineFault]:
    """Find three lengths that close no triangle; the longest is named, with what the other two allow."""
    longest = max(range(3), key=lambda at: sides[at].exact_mm)
    one, other = (at for at in range(3) if at != longest)
    reach = sides[one].exact_mm + sides[other].exact_mm
    if sides[longest].exact_mm >= reach:
        yield (
            places[longest],
            f"{say(sides[longest])} cannot close with {names[one]} = {say(sides[one])} and {names[other]} = "
            f"{say(sides[other])}: less than both together, {mm_text(reach)}, is possible; measure again",
        )
