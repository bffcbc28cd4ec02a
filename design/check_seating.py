"""Report findings 403 to 405, 407 and 408: chairs, knees and places at the finished table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewright import trade
from edgewright.compass import PerSide
from edgewright.design.check_figures import exceeds, inches, shown, shown_down, shown_up, trade_least
from edgewright.design.outline import FIT_MM
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = [
    "AccessRule",
    "accessible_findings",
    "arm_findings",
    "knee_depth",
    "middle_zone_findings",
    "places",
    "places_findings",
    "thigh_findings",
]

#: Below this width the dishes in the middle have no room (common practice, no source).
MIDDLE_ZONE_MM = inches(34)

UNKNOWN: Final[PerSide[float | None]] = PerSide(None, None, None, None)


@dataclass(frozen=True, slots=True)
class AccessRule:
    """Heights of a dining surface and of the knee zone beneath it, mm.

    The standard prints inches and rounded millimetres side by side; neither is converted from the other.
    """

    top_low: float
    top_high: float
    knee_top: float


#: 2010 ADA Standards 902.3 (top 28 to 34 in, 710 to 865 mm) and 306.3 (knee zone up to 27 in, 685 mm).
ACCESS: Final[dict[Units, AccessRule]] = {
    "in": AccessRule(inches(28), inches(34), inches(27)),
    "mm": AccessRule(710.0, 865.0, 685.0),
}


def arm_findings(
    height_mm: float,
    arm_mm: float,
    edge_mm: float,
    units: Units,
    apron_below_mm: float | None = None,
    overhang_mm: PerSide[float | None] = UNKNOWN,
) -> tuple[Finding, ...]:
    """Report finding 403: chair arms do not go under; T may be H - arm - 1/2 in (common practice).

    An apron lower than the edge meets the arms further in: how far they go under is shown.

    Parameters
    ----------
    height_mm, arm_mm
        Floor to the upper face and to the chair arms, mm.
    edge_mm
        Edge thickness T, mm.
    apron_below_mm
        From the upper face to the lowest part of the apron, mm; None without one.
    overhang_mm
        From the finished edge to the apron, mm; None where unknown.
    """
    most = height_mm - arm_mm - float(trade.ARM_CLEARANCE.value)
    bound = (
        f"at most {shown_down(max(most, 0.0), units)} with arms {shown(arm_mm, units)} high under a table "
        f"{shown(height_mm, units)} high"
    )
    if exceeds(edge_mm, most):
        figures = f"edge {shown(edge_mm, units)}, {bound}"
        change = "make the edge thinner, raise the table, or show the customer a chair against it"
    elif apron_below_mm is not None and exceeds(apron_below_mm, most):
        reach: dict[float, list[str]] = {}
        for side, left in overhang_mm.items():
            if left is not None:
                reach.setdefault(max(left, 0.0), []).append(side)
        under = ", ".join(f"{shown_down(left, units)} ({', '.join(sides)})" for left, sides in reach.items())
        figures = f"apron ends {shown(apron_below_mm, units)} below the upper face, {bound}; " + (
            f"arms go under by {under}" if under else "how far the arms go under is not known"
        )
        change = "leave more overhang where arm chairs stand, raise the table, or show the customer a chair against it"
    else:
        return ()
    return (Finding(403, "warn", "chair arms do not go under", "seating", figures, change),)


def thigh_findings(
    height_mm: float, seat_mm: float, edge_mm: float, apron_below_mm: float | None, units: Units
) -> tuple[Finding, ...]:
    """Report finding 404: too little room for thighs; both gaps are shown, for texts measure either.

    Parameters
    ----------
    height_mm, seat_mm
        Floor to the upper face and to the seat, mm.
    edge_mm
        Edge thickness T, mm.
    apron_below_mm
        From the upper face to the lowest part of the apron, mm; None without one.
    """
    gap = height_mm - max(edge_mm, apron_below_mm or 0.0) - seat_mm
    least = float(trade.THIGH_ROOM.value)
    if not exceeds(least, gap):
        return ()
    return (
        Finding(
            404,
            "warn",
            "little room for thighs",
            "seating",
            f"seat to lowest part {shown(gap, units)}, at least {trade_least(least, units)}; "
            f"seat to upper face {shown(height_mm - seat_mm, units)}",
            "make the edge or the apron thinner, raise the table, or use lower seats",
        ),
    )


def knee_depth(above_floor_mm: float) -> float:
    """Depth of knee room that must be clear at a height above the floor, mm to mm.

    11 in deep at 9 in, 1 in less for each 6 in more, 8 in at 27 in; nothing above.

    References
    ----------
    2010 ADA Standards 306.3.3 and 306.3.4.
    """
    if above_floor_mm >= inches(27):
        return 0.0
    return inches(11) - max(above_floor_mm - inches(9), 0.0) / 6


def accessible_findings(
    height_mm: float,
    edge_mm: float,
    apron_below_mm: float | None,
    overhang_mm: PerSide[float | None],
    units: Units,
) -> tuple[Finding, ...]:
    """Report finding 405: a seat for a wheelchair was asked for and the table does not give one.

    Parameters
    ----------
    height_mm, edge_mm
        Floor to the upper face, and edge thickness T, mm.
    apron_below_mm
        From the upper face to the lowest part of the apron, mm; None without one.
    overhang_mm
        From the finished edge to the apron, mm; the deepest known side is where the wheelchair sits.

    References
    ----------
    2010 ADA Standards 306.3 (knee zone) and 902.3 (height of the surface), both ends included.
    """
    rule = ACCESS[units]
    figures: list[tuple[str, str, str]] = []
    if exceeds(rule.top_low, height_mm) or exceeds(height_mm, rule.top_high):
        figures.append(
            (
                "upper face",
                f"upper face {shown(height_mm, units)} above the floor, "
                f"{shown(rule.top_low, units)} to {shown(rule.top_high, units)} allowed",
                "change the height of the base",
            )
        )
    if exceeds(rule.knee_top, height_mm - edge_mm):
        most = shown_down(max(height_mm - rule.knee_top, 0.0), units)
        figures.append(
            (
                "edge",
                f"edge {shown(edge_mm, units)}, at most {most} under a table {shown(height_mm, units)} high",
                "make the edge thinner at the accessible seat, or raise the table",
            )
        )
    deepest = max((left for _, left in overhang_mm.items() if left is not None), default=None)
    if apron_below_mm is not None and deepest is not None:
        apron = height_mm - apron_below_mm
        if exceeds(rule.knee_top, apron) and exceeds(knee_depth(apron), deepest):
            figures.append(
                (
                    "apron",
                    f"apron {shown(apron, units)} above the floor, {shown(deepest, units)} behind the edge; "
                    f"at least {shown_up(knee_depth(apron), units)} behind it at that height",
                    "leave more overhang at the accessible seat, or cut the apron back there",
                )
            )
    return tuple(
        Finding(405, "stop", "no accessible seat", place, text, change) for place, text, change in figures
    )


def places(size_mm: tuple[float, float], pitch_mm: float) -> tuple[int, int]:
    """Places along the two longer sides, and with those at the ends, at one pitch a person (mm)."""
    short, long = sorted(size_mm)
    sides = 2 * int((long + FIT_MM) // pitch_mm)
    return sides, sides + 2 * int((short + FIT_MM) // pitch_mm)


def places_findings(
    old_mm: tuple[float, float], new_mm: tuple[float, float], seats: int | None, units: Units
) -> tuple[Finding, ...]:
    """Report finding 407: places before and after, close and comfortable (common practice, no source).

    Legs take places away and round corners give room; neither is counted.
    """
    texts, said = [], []
    for pitch in (float(trade.SEAT_WIDTH.value), float(trade.SEAT_WIDTH_COMFORT.value)):
        (sides, ends), (sides_new, ends_new) = places(old_mm, pitch), places(new_mm, pitch)
        each = f"at {trade_least(pitch, units)} each"
        texts.append(
            f"{each}: {sides_new} along the sides, {ends_new} with the ends (before: {sides}, {ends})"
        )
        if seats is not None:
            fits = "along the sides" if seats <= sides_new else "with the ends"
            said.append((fits if seats <= ends_new else "too many", each))
    if said:
        (close, at_close), (wide, at_wide) = said
        joint = " and" if close == wide else f", {wide}"
        texts.append(f"{seats} wanted: {close} {at_close}{joint} {at_wide}")
    return (
        Finding(
            407,
            "note",
            "places at the table",
            "seating",
            "; ".join(texts),
            "count legs and corners as well: a place in front of a leg is none",
        ),
    )


def middle_zone_findings(
    old_mm: tuple[float, float], new_mm: tuple[float, float], units: Units
) -> tuple[Finding, ...]:
    """Report finding 408: the trim takes the middle zone that both sides share, where there was one."""
    before, after = min(old_mm), min(new_mm)
    if exceeds(MIDDLE_ZONE_MM, before) or not exceeds(MIDDLE_ZONE_MM, after):
        return ()
    return (
        Finding(
            408,
            "warn",
            "no room in the middle of the table",
            "seating",
            f"width {shown(after, units)} (before {shown(before, units)}), "
            f"at least {trade_least(MIDDLE_ZONE_MM, units)} to dine on both sides",
            "trim less, or tell the customer that serving dishes will not fit between two settings",
        ),
    )
