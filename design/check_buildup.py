"""Report findings 3xx: strip width, corner blocks, pins and screws."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from edgewright.compass import CORNERS
from edgewright.design.check_figures import at_least, at_most, exceeds, shown, shown_down
from edgewright.design.limits import WIDEST_USUAL, WIDEST_WANTED
from edgewright.design.model import Design, WidthLimits
from edgewright.design.outline import CornerRadii
from edgewright.design.pin_figures import corner_clear_text, pin_row_text, pin_spacing_text
from edgewright.design.pins import PinChoice
from edgewright.display import SHOWN_TICKS, show_decimal, show_ticks
from edgewright.findings import Finding
from edgewright.ticks import snap_down, snap_up, ticks_to_mm
from edgewright.trade import PIN_SKIN
from edgewright.units import Units

__all__ = [
    "corner_block_findings",
    "largest_corner_radius",
    "pin_findings",
    "screw_findings",
    "strip_findings",
    "strip_width_findings",
]


def strip_width_findings(
    limits: WidthLimits,
    strip_width: int,
    extra_width: int = 0,
    *,
    units: Units,
    by_overhang: tuple[int, str] | None = None,
) -> tuple[Finding, ...]:
    """Report findings 301 and 302: a strip narrower or wider than the bench allows.

    Parameters
    ----------
    limits
        Floor and cap.
    strip_width
        Strip width w, ticks.
    extra_width
        By how much the widest strip of the plan exceeds w (a last strip that is left wider), ticks; only a
        cap that is no mere wish looks at it.
    by_overhang
        What `edgewright.design.limits.overhang_cap` gives; needed where the job's own maximum is the smaller
        cap and hides it.
    """
    found = []
    if strip_width < limits.floor:
        found.append(
            Finding(
                301,
                "stop",
                "strip too narrow",
                "strips",
                f"strip {show_ticks(strip_width, units)}, at least {at_least(limits.floor, units)}",
                f"{limits.floor_reason}: use a smaller bottom bit, or wider strips, for which more is trimmed off one "
                "side or stock is bought",
            )
        )
    cap, reason = limits.cap, limits.cap_reason
    widest = strip_width + extra_width
    if by_overhang is not None and widest > by_overhang[0]:
        cap, reason = by_overhang
    wish = reason in (WIDEST_WANTED, WIDEST_USUAL)
    if (strip_width if wish else widest) > cap:
        found.append(
            Finding(
                302,
                "note" if wish else "stop",
                "strip too wide",
                "strips",
                f"strip {show_ticks(strip_width if wish else widest, units)}, at most {at_most(cap, units)}",
                f"{reason}: {_too_wide(wish, cap, limits.floor)}",
            )
        )
    return tuple(found)


def _too_wide(wish: bool, cap: int, floor: int) -> str:
    """What to do about a strip wider than the cap."""
    if wish:
        return "more width than this shows nothing"
    narrower = "use a narrower strip, " if cap >= floor else ""
    return f"a wider strip meets the base; {narrower}trim less on that side, or move the base"


def largest_corner_radius(strip_width: float, ring: float) -> float:
    """Largest corner radius R that a square strip corner covers without a block, any one unit.

    Along the diagonal the ring's inner corner lies √2 w from the square corner and the arc R(√2 - 1); between
    them the ring must keep its width b, hence R = (w - b/√2) / (1 - 1/√2). Not above 0 where w < b/√2.

    Parameters
    ----------
    strip_width, ring
        Strip width w and the width b that the ring needs everywhere.
    """
    return (strip_width - ring / math.sqrt(2)) / (1 - 1 / math.sqrt(2))


def corner_block_findings(
    radii_mm: CornerRadii, strip_width: int, floor: int, units: Units
) -> tuple[Finding, ...]:
    """Report finding 305: rounded corners leave too little ring; strip width and floor in ticks.

    A strip below the floor is too narrow everywhere: nothing is added to finding 301 then.
    """
    if strip_width < floor:
        return ()
    most = max(largest_corner_radius(ticks_to_mm(strip_width), ticks_to_mm(floor)), 0.0)
    by_radius: dict[float, list[str]] = {}
    for corner, radius in zip(CORNERS, radii_mm, strict=True):
        if radius > 0 and exceeds(radius, most):
            by_radius.setdefault(radius, []).append(corner)
    if not by_radius:
        return ()
    corners = [corner for same in by_radius.values() for corner in same]
    texts = [
        f"{', '.join(same).replace('_', '-')}: corner radius {shown(radius, units)}"
        for radius, same in by_radius.items()
    ]
    joint = "; " if len(texts) > 1 else ", "
    return (
        Finding(
            305,
            "warn",
            "corner needs a block",
            corners[0] if len(corners) == 1 else "corners",
            "; ".join(texts)
            + f"{joint}strip {show_ticks(strip_width, units)} covers up to {shown_down(most, units)}",
            f"glue a block into the inner corner so that the ring stays {at_least(floor, units)} wide (the block "
            "is not in the cut list), or use a wider strip or a smaller corner radius",
        ),
    )


def pin_findings(choices: Sequence[PinChoice], units: Units) -> tuple[Finding, ...]:
    """Report finding 303 for each layer that no pin fits, and 304 with the row and the pins for the bench.

    Parameters
    ----------
    choices
        Pin of each layer, the one against the top first.
    """
    return (*_unpinned(choices, units), *_pin_rows(choices, units))


def _unpinned(choices: Sequence[PinChoice], units: Units) -> Iterator[Finding]:
    for layer, pin in enumerate(choices, 1):
        if pin.length is not None:
            continue
        least, most = at_least(pin.shortest, units), at_most(pin.longest, units)
        none_at_all = pin.shortest > pin.longest
        step = SHOWN_TICKS[units]
        if not none_at_all and snap_up(pin.shortest, step) > snap_down(pin.longest, step):
            # the window lies between two figures of the tape
            least, most = (show_decimal(ticks_to_mm(end), units) for end in (pin.shortest, pin.longest))
        yield Finding(
            303,
            "warn",
            "no pin fits",
            "strips",
            _layers([layer], choices) + f"pin length at least {least}, at most {most}",
            "the wood is too thin for any pin: glue and clamp only"
            if none_at_all
            else "get pins of such a length, or glue and clamp only",
        )


def _pin_rows(choices: Sequence[PinChoice], units: Units) -> Iterator[Finding]:
    by_length: dict[int, list[int]] = {}
    for layer, pin in enumerate(choices, 1):
        if pin.length is not None:
            by_length.setdefault(pin.length, []).append(layer)
    for length, layers in by_length.items():
        yield Finding(
            304,
            "note",
            "pin row",
            "strips",
            _layers(layers, choices)
            + f"pins {show_ticks(length, units)} long every {pin_spacing_text(choices[0], units)}, "
            f"row at least {pin_row_text(choices[0], units)} from the finished edge",
            "hold the nailer square to the edge, for a pin bends to the sides of its nail strip; no pin in a "
            f"corner that will be rounded, nor within {corner_clear_text(units)} of it: glue and "
            "clamp there",
        )


def _layers(layers: Sequence[int], choices: Sequence[PinChoice]) -> str:
    """Name layers in front of a figure; nothing where there is only one."""
    if len(choices) == 1:
        return ""
    return f"layer{'s' * (len(layers) > 1)} {', '.join(str(layer) for layer in layers)}: "


def screw_findings(
    screw_mm: float | None, base_mm: float | None, thickness_mm: float, units: Units
) -> tuple[Finding, ...]:
    """Report finding 307: a screw that comes through the top, over the field that is only T0 thick.

    Parameters
    ----------
    screw_mm, base_mm
        Screw length and thickness of the base that it passes, mm; nothing is found where either is unknown.
    thickness_mm
        Thinnest reading T0, mm.
    """
    if screw_mm is None or base_mm is None:
        return ()
    most = base_mm + thickness_mm - float(PIN_SKIN.value)
    if not exceeds(screw_mm, most):
        return ()
    return (
        Finding(
            307,
            "stop",
            "screw comes through the top",
            "base",
            f"screw {shown(screw_mm, units)}, at most {shown_down(most, units)}",
            "use shorter screws: away from the strips the top is only as thick as it was",
        ),
    )


def strip_findings(
    design: Design, strip_width: int, extra_width: int = 0, by_overhang: tuple[int, str] | None = None
) -> tuple[Finding, ...]:
    """Report findings 301, 302 and 305 for the strip width that a plan chose, ticks."""
    units = design.job.units
    return (
        *strip_width_findings(design.limits, strip_width, extra_width, units=units, by_overhang=by_overhang),
        *corner_block_findings(design.corner_radii_mm, strip_width, design.limits.floor, units),
    )
