"""Measured outlines with curved ends or sides: racetracks, rounds, ovals, boats and D-ends."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated, Any, Literal

from edgewright.job_fields import AsTuple, Between, say
from edgewright.job_outline_base import SHAPE, Box, OutlineFault, OutlineTable, Part, Size, mm_text
from edgewright.job_top import ZERO, default, optional, required
from edgewright.units import Length

__all__ = ["Boat", "DEnd", "Ellipse", "Oval", "Racetrack", "Round"]

QUARTER = "full width, a quarter of the length from either end"


class _Boxed(OutlineTable):
    """An outline that is given by its length and width first."""

    length: Size = required("east to west")
    width: Size = required("north to south")

    @property
    def box(self) -> Box:
        """Length and width."""
        return self.length.exact_mm, self.width.exact_mm

    def _longer(self, instead: str) -> Iterator[OutlineFault]:
        if self.length.exact_mm <= self.width.exact_mm:
            message = f"{say(self.length)} is not longer than the width of {say(self.width)}: {instead}"
            yield ("length",), message

    def _quarter(self, quarter: Length | None, hint: str) -> Iterator[OutlineFault]:
        """A bowed end at the quarter is wider than half the width and narrower than all of it."""
        width = self.width.exact_mm
        if quarter is not None and not width / 2 < quarter.exact_mm < width:
            yield (
                ("quarter_width",),
                f"{say(quarter)} cannot be at the quarter of a width of {say(self.width)}: more than "
                f"{mm_text(width / 2)} and less than {mm_text(width)} is possible; {hint}",
            )


class Racetrack(_Boxed):
    """Two straight sides and half a circle at each end."""

    shape: Literal["racetrack"] = SHAPE

    def figure_faults(self) -> Iterator[OutlineFault]:
        """A length that is not the longer figure."""
        yield from self._longer('give the longer figure as the length, or shape = "round"')


class Round(OutlineTable):
    """A circle, by its diameters or by a tape round its rim."""

    one_of = ("diameters", "wrap")

    shape: Literal["round"] = SHAPE
    diameters: (
        Annotated[tuple[Size, ...], AsTuple(1, 8, "diameters taken in different directions", single=True)]
        | None
    ) = optional("one diameter or a list, taken in different directions")
    wrap: Annotated[Length, Between("18 in", "63 ft", hint="lay the tape round the rim")] | None = optional(
        "length of a tape laid round the rim"
    )
    tape_thickness: Annotated[Length, Between("0 in", "1/8 in")] = default(
        ZERO, "thickness of the tape that lies round the rim"
    )

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Find a tape thickness without a tape."""
        if self.wrap is None and "tape_thickness" in self.model_fields_set:
            yield ("tape_thickness",), f"{say(self.tape_thickness)} says nothing without wrap: leave it out"

    @property
    def box(self) -> Box | None:
        """Greatest diameter both ways."""
        if self.diameters is None:
            return None
        most = max(diameter.exact_mm for diameter in self.diameters)
        return most, most


class Ellipse(_Boxed):
    """An ellipse by its length and width."""

    shape: Literal["ellipse"] = SHAPE
    quarter_width: Part | None = optional(f"{QUARTER}, as a check")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Find a check width that no oval can have."""
        yield from self._quarter(self.quarter_width, "an ellipse has 0.866 of its width there")


class Oval(_Boxed):
    """An oval of four arcs that run into one another."""

    one_of = ("end_radius", "quarter_width")
    may_have_none = True

    shape: Literal["oval"] = SHAPE
    end_radius: Part | None = optional("radius of the ends", "the classical oval of that length and width")
    quarter_width: Part | None = optional(QUARTER, "the classical oval of that length and width")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """A length that is not the longer figure, or ends as wide as the top."""
        longer = [*self._longer('give the longer figure as the length, or shape = "round"')]
        yield from longer
        if not longer and self.end_radius is not None and 2 * self.end_radius.exact_mm >= self.width.exact_mm:
            yield (
                ("end_radius",),
                f"{say(self.end_radius)} is too large: less than half the width, "
                f'{mm_text(self.width.exact_mm / 2)}, is possible; shape = "racetrack" has round ends',
            )
        if not longer:
            yield from self._quarter(self.quarter_width, "measure again")


class Boat(OutlineTable):
    """Straight ends and two bowed sides."""

    shape: Literal["boat"] = SHAPE
    length: Size = required("east to west")
    end_width: Annotated[Length, Between("0 in", "20 ft")] = required(
        "width of both ends; 0 for pointed ends"
    )
    middle_width: Size = required("width in the middle")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Sides that do not bow out, or by more than half a circle."""
        bow = self.middle_width.exact_mm - self.end_width.exact_mm
        if bow <= 0:
            message = f"{say(self.middle_width)} is not more than end_width = {say(self.end_width)}: a boat bows out"
            yield ("middle_width",), message
        elif bow > self.length.exact_mm:
            most = self.length.exact_mm + self.end_width.exact_mm
            message = (
                f"{say(self.middle_width)} bows out beyond half a circle: at most {mm_text(most)} is possible"
            )
            yield ("middle_width",), message

    @property
    def box(self) -> Box:
        """Length and width in the middle."""
        return self.length.exact_mm, self.middle_width.exact_mm


class DEnd(_Boxed):
    """A rectangle with one or both ends bowed."""

    shape: Literal["d_end"] = SHAPE
    depth: Part | None = optional(
        "how far the bow stands out over its chord", "half its chord: half a circle"
    )
    chord: Part | None = optional("chord of the bow where it leaves shoulders at the corners", "the width")
    ends: Literal["east", "west", "both"] = default("both", "which ends are bowed")

    def figure_faults(self) -> Iterator[OutlineFault]:
        """Bows deeper than half a circle, or that do not fit the top."""
        chord = self.width if self.chord is None else self.chord
        if chord.exact_mm > self.width.exact_mm:
            yield ("chord",), f"{say(chord)} is wider than the top: at most {say(self.width)} is possible"
            return
        if self.depth is not None and 2 * self.depth.exact_mm > chord.exact_mm:
            yield (
                ("depth",),
                f"{say(self.depth)} is deeper than half a circle: at most half the chord, "
                f"{mm_text(chord.exact_mm / 2)}, is possible",
            )
            return
        depth = chord.exact_mm / 2 if self.depth is None else self.depth.exact_mm
        ends = 2 if self.ends == "both" else 1
        if ends * depth > self.length.exact_mm:
            yield (
                ("length",),
                f"{say(self.length)} is too short for {ends} bowed end{'s' * (ends - 1)} of {mm_text(depth)}: "
                f"at least {mm_text(ends * depth)} is needed, bows included",
            )

    def follows(self) -> dict[str, Any]:
        """Chord and depth of the bow."""
        chord = self.width if self.chord is None else self.chord
        half = chord.exact_mm / 2
        return {"chord": chord, "depth": Length(mm_text(half), half)}
