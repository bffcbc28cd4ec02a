"""Report findings 401, 402 and 406: the base under the trimmed top."""

from __future__ import annotations

from edgewright.compass import PerSide
from edgewright.design.check_figures import exceeds, inches, shown
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = ["apron_findings", "off_centre_findings", "overhang_findings"]

#: Offset of the base that nobody sees (common practice, no source).
OFF_CENTRE_MM = inches(1 / 8)


def off_centre_findings(
    offset_mm: tuple[float, float], units: Units, *, known: bool = True
) -> tuple[Finding, ...]:
    """Report finding 401: the base stands off the centre of the finished top.

    Parameters
    ----------
    offset_mm
        From the top's centre to the base's centre, mm, (east, north) positive.
    known
        False where the job says nothing of the base: it is then taken to stay where it is.
    """
    ways = [
        f"{shown(abs(offset), units)} {high if offset > 0 else low}"
        for offset, (high, low) in zip(offset_mm, (("east", "west"), ("north", "south")), strict=True)
        if exceeds(abs(offset), OFF_CENTRE_MM)
    ]
    if not ways:
        return ()
    return (
        Finding(
            401,
            "warn",
            "base off centre",
            "base",
            f"{'' if known else 'if the base stays where it is: '}base centre {' and '.join(ways)} of the "
            "top's centre",
            "move the base, share the trim between both sides, or have the customer agree in writing",
        ),
    )


def overhang_findings(
    overhang_mm: PerSide[float | None], trims_mm: PerSide[float], units: Units
) -> tuple[Finding, ...]:
    """Report finding 402: the trimmed top ends short of its base; flush passes.

    Parameters
    ----------
    overhang_mm
        What is left from the finished edge to the base, mm; None where unknown.
    trims_mm
        What comes off each side, mm.
    """
    return tuple(
        Finding(
            402,
            "stop",
            "base reaches past the top",
            side,
            f"{side}: trim {shown(trims_mm[side], units)}, overhang left {shown(left, units)}",
            "trim less on this side, move the base, or make it smaller",
        )
        for side, left in overhang_mm.items()
        if left is not None and exceeds(0.0, left)
    )


def apron_findings(
    thickness_mm: float, edge_mm: float, apron_mm: float | None, units: Units
) -> tuple[Finding, ...]:
    """Report finding 406: the apron hangs lower than the new edge and still governs.

    Parameters
    ----------
    thickness_mm, edge_mm
        T0 and T, mm.
    apron_mm
        Depth of the apron below the old underside, mm; nothing is found where it is unknown.
    """
    if apron_mm is None or not exceeds(thickness_mm + apron_mm, edge_mm):
        return ()
    return (
        Finding(
            406,
            "note",
            "apron is lower than the edge",
            "base",
            f"apron ends {shown(thickness_mm + apron_mm, units)} below the upper face, "
            f"edge {shown(edge_mm, units)}",
            "the apron governs knee room and chair arms where they reach it; a thicker edge changes little",
        ),
    )
