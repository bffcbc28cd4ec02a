"""The design: everything that follows from the job before any strip is planned."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.compass import PerSide
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.outline import Outline
from edgewright.design.profile import EdgeProfile
from edgewright.findings import Finding
from edgewright.job import Job

__all__ = ["BaseFit", "Design", "TrimSizes", "WidthLimits"]


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
