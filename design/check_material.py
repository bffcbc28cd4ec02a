"""Report findings 1xx: what the material of the top and its measured figures decide."""

from __future__ import annotations

from edgewright import trade
from edgewright.design.check_figures import exceeds, inches, shown, shown_down, trade_least, trade_most
from edgewright.design.forms import Form
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = ["build_up_findings", "lean", "particleboard_findings", "squareness_findings", "thickness_findings"]

#: Largest round-over that raw particleboard holds (common practice, no source).
PARTICLEBOARD_ROUND_OVER_MM = inches(1 / 4)
#: Lean that a bench lets pass (common practice, no source).
LEAN_MM = inches(1 / 16)
#: Spread of calipered readings that strips can follow (common practice, no source).
SPREAD_MM = inches(1 / 32)
#: Pins nearer than this to an end split MDF (common practice, no source).
MDF_END_MM = inches(3 / 4)


def build_up_findings(material: trade.Material, bare: bool, units: Units) -> tuple[Finding, ...]:
    """Report findings 101, 104 and 107: gluing strips under this material.

    Parameters
    ----------
    material
        What the top is made of; whether solid wood is glued across its grain is for the plan to say.
    bare
        Whether the glue face is bare wood.
    """
    found = []
    if not bare:
        found.append(
            Finding(
                101,
                "warn",
                "glue face is not bare",
                "underside",
                "bare wood: no",
                "sand the glue band of the underside to bare wood, or use a glue made for that face",
            )
        )
    if material == "mdf":
        figure = trade_least(MDF_END_MM, units)
        found.append(
            Finding(
                104,
                "note",
                "pins split MDF near ends",
                "strip ends",
                f"pins within {figure} of an end",
                "drill these pin holes first, or leave these pins out and clamp",
            )
        )
    if material == "laminate":
        found.append(
            Finding(
                107,
                "note",
                "laminate top",
                "top",
                "strips glue to the core, resin lies on the laminate",
                "glue only where the underside is raw core, not backer; scuff the laminate before coating; "
                "laminate chips where the blade leaves it, so score and tape that face",
            )
        )
    return tuple(found)


def particleboard_findings(
    material: trade.Material, top: Form, bottom: Form, units: Units
) -> tuple[Finding, ...]:
    """Report finding 102: particleboard crumbles under a large round-over or other form."""
    if material != "particleboard":
        return ()
    alike: dict[tuple[str, float], list[str]] = {}
    for name, form in (("top", top), ("bottom", bottom)):
        size = max(form.reach, form.depth)
        if exceeds(size, PARTICLEBOARD_ROUND_OVER_MM):
            alike.setdefault((form.name, size), []).append(name)
    return tuple(
        Finding(
            102,
            "warn",
            f"particleboard crumbles at this {form}",
            f"{names[0]} arris" if len(names) == 1 else "both arrises",
            f"{' and '.join(names)} {form} {shown(size, units)}, "
            f"holds up to {trade_most(PARTICLEBOARD_ROUND_OVER_MM, units)}",
            "use a smaller bit, or soak the edge with thin filler and let it harden before routing",
        )
        for (form, size), names in alike.items()
    )


def lean(length_mm: float, diagonals_mm: tuple[float, float]) -> float:
    """How far the top leans out of square over its width, in mm, at least 0.

    Taken as a parallelogram that leans by s: one diagonal is √((L + s)² + h²), the other √((L - s)² + h²),
    and the difference of the squares is 4 L s exactly, so s = D (D1 - D2) / (2 L) with the mean diagonal D.
    """
    first, second = diagonals_mm
    return abs(first - second) * (first + second) / (4 * length_mm)


def squareness_findings(
    length_mm: float, width_mm: float, diagonals_mm: tuple[float, float] | None, units: Units
) -> tuple[Finding, ...]:
    """Report finding 105: the two diagonals differ."""
    if diagonals_mm is None or not exceeds(abs(diagonals_mm[0] - diagonals_mm[1]), 0.0):
        return ()
    over = lean(length_mm, diagonals_mm)
    first, second = (shown(diagonal, units) for diagonal in diagonals_mm)
    return (
        Finding(
            105,
            "warn" if exceeds(over, LEAN_MM) else "note",
            "top is out of square",
            "top",
            f"diagonals {first} and {second}: leans {shown(over, units)} "
            f"over the width {shown(width_mm, units)}",
            "compare opposite sides as well; square the crosscuts to the datum edge, not to the old ends",
        ),
    )


def thickness_findings(readings_mm: tuple[float, ...], units: Units) -> tuple[Finding, ...]:
    """Report finding 106: the calipered thickness varies."""
    low, high = min(readings_mm), max(readings_mm)
    if not exceeds(high - low, SPREAD_MM):
        return ()
    return (
        Finding(
            106,
            "warn",
            "thickness varies",
            "top",
            f"readings {shown(low, units)} to {shown(high, units)}, allowed spread {shown_down(SPREAD_MM, units)}",
            "plane or sand the glue band level, or shim the strips: otherwise bit and bearing follow a wave",
        ),
    )
