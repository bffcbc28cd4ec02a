"""Lines of the strips: glue and pins; and the weight of the finished top."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.band import Band, Factor, total_band
from edgewright.cutlist.model import CutPlan
from edgewright.cutlist.pin_positions import pin_positions
from edgewright.cutlist.takeoff_factors import (
    CUT_PLAN,
    DENSITY_BASE,
    DENSITY_FILLER,
    DENSITY_RESIN,
    GEOMETRY,
    GLUE_FILM,
    wood_density,
)
from edgewright.cutlist.takeoff_figures import RingFigures, TopFigures
from edgewright.cutlist.takeoff_ground import BASE, FILLER
from edgewright.cutlist.takeoff_lines import TakeoffLine, exactly
from edgewright.cutlist.takeoff_resin import STAYS
from edgewright.design.checks import job_pin_choices
from edgewright.design.coating import glue_line
from edgewright.design.model import Design
from edgewright.design.pin_figures import pin_spacing_text
from edgewright.design.pins import PinChoice
from edgewright.display import show_ticks
from edgewright.trade import Material
from edgewright.units import Units

__all__ = ["WEIGHT", "glue_strips_line", "pin_lines", "weight_lines"]

WEIGHT = "weight"


def glue_strips_line(ring: RingFigures) -> TakeoffLine:
    """One glue line over all strips."""
    area = ring.glue_face_mm2
    return TakeoffLine(
        "glue",
        "strips",
        glue_line(area, GLUE_FILM.band),
        "mm3",
        (exactly("glue face", "mm2", area, CUT_PLAN), GLUE_FILM),
        "One face of each strip is spread wet, one side of the top at a time.",
    )


def pin_lines(design: Design, plan: CutPlan) -> list[TakeoffLine]:
    """Pins along the strips and at butted corners, as the strip map shows them; none where no layer takes one."""
    choices, units = job_pin_choices(design.job), design.job.units
    if all(choice.length is None for choice in choices):
        return []
    pins = pin_positions(design, plan)
    along = [pin for pin in pins if not pin.at_corner]
    corners = [pin for pin in pins if pin.at_corner and not pin.left_out]
    left_out = sum(pin.left_out for pin in along)
    less = f"; {left_out} left out at rounded corners: glue and clamp there" if left_out else ""
    lines = [
        _pins(
            "along the strips",
            len(along) - left_out,
            f"One every {pin_spacing_text(choices[0], units)} in each piece; a part of a spacing counts as a whole one"
            f"{less}{_lengths(choices, units)}.",
        )
    ]
    if corners:
        lines.append(
            _pins(
                "at butted corners",
                len(corners),
                "At a square corner the end that meets the through strip is held by two more.",
            )
        )
    return lines


def _pins(name: str, count: int, reason: str) -> TakeoffLine:
    factor = exactly("pins on the strip map", "count", count, CUT_PLAN)
    return TakeoffLine("pins", name, Band.exact(count), "count", (factor,), reason)


def _lengths(choices: Sequence[PinChoice], units: Units) -> str:
    """Which layer takes which pin, where there are several layers."""
    if len(choices) == 1:
        return ""
    words = (
        f"layer {layer} " + ("none" if pin.length is None else f"{show_ticks(pin.length, units)} long")
        for layer, pin in enumerate(choices, 1)
    )
    return "; " + ", ".join(words)


def weight_lines(top: TopFigures, coating: Sequence[TakeoffLine]) -> list[TakeoffLine]:
    """Weigh the finished top without base and hardware, g.

    Filler and base colour count as if nothing dried off: better a little over than a lift too heavy.
    """
    lines = [_wood("top", top.top_volume_mm3, (top.job.top.material,), "The trimmed top.")]
    if top.ring is not None:
        lines.append(
            _wood(
                "strips",
                top.ring.volume_mm3,
                top.ring.materials,
                "The ring under the edge, routed at the bottom.",
            )
        )
    stays = [line for line in coating if line.name in STAYS and line.group not in (FILLER, BASE)]
    colour = [line for line in coating if line.group == BASE and line.name != "roller and tray"]
    filler = [line for line in coating if line.group == FILLER and not line.name.endswith(": loss")]
    for name, kept, density in (
        ("resin", stays, DENSITY_RESIN),
        ("base colour", colour, DENSITY_BASE),
        ("filler", filler, DENSITY_FILLER),
    ):
        volume = total_band(line.quantity for line in kept)
        lines.append(
            TakeoffLine(
                WEIGHT,
                name,
                volume * density.band,
                "g",
                (Factor(f"{name} that stays on", "mm3", volume, f"lines of {name} above"), density),
                "What stays on the top; losses do not count.",
            )
        )
    return lines


def _wood(name: str, volume: float, materials: Sequence[Material], reason: str) -> TakeoffLine:
    density = wood_density(materials)
    return TakeoffLine(
        WEIGHT,
        name,
        density.band * volume,
        "g",
        (exactly("volume", "mm3 wood", volume, GEOMETRY), density),
        reason,
    )
