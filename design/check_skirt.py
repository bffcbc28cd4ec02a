"""Report findings 314 and 315: a skirt that makes the top larger, and the kerfs of its bent pieces."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.design.buildup.kerf_bend import SKIN, KerfBend, kerf_spacing
from edgewright.design.buildup.skirt import SkirtSettings, skirt_size
from edgewright.design.check_figures import shown
from edgewright.design.outline import Outline
from edgewright.display import show_decimal
from edgewright.findings import Finding
from edgewright.units import Units

__all__ = ["kerf_findings", "skirt_findings"]


def skirt_findings(edge: Outline, settings: SkirtSettings, units: Units) -> tuple[Finding, ...]:
    """Report finding 314: a skirt on the edge makes the top larger.

    Parameters
    ----------
    edge
        Edge of the top as it is when the skirt is fitted.
    settings
        How the skirt is made.
    units
        Units of the bench.
    """
    if settings.mount != "on":
        return ()
    x0, y0, x1, y1 = edge.bounds
    length, width = skirt_size(edge, settings)
    return (
        Finding(
            314,
            "note",
            "skirt makes the top larger",
            "edge",
            f"{shown(x1 - x0, units)} × {shown(y1 - y0, units)} before, {shown(length, units)} × "
            f"{shown(width, units)} with a skirt {shown(settings.thickness, units)} thick all round",
            f"trim the top {shown(settings.thickness, units)} smaller all round if the size is to stay, or put "
            "the skirt under the edge",
        ),
    )


def kerf_findings(bends: Sequence[tuple[str, KerfBend]], kerf: float, units: Units) -> tuple[Finding, ...]:
    """Report finding 315: kerfs for each curve of a bent skirt.

    Parameters
    ----------
    bends
        What `edgewright.design.skirt.skirt_bends` gives.
    kerf
        Saw kerf (mm).
    units
        Units of the bench.
    """
    alike: dict[KerfBend, list[str]] = {}
    for name, bend in bends:
        alike.setdefault(bend, []).append(name)
    found = []
    for bend, names in alike.items():
        thin = bend.skin < float(SKIN.value[0]) - 1e-9
        narrow = bend.pitch < 2 * kerf
        closes = kerf_spacing(bend.radius, kerf, bend.depth)
        behaviour = (
            "they open when bent: fill them with glue and slips of wood"
            if bend.inside
            else f"they stay {show_decimal(bend.open_width, units)} open when bent: fill them with glue"
        )
        found.append(
            Finding(
                315,
                "warn" if thin or narrow else "note",
                "kerfs of a bent skirt",
                ", ".join(dict.fromkeys(names)),
                f"radius {shown(bend.radius, units)}: {bend.count} kerfs every {show_decimal(bend.pitch, units)}, "
                f"{show_decimal(bend.depth, units)} deep, {show_decimal(bend.skin, units)} left; facets "
                f"{show_decimal(bend.facet, units)}",
                (
                    "less than a kerf of wood stays between them: use thinner wood, a finer blade or a solid corner; "
                    * narrow
                )
                + ("the skin may break: leave more; " * thin)
                + f"{behaviour}; kerfs that only just close, every {show_decimal(closes, units)}, would leave "
                "facets to be seen; saw across the grain only and bend a spare piece first",
            )
        )
    return tuple(found)
