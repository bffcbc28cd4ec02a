"""The guillotine layout as frozen data: what there is, what is wanted, where each blank lies, and why it is best.

All lengths are whole ticks, all areas square ticks.

Words
-----
stick
    One copy of a clean rectangle: an offcut, a board or a sheet.
blank
    A rectangle to be sawn out.
lane
    A full-length strip ripped from a stick, exactly as wide as its blanks; it is crosscut to blanks. n lanes fit
    across W when sum(w + kerf) <= W + kerf, n blanks along L when sum(a + kerf) <= L + kerf.
fence setting
    A lane width that is ripped. A lane as wide as its stick needs no rip and no setting.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from edgewright.cutlist.model import Source, Stage

__all__ = [
    "STAGES",
    "Blank",
    "DualCut",
    "GuillotineCertificate",
    "GuillotineLimits",
    "GuillotinePlan",
    "GuillotineRules",
    "GuillotineShortage",
    "Layout",
    "PlacedBlank",
    "Rest",
    "RippedLane",
    "StockRect",
]

Along = Literal["length", "width"]

#: In the order of the objective: cents, counts, and square ticks; the last is maximised, the others minimised.
STAGES = ("new material cost", "sticks touched", "fence settings", "largest remnant")


@dataclass(frozen=True, slots=True)
class StockRect:
    """A clean usable rectangle, ``count`` times.

    Attributes
    ----------
    count
        How many there are; None, for sale only, for as many as needed.
    price_cents
        Of one; counts only where it is for sale.
    grain
        Which way the grain runs; None where it does not matter.
    """

    id: str
    name: str
    source: Source
    length: int
    width: int
    count: int | None
    price_cents: int
    grain: Along | None


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle wanted ``count`` times.

    ``length`` is the sawn length along the strip. Without a grain it may be turned freely; where blank and stock both
    have one, the two must run the same way.
    """

    id: str
    length: int
    width: int
    count: int
    grain: Along | None


@dataclass(frozen=True, slots=True)
class GuillotineRules:
    """Rules of the saw.

    Attributes
    ----------
    min_rip_width
        No narrower lane is ripped; one as wide as its stick is not ripped and may be narrower.
    first
        Which way the rips run on a stick: along its length, along its width, or whichever is better.
    """

    kerf: int
    min_rip_width: int
    first: Literal["length", "width", "either"] = "length"


@dataclass(frozen=True, slots=True)
class GuillotineLimits:
    """Work limits, all of them counts.

    Attributes
    ----------
    patterns
        Ways to fill a lane or to rip a stick that are listed outright; above that only those that pay are made.
    rounds
        Rounds of pricing for one bound.
    cuts
        Inequalities on the number of sticks.
    tries
        Layouts by changing values on one choice of sticks.
    levels
        Choices of sticks between what is proven and what was found on which a layout is looked for.
    nodes
        Nodes of one solve of an integer program.
    steps
        Steps of the search through the numbers of sticks, and of the one through the layouts of a few sticks.
    """

    patterns: int = 1_000
    rounds: int = 200
    cuts: int = 60
    tries: int = 30
    levels: int = 8
    nodes: int = 60
    steps: int = 200_000


@dataclass(frozen=True, slots=True)
class PlacedBlank:
    """A blank in its lane: ``length`` along the lane from ``start``; ``turned`` when that is the blank's width."""

    blank_id: str
    length: int
    start: int
    turned: bool


@dataclass(frozen=True, slots=True)
class RippedLane:
    """A full-length strip of the stick; pieces in order from the start, one kerf between neighbours."""

    width: int
    pieces: tuple[PlacedBlank, ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """How one stick is sawn.

    ``copy`` counts from 1. Lanes run along the stick's ``first`` side and lie side by side across it from one edge, in
    the order given, one kerf between neighbours; what is left lies at the other edge.
    """

    stock_id: str
    copy: int
    first: Along
    lanes: tuple[RippedLane, ...]


@dataclass(frozen=True, slots=True)
class Rest:
    """What goes back to the rack from a stick that was sawn: the strip beside the lanes, or the end of a lane.

    ``length`` runs along the lanes, ``width`` across; neither is below ``min_rip_width``.
    """

    stock_id: str
    copy: int
    length: int
    width: int


@dataclass(frozen=True, slots=True)
class DualCut:
    """Points for each blank, by id. A stick holds at most so many points, all blanks together have so many.

    So the sticks of any plan must hold at least the points of all blanks. What a stick holds is worked out anew by
    whoever checks: the best lane of each width, then the best lanes side by side.
    """

    points: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class GuillotineCertificate:
    """Why no plan costs less, or touches fewer sticks for that cost; or why there is none.

    Every choice of sticks that would be better breaks one of the ``cuts``, or is among what was ``searched``: each of
    those names how many of which stock together cannot hold the blanks, found by trying every layout.
    """

    cuts: tuple[DualCut, ...]
    searched: tuple[tuple[tuple[str, int], ...], ...]


@dataclass(frozen=True, slots=True)
class GuillotinePlan:
    """Layouts of the sticks that are sawn, what is left of them, and the stages of the objective with their bounds.

    The largest remnant is the area (square ticks) of a full-length strip beside the lanes, or of a stick of one's own
    that was not touched.
    """

    layouts: tuple[Layout, ...]
    rests: tuple[Rest, ...]
    stages: tuple[Stage, ...]
    certificate: GuillotineCertificate


@dataclass(frozen=True, slots=True)
class GuillotineShortage:
    """Why there is no plan.

    Attributes
    ----------
    missing
        Ids of blanks that the best layout found leaves out, once for each blank; without them there is a plan.
    proven
        Whether the independent checker found too that the stock cannot hold all blanks.
    """

    sentence: str
    missing: tuple[str, ...]
    proven: bool
    certificate: GuillotineCertificate
