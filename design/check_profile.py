"""Report findings 2xx: edge profile, router and corners."""

from __future__ import annotations

import math
from typing import Final

from edgewright.compass import CORNER_SIDES, CORNERS, PerSide
from edgewright.design.check_figures import exceeds, shown, shown_down, shown_up
from edgewright.design.forms import Form
from edgewright.design.outline import CornerRadii
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = [
    "corner_radius_findings",
    "missing_wood_findings",
    "old_arris_findings",
    "profile_findings",
    "seam_findings",
    "smallest_radius",
]

#: Names of forms that are spoken of as round-overs.
_PLAIN: Final = ("round-over", "none")


def profile_findings(
    thickness_mm: float, top: Form, bottom: Form, bearing_height_mm: float, units: Units
) -> tuple[Finding, ...]:
    """Report findings 201 and 202: whether the forms fit, and whether the bearing has a flat to run on.

    The bearing rides just below the cut: on the second pass it needs T >= depth above + depth below + hb.
    """
    both = top.depth + bottom.depth
    if both == 0:
        return ()
    edge, sum_depths = shown(thickness_mm, units), shown(both, units)
    plain = top.name in _PLAIN and bottom.name in _PLAIN
    found = []
    if exceeds(both, thickness_mm):
        found.append(
            Finding(
                201,
                "stop",
                "no such profile",
                "edge",
                f"{_terms(top, bottom, units)} = {sum_depths}, edge {edge}",
                "use smaller bits, or a thicker build-up",
                overridable=False,
            )
        )
    need = both + bearing_height_mm
    if exceeds(need, thickness_mm):
        room = shown_down(max(thickness_mm - bearing_height_mm, 0.0), units)
        # who asks for a bullnose knows that no flat is left: then it is a matter of how the bit is led
        asked = "bullnose" in (top.name, bottom.name)
        found.append(
            Finding(
                202,
                "warn" if asked else "stop",
                "no flat for the bearing on the second pass",
                "edge",
                f"{'round-overs' if plain else 'forms'} {sum_depths} + bearing {shown(bearing_height_mm, units)} "
                f"= {shown(need, units)}, edge {edge}",
                f"the two {'round-overs may add up to' if plain else 'forms together may be'} {room}"
                f"{'' if plain else ' deep'}; or guide the second pass by a fence or a template"
                f"{'' if asked else ' and leave a flat'}",
            )
        )
    return tuple(found)


def _terms(top: Form, bottom: Form, units: Units) -> str:
    """Both depths as they are added, like ``chamfer 1/4 in + round-over 3/8 in``."""
    if top.name in _PLAIN and bottom.name in _PLAIN:
        return f"round-overs {shown(top.depth, units)} + {shown(bottom.depth, units)}"
    return " + ".join(f"{form.name} {shown(form.depth, units)}" for form in (top, bottom) if form.parts)


def seam_findings(
    thickness_mm: float,
    strip_mm: float,
    layers: int,
    top_depth_mm: float,
    bottom_depth_mm: float,
    bearing_height_mm: float,
    units: Units,
) -> tuple[Finding, ...]:
    """Report finding 203: the bearing's band lies over a glue seam.

    The top is routed first, its bearing from the form's depth to that plus hb below the top face; then the
    bottom, in the same way above the underside. A seam at the very edge of the band passes.

    Parameters
    ----------
    thickness_mm, strip_mm
        T0 and the thickness of one layer of strip, mm.
    """
    heights = [thickness_mm + layer * strip_mm for layer in range(layers)]
    edge = thickness_mm + layers * strip_mm
    passes = (
        ("top", top_depth_mm, "below the top face", heights),
        ("bottom", bottom_depth_mm, "above the underside", [edge - height for height in heights]),
    )
    found = []
    for name, depth, way, seams in passes:
        for seam in seams if depth > 0 else ():
            if exceeds(seam, depth) and exceeds(depth + bearing_height_mm, seam):
                found.append(
                    Finding(
                        203,
                        "warn",
                        "bearing runs over a glue seam",
                        f"{name} pass",
                        f"{name} pass: bearing from {shown(depth, units)} to "
                        f"{shown(depth + bearing_height_mm, units)} {way}, seam at {shown(seam, units)}",
                        "fill the seam and sand it flat before this pass, or the bearing drops into it",
                    )
                )
    return tuple(found)


