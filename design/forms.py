"""Forms that a router bit gives an arris: round-over, chamfer, bevel, cove, ogee.

A form is a chain of lines and circular arcs in (inset, depth): how far in from the finished edge, how far below
the face (for the lower arris: above the underside). It runs from the face, (reach, 0), to the edge, (0, depth),
and on the way the inset never grows and the depth never shrinks, as a bit with its bearing below cuts it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from edgewright.design.outline import FIT_MM, Arc, Line, Segment
from edgewright.errors import GeometryError

__all__ = ["Form", "bevel", "chamfer", "cove", "no_form", "ogee", "round_over"]

_QUARTER: Final = math.pi / 2


@dataclass(frozen=True, slots=True)
class Form:
    """One arris seen in section.

    Attributes
    ----------
    name
        Trade term, like ``"round-over"`` or ``"chamfer"``; ``"none"`` leaves the arris sharp.
    parts
        Lines and arcs in (inset, depth), mm, from the face to the edge; empty for a sharp arris.
    sizes
        What the bit is called by: names and mm, like ``(("radius", 9.525),)``.

    Raises
    ------
    GeometryError
        If the chain has a gap, does not run from the face to the edge, or turns back.
    """

    name: str
    parts: tuple[Segment, ...]
    sizes: tuple[tuple[str, float], ...] = ()

    def __post_init__(self) -> None:
        if not self.parts:
            return
        _check_ends(self)
        for number, part in enumerate(self.parts, start=1):
            if number < len(self.parts) and math.dist(part.end, self.parts[number].start) > FIT_MM:
                raise GeometryError(
                    f"{self.name}: part {number + 1} starts "
                    f"{math.dist(part.end, self.parts[number].start):g} mm from the end of the one before it; "
                    "at most 0 mm is allowed: close the chain"
                )
            back = max(part.end[0] - part.start[0], part.start[1] - part.end[1])
            if isinstance(part, Arc):
                back = max(back, _past_quadrant(part))
            if back > FIT_MM:
                raise GeometryError(
                    f"{self.name}: part {number} turns back by {back:g} mm; at most 0 mm is allowed: "
                    "from the face to the edge the inset may not grow and the depth may not shrink"
                )

    @property
    def reach(self) -> float:
        """How far in from the finished edge the form begins on the face, mm."""
        return self.parts[0].start[0] if self.parts else 0.0

    @property
    def depth(self) -> float:
        """How far below the face the form ends on the edge, mm."""
        return self.parts[-1].end[1] if self.parts else 0.0

    @property
    def length(self) -> float:
        """Length of the curve, mm."""
        return math.fsum(part.length for part in self.parts)

    def inset_at(self, depth: float) -> float:
        """How far in the curve lies at a depth (mm, at least 0); on a level step its outer end, 0 below the form."""
        part = next((part for part in reversed(self.parts) if part.start[1] <= depth <= part.end[1]), None)
        if part is None:
            return 0.0
        (d0, z0), (d1, z1) = part.start, part.end
        if isinstance(part, Line):
            return d1 if z1 == z0 else d0 + (d1 - d0) * (depth - z0) / (z1 - z0)
        half = math.sqrt(max(0.0, part.radius**2 - (depth - part.centre[1]) ** 2))
        return part.centre[0] + math.copysign(half, (d0 + d1) / 2 - part.centre[0])

    @property
    def is_round_over(self) -> bool:
        """Whether the form is a quarter circle that runs tangent into face and edge, or none."""
        return not self.parts or (
            len(self.parts) == 1 and isinstance(self.parts[0], Arc) and self.parts[0].sweep < 0
            and self.reach == self.depth == self.parts[0].radius
        )  # fmt: skip


def no_form() -> Form:
    """Sharp arris."""
    return Form("none", ())


def round_over(radius: float, where: str = "") -> Form:
    """Quarter circle, tangent to face and edge; radius in mm, 0 leaves the arris sharp.

    ``where``, like ``"top"``, is named when the radius cannot be.

    Raises
    ------
    GeometryError
        If the radius is negative or not finite.
    """
    _check(f"{where} round-over radius".lstrip(), radius, least=0.0, hint="give 0 for a sharp arris")
    if radius == 0:
        return no_form()
    arc = Arc((radius, 0.0), (0.0, radius), (radius, radius), radius, -_QUARTER)
    return Form("round-over", (arc,), (("radius", radius),))


def chamfer(size: float) -> Form:
    """Flat at 45°, ``size`` mm in from the edge and as much below the face, more than 0.

    Raises
    ------
    GeometryError
        If the size is not greater than 0 or not finite.
    """
    _check("chamfer size", size)
    return Form("chamfer", (Line((size, 0.0), (0.0, size)),), (("size", size),))


def bevel(inset: float, depth: float) -> Form:
    """Flat that begins ``inset`` mm in from the edge and ends ``depth`` mm below the face, both more than 0.

    Raises
    ------
    GeometryError
        If a figure is not greater than 0 or not finite.
    """
    _check("bevel inset", inset)
    _check("bevel depth", depth)
    return Form("bevel", (Line((inset, 0.0), (0.0, depth)),), (("inset", inset), ("depth", depth)))


def cove(radius: float) -> Form:
    """Hollow quarter circle about the arris itself; radius in mm, more than 0.

    Raises
    ------
    GeometryError
        If the radius is not greater than 0 or not finite.
    """
    _check("cove radius", radius)
    arc = Arc((radius, 0.0), (0.0, radius), (0.0, 0.0), radius, _QUARTER)
    return Form("cove", (arc,), (("radius", radius),))


def ogee(radius: float, step: float = 0.0) -> Form:
    """Small Roman ogee: a round quarter circle that runs on into a hollow one, with a step at each end.

    From the face it goes ``step`` straight down, a quarter circle round, a quarter circle hollow, and ``step``
    level out to the edge; it reaches 2 ``radius`` + ``step`` in and as far down (mm; radius more than 0, step at
    least 0).

    Raises
    ------
    GeometryError
        If a figure is out of range or not finite.
    """
    _check("ogee radius", radius)
    _check("ogee step", step, least=0.0, hint="give 0 for none")
    reach = 2 * radius + step
    middle = (radius + step, radius + step)
    parts: list[Segment] = [
        Arc((reach, step), middle, (reach, radius + step), radius, -_QUARTER),
        Arc(middle, (step, reach), (step, radius + step), radius, _QUARTER),
    ]
    if step > 0:
        parts = [Line((reach, 0.0), (reach, step)), *parts, Line((step, reach), (0.0, reach))]
    return Form("ogee", tuple(parts), (("radius", radius), ("step", step)))


def _check(
    what: str, mm: float, *, least: float | None = None, hint: str = "give the size of the bit"
) -> None:
    """Raise GeometryError unless a size is finite and greater than 0, or at least ``least``."""
    if math.isfinite(mm) and (mm > 0 if least is None else mm >= least):
        return
    bound = "greater than 0 mm" if least is None else f"at least {least:g} mm"
    raise GeometryError(f"{what} is {mm:g} mm; it must be {bound}: {hint}")


def _check_ends(form: Form) -> None:
    """Raise GeometryError unless the chain runs from the face to the edge."""
    off_face, off_edge = form.parts[0].start[1], form.parts[-1].end[0]
    for what, off in (("begins", off_face), ("ends", off_edge)):
        if not abs(off) <= FIT_MM:
            place = "the face" if what == "begins" else "the edge"
            raise GeometryError(
                f"{form.name} {what} {off:g} mm from {place}; at most 0 mm is allowed: "
                "run the chain from the face to the edge"
            )


def _past_quadrant(arc: Arc) -> float:
    """How far (mm) an arc goes beyond the box of its ends: it turns back there."""
    low, high = sorted((arc.start_angle, arc.start_angle + arc.sweep))
    worst = 0.0
    for quarter in range(math.ceil(low / _QUARTER), math.floor(high / _QUARTER) + 1):
        axis = quarter % 2  # due east and west the inset turns, due north and south the depth
        extreme = arc.centre[axis] + (arc.radius if quarter % 4 < 2 else -arc.radius)
        ends = arc.start[axis], arc.end[axis]
        worst = max(worst, min(ends) - extreme, extreme - max(ends))
    return worst
