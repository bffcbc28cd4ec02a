"""What a measured top is: an outline whose edges have names, and what its measurements say of one another."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewright.design.ellipse import Ellipse
from edgewright.design.outline import Outline
from edgewright.design.region import Region
from edgewright.errors import GeometryError

__all__ = ["CORNERS", "SIDES", "TAPE_MM", "Shape", "ShapeCheck"]

#: What a legal tape may be off over about 6 ft: 1/32 in (common practice, no source).
TAPE_MM: Final = 25.4 / 32

#: Corners of a box and the sides that follow them, counter-clockwise from the origin.
CORNERS: Final = ("south-west", "south-east", "north-east", "north-west")
SIDES: Final = ("south", "east", "north", "west")


@dataclass(frozen=True, slots=True)
class ShapeCheck:
    """One measurement set against what the others predict for it.

    Attributes
    ----------
    what
        What was measured, in plain words.
    measured, expected
        The figure taken and the figure that follows from the others (mm; mm² for an area, degrees for an angle).
    tolerance
        How far they may be apart before one of them is to be measured again, same unit.
    says
        What it means, one sentence.
    """

    what: str
    measured: float
    expected: float
    tolerance: float
    says: str

    @property
    def off(self) -> float:
        """Measured less expected."""
        return self.measured - self.expected

    @property
    def agrees(self) -> bool:
        """Whether the two agree within the tolerance."""
        return abs(self.off) <= self.tolerance


@dataclass(frozen=True, slots=True)
class Shape:
    """A top in plan, as measured.

    Attributes
    ----------
    outline
        Counter-clockwise loop, exact but for ``fit_error_mm``; x along the length, y to the north.
    names
        Plain words for each segment of the outline, in the same order.
    checks
        Redundant measurements against one another.
    suggestions
        Likely misreadings, one sentence each; nothing was changed on their account.
    ellipse
        The exact curve where the outline is only its fit by arcs.
    fit_error_mm
        How far the outline may be from the exact curve.

    Raises
    ------
    GeometryError
        If the outline runs clockwise or crosses itself.
    ValueError
        If there is not one name for each segment: a defect of the caller.
    """

    outline: Outline
    names: tuple[str, ...]
    checks: tuple[ShapeCheck, ...] = ()
    suggestions: tuple[str, ...] = ()
    ellipse: Ellipse | None = None
    fit_error_mm: float = 0.0

    def __post_init__(self) -> None:
        if len(self.names) != len(self.outline.segments):
            raise ValueError(f"{len(self.names)} names for {len(self.outline.segments)} segments")
        if not self.outline.area > 0:
            raise GeometryError(
                f"outline has area {self.outline.area:g} mm²; it must be greater than 0 mm²: "
                "run it counter-clockwise"
            )
        Region(self.outline)

    @property
    def region(self) -> Region:
        """The outline as a region without holes."""
        return Region(self.outline)