def corner_radius_findings(
    radii_mm: CornerRadii, top: Form, bottom: Form, units: Units
) -> tuple[Finding, ...]:
    """Report finding 204: a rounded corner tighter than its form reaches in comes to a mitre."""
    largest = max(top, bottom, key=lambda form: form.reach)
    name = "round-over" if largest.name in _PLAIN else largest.name
    by_radius: dict[float, list[str]] = {}
    for corner, radius in zip(CORNERS, radii_mm, strict=True):
        if radius > 0 and exceeds(largest.reach, radius):
            by_radius.setdefault(radius, []).append(corner)
    return tuple(
        Finding(
            204,
            "warn",
            f"corner tighter than the {name}",
            corners[0] if len(corners) == 1 else "corners",
            f"{', '.join(corners).replace('_', '-')}: corner radius {shown(radius, units)}, "
            f"{name} {shown(largest.reach, units)}",
            f"make the corner radius at least the {name}: where they meet in a mitre the resin is thin",
        )
        for radius, corners in by_radius.items()
    )


def smallest_radius(old_radius_mm: float, trim_x_mm: float, trim_y_mm: float) -> float:
    """Smallest finished corner radius for which the old rounded corner still holds all its wood, mm.

    With the old corner at the origin the old arc is about (R, R), the finished one of radius r about
    (a + r, b + r), where a and b are the trims. It lies inside when its farthest point does:
    √((s - a)² + (s - b)²) <= s with s = R - r, that is s <= a + b + √(2ab). For s smaller than a or b
    the finished arc begins beyond the old one and nothing can be missing.
    """
    a, b = max(trim_x_mm, 0.0), max(trim_y_mm, 0.0)
    reach = a + b + math.sqrt(2 * a * b)
    return max(old_radius_mm - reach, 0.0)


def missing_wood_findings(
    old_radii_mm: CornerRadii, radii_mm: CornerRadii, trims_mm: PerSide[float], units: Units
) -> tuple[Finding, ...]:
    """Report finding 205: the old rounded corner has already taken wood that the finished corner needs."""
    found = []
    for corner, old, new in zip(CORNERS, old_radii_mm, radii_mm, strict=True):
        y_side, x_side = CORNER_SIDES[corner]
        least = smallest_radius(old, trims_mm[x_side], trims_mm[y_side])
        if exceeds(least, new):
            found.append(
                Finding(
                    205,
                    "stop",
                    "wood missing at a corner",
                    corner,
                    f"{corner.replace('_', '-')}: old radius {shown(old, units)}, "
                    f"trims {x_side} {shown(trims_mm[x_side], units)} "
                    f"and {y_side} {shown(trims_mm[y_side], units)}, "
                    f"finished radius {shown(new, units)}, smallest that fits {shown_up(least, units)}",
                    "use a larger corner radius, trim more beside this corner, or glue on a corner block",
                )
            )
    return tuple(found)


def old_arris_findings(
    arris_mm: PerSide[float], trims_mm: PerSide[float], units: Units
) -> tuple[Finding, ...]:
    """Report finding 206: an old rounded arris stays above a new strip and leaves a groove at the seam."""
    alike: dict[tuple[float, float], list[str]] = {}
    for side, radius in arris_mm.items():
        if exceeds(radius, trims_mm[side]):
            alike.setdefault((radius, trims_mm[side]), []).append(side)
    return tuple(
        Finding(
            206,
            "warn",
            "old arris above a strip",
            ", ".join(sides),
            f"{', '.join(sides)}: arris radius {shown(radius, units)}, trim {shown(trim, units)}",
            "trim there by at least the radius, or fill the groove before routing",
        )
        for (radius, trim), sides in alike.items()
    )
