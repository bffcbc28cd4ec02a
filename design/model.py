"""The design: everything that follows from the job before any strip is planned."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.compass import PerSide, Side
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.outline import Outline
from edgewright.design.profile import EdgeProfile
from edgewright.findings import Finding
from edgewright.job import Job

__all__ = ["BaseFit", "Begun", "Design", "LoosePiece", "TrimSizes", "WidthLimits"]


@dataclass(frozen=True, slots=True)
class TrimSizes:
    """Sizes before and after the trims, whole ticks, in the frame of the old top.

    ``finished`` and the trims are chosen sizes and lie on the bench grid; ``old`` is measured and need not.
    """

    grid: int
    old: tuple[int, int]
    finished: tuple[int, int]
    origin: tuple[int, int]
    amounts: PerSide[int]


@dataclass(frozen=True, slots=True)
class LoosePiece:
    """A sound piece that came off in a cut already made, as measured, ticks.

    Attributes
    ----------
    edge_depth
        How deep below the old edge of its side its outer edge lay in the top.
    """

    cut: int
    side: Side
    length: int
    width: int
    edge_depth: int


@dataclass(frozen=True, slots=True)
class Begun:
    """A top of which some cuts are made, ticks, in the frame of the old top.

    Attributes
    ----------
    cuts_made
        How many cuts of the plan are made.
    off
        What has come off each side, kerfs included; with it the panel as it lies there follows from the old size.
    fresh
        Sides that have been cut.
    loose
        What came off and is sound, in the order of the cuts.
    sizes
        Old and finished size, and what comes off each side in all, with what is left to come off.
    """

    cuts_made: int
    off: PerSide[int]
    fresh: tuple[Side, ...]
    loose: tuple[LoosePiece, ...]
    sizes: TrimSizes

    @property
    def still(self) -> PerSide[int]:
        """What still comes off each side."""
        return PerSide.build(lambda side: self.sizes.amounts[side] - self.off[side])


@dataclass(frozen=True, slots=True)
class BaseFit:
    """Where the base stands under the finished top, millimetres.

    ``offset`` is how far the base's centre lies from the finished top's centre, (east, north) positive.
    ``overhang`` is from the finished edge to the base or apron, None where the job does not say.
    """

    offset: tuple[float, float]
    overhang: PerSide[float | None]


@dataclass(frozen=True, slots=True)
class WidthLimits:
    """Narrowest and widest strip that the bench checks allow, ticks, and what sets each."""

    floor: int
    floor_reason: str
    cap: int
    cap_reason: str


@dataclass(frozen=True, slots=True)
class Design:
    """The finished top and its edge.

    Attributes
    ----------
    thickness_mm, strip_thickness_mm, edge_thickness_mm
        T0 (mean of the readings), one layer of strip, and T = T0 + layers x strip thickness.
    corner_radii_mm
        Finished corner radii, south-west, south-east, north-east, north-west.
    profile, metrics
        None where no such profile exists (finding 201).
    keep_grain
        Whether strips of solid wood are planned only where their grain fits.
    begun
        None before the first cut.
    """

    job: Job
    sizes: TrimSizes
    thickness_mm: float
    strip_thickness_mm: float
    edge_thickness_mm: float
    old_outline: Outline
    finished_outline: Outline
    corner_radii_mm: tuple[float, float, float, float]
    profile: EdgeProfile | None
    metrics: EdgeMetrics | None
    base: BaseFit
    limits: WidthLimits
    findings: tuple[Finding, ...]
    keep_grain: bool = True
    begun: Begun | None = None
