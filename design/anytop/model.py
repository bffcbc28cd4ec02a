"""The design of a top of any outline: what follows from its measurements before any stock is looked at."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.anytop.trim import ShapedTrims
from edgewright.design.buildup.ring_model import RingPiece
from edgewright.design.mass import Body
from edgewright.design.metrics import EdgeMetrics
from edgewright.design.outline import Line, Outline
from edgewright.design.profile import EdgeProfile
from edgewright.design.reach import UncutTip
from edgewright.design.region import Region
from edgewright.design.shapes.model import Shape
from edgewright.findings import Finding
from edgewright.job_shaped import ShapedJob

__all__ = ["CornerTip", "CutOutEdge", "EdgeRun", "FinishedMass", "SeamLengths", "ShapedDesign"]


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """One named edge of the finished top: its length (mm), and whether it is routed and coated."""

    name: str
    length: float
    routed: bool


@dataclass(frozen=True, slots=True)
class CornerTip:
    """What the bit of one arris (``top`` or ``bottom``) leaves standing in a named inside corner."""

    corner: str
    arris: str
    tip: UncutTip


@dataclass(frozen=True, slots=True)
class CutOutEdge:
    """The edge of one cut-out, as thick as the top layer.

    Attributes
    ----------
    outline
        Clockwise, in the frame of the old top.
    perimeter, edge_area
        In mm and mm².
    """

    name: str
    outline: Outline
    routed: bool
    perimeter: float
    edge_area: float


@dataclass(frozen=True, slots=True)
class SeamLengths:
    """Seams by length, mm.

    Attributes
    ----------
    glue
        Glue lines on the edge, one for each layer of strips.
    joints
        Joints between the pieces of the ring where they show on the edge, each as high as its layer.
    panel
        Seams of the old top that remain in the finished face.
    """

    glue: float
    joints: float
    panel: float


@dataclass(frozen=True, slots=True)
class FinishedMass:
    """Wood of the finished top: volumes in mm³ and the common centre (x, y, depth below the face), mm."""

    top: Body
    ring: Body | None
    whole: Body


@dataclass(frozen=True, slots=True)
class ShapedDesign:
    """A finished top of any outline and its edge; lengths in mm, x to the east, y to the north.

    Attributes
    ----------
    old, finished
        Outline as measured, and after the trims and with its corners rounded; of a new top the blank it is sawn as,
        and its own.
    region
        The finished top with its cut-outs.
    trims
        Cuts, router paths and offcuts.
    thickness_mm, strip_thickness_mm, edge_thickness_mm
        T0 (mean of the readings), one layer of strips, and T of the edge.
    profile, metrics
        None where no such profile exists (finding 201). The metrics are of the routed edges of the outer rim, as
        the bits leave them.
    parallel_metrics
        The same if every bit reached into the inside corners: the solid is built so.
    runs
        The edges of the rim by name.
    still
        Numbers, in the order of ``region.segments``, of what is not routed.
    layer_areas
        Area of the routed edge by layer, the top layer first (mm²).
    tips
        What the bearing cannot reach at inside corners.
    pieces, glue_face_mm2
        Pieces of the build-up, and the area that is glued.
    """

    job: ShapedJob
    old: Shape
    finished: Shape
    region: Region
    trims: ShapedTrims
    thickness_mm: float
    strip_thickness_mm: float
    edge_thickness_mm: float
    profile: EdgeProfile | None
    metrics: EdgeMetrics | None
    parallel_metrics: EdgeMetrics | None
    runs: tuple[EdgeRun, ...]
    still: frozenset[int]
    cut_outs: tuple[CutOutEdge, ...]
    layer_areas: tuple[float, ...]
    panel_seams: tuple[Line, ...]
    seams: SeamLengths
    tips: tuple[CornerTip, ...]
    strip_width_mm: float
    pieces: tuple[RingPiece, ...]
    glue_face_mm2: float
    mass: FinishedMass
    findings: tuple[Finding, ...]

    @property
    def before(self) -> Shape:
        """The top that base and places were measured under: the old one; of a new top its own edges."""
        return self.trims.finished if self.job.top.new else self.old
