"""Kerf-bent wood: saw kerfs across the hidden face, so that a strip bends round a curve with its show face whole.

A kerf k wide and d deep closes by about k / d, so kerfs R k / d apart would just close on radius R. But the show
face bends only in front of the kerfs and stays straight between them: with pitch p its facets are
R (1 - cos(p / 2R)), about p² / 8R, deep. It is the facets that decide, not the closing: on a radius of 24 in a
kerf of 1/8 in and 0.66 in deep closes every 4.5 in, with facets of 0.11 in; at a pitch of 1 in they are 0.005 in.
Computed; skin and facet limits are common practice, no source. Cut across the grain only, try it on a spare
piece, and fill the kerfs with glue.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from edgewright.errors import GeometryError
from edgewright.trade import COMMON, Default, inch

__all__ = ["FACET", "SKIN", "KerfBend", "facet_depth", "kerf_bend", "kerf_spacing", "largest_pitch"]

SKIN: Final = Default((inch("1/16"), inch("3/32")), "mm", COMMON)
"""Wood left uncut at the show face, least and most."""
FACET: Final = Default(inch("1/200"), "mm", COMMON)
"""Deepest facet that sanding takes out."""


@dataclass(frozen=True, slots=True)
class KerfBend:
    """Kerfs for one curve.

    Attributes
    ----------
    radius, sweep
        Radius of the show face (mm) and angle of the curve (radians).
    inside
        Whether the show face is hollow: the kerfs then open instead of closing.
    count, pitch
        Number of kerfs and their distance along the show face, the first and last half a pitch from the ends.
    depth, skin
        Depth of a kerf and what is left of the thickness (mm).
    facet
        Depth of the facets (mm).
    closing
        Angle by which all kerfs together can close, radians; at least ``sweep`` on an outside curve.
    open_width
        Width that stays of each kerf at the hidden face once bent (mm).
    """

    radius: float
    sweep: float
    inside: bool
    count: int
    pitch: float
    depth: float
    skin: float
    facet: float
    closing: float
    open_width: float


def kerf_spacing(radius: float, kerf: float, depth: float) -> float:
    """Distance of kerfs that just close, R k / d, any one unit."""
    return radius * kerf / depth


def facet_depth(radius: float, pitch: float) -> float:
    """Depth of the facets between kerfs, R (1 - cos(p / 2R)), any one unit."""
    # the same as 2 R sin²(p / 4R), which keeps its digits for a small pitch
    return 2 * radius * math.sin(pitch / (4 * radius)) ** 2


def largest_pitch(radius: float, facet: float) -> float:
    """Distance of kerfs whose facets are ``facet`` deep, any one unit; about √(8 R f)."""
    return 4 * radius * math.asin(math.sqrt(min(facet / (2 * radius), 0.5)))


def kerf_bend(
    radius: float,
    sweep: float,
    thickness: float,
    kerf: float,
    *,
    skin: float = float(SKIN.value[1]),
    facet: float = float(FACET.value),
    inside: bool = False,
) -> KerfBend:
    """Fewest kerfs that bend a strip round a curve with facets no deeper than ``facet``.

    Parameters
    ----------
    radius, sweep
        Radius of the show face (mm) and angle of the curve (radians, above 0).
    thickness, kerf
        Thickness of the strip and width of the saw kerf (mm).
    skin, facet
        Wood left at the show face and deepest facet (mm).
    inside
        Whether the show face is hollow.

    Raises
    ------
    GeometryError
        If nothing is left to saw, or the kerfs would run into each other.
    """
    depth = thickness - skin
    if not 0 < skin < thickness:
        raise GeometryError(
            f"skin is {skin:.4g} mm; it must be more than 0 mm and less than the thickness {thickness:.4g} mm: "
            "leave 1.6 to 2.4 mm"
        )
    if radius <= thickness and not inside:
        raise GeometryError(
            f"radius of the bend is {radius:.4g} mm; it must be more than the thickness {thickness:.4g} mm: "
            "use a solid corner"
        )
    each = 2 * math.atan(kerf / (2 * depth))
    length = radius * sweep
    by_facet = math.ceil(length / largest_pitch(radius, facet) - 1e-9)
    by_closing = 0 if inside else math.ceil(sweep / each - 1e-9)
    count = max(by_facet, by_closing, 1)
    pitch = length / count
    if pitch <= kerf:
        raise GeometryError(
            f"pitch of the kerfs is {pitch:.3g} mm on a radius of {radius:.4g} mm; it must be more than the kerf "
            f"{kerf:.3g} mm: use a larger radius, thinner wood or a solid corner"
        )
    turned = 2 * depth * math.tan(sweep / count / 2)
    return KerfBend(
        radius=radius,
        sweep=sweep,
        inside=inside,
        count=count,
        pitch=pitch,
        depth=depth,
        skin=skin,
        facet=facet_depth(radius, pitch),
        closing=count * each,
        open_width=kerf + turned if inside else max(kerf - turned, 0.0),
    )
