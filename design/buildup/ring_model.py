"""What a build-up ring is made of: its pieces, each as a straight blank and as it lies under the rim.

Words
-----
ring
    One layer of wood under the rim; layer 1 lies against the top.
ring width
    What the ring must be wide everywhere after it is trimmed flush, measured square to the edge.
blank
    The straight piece of wood as it is sawn, before its outer edge is trimmed flush with the finished outline.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

from edgewright.design.clip import clip_half_plane
from edgewright.design.outline import FIT_MM, Outline, Point
from edgewright.design.region import Region
from edgewright.errors import GeometryError

__all__ = ["Cut", "PieceKind", "RingPiece", "RingSettings", "quad", "under_rim"]

PieceKind = Literal["strip", "segment", "corner block", "inside block", "skirt"]

#: A corner so near to square is butted like a square one, its ends cut to the angle (choice of this program).
SQUARE_WITHIN: Final = math.radians(10)


@dataclass(frozen=True, slots=True)
class RingSettings:
    """How the ring is to be made; lengths in mm.

    Attributes
    ----------
    strip_width, strip_thickness
        Width w of the straight strips and thickness of one layer.
    ring_width
        Width b that the ring needs everywhere, at most w.
    proud
        How far blanks stand outside the finished outline until they are trimmed flush.
    layers, alternate
        Number of layers; every second one turns its corners and its segments so that no joint lies over another.
    corners, through
        Style of the square outside corners, and for butt corners whether the longer side's strip runs through.
    largest_block
        Longest side of a corner or inside block; an arc that needs more is made of segments.
    largest_blank
        Widest blank of a segment; None for 1.6 times the ring width.
    segments_per_circle
        Segments to a full circle; where given, ``largest_blank`` is not looked at.
    corner_width
        Width that is enough inside a rounded corner, at most the ring width; None for the ring width.
    grain
        Direction of the top's grain, radians from east; None for sheet goods.
    """

    strip_width: float
    strip_thickness: float
    ring_width: float
    proud: float = 0.0
    layers: int = 1
    alternate: bool = True
    corners: Literal["butt", "pinwheel", "mitre"] = "butt"
    through: Literal["long", "short"] = "long"
    largest_block: float = 254.0
    largest_blank: float | None = None
    segments_per_circle: int | None = None
    grain: float | None = None
    corner_width: float | None = None

    def __post_init__(self) -> None:
        for name in ("strip_width", "strip_thickness", "ring_width", "largest_block"):
            size = getattr(self, name)
            if not (math.isfinite(size) and size > FIT_MM):
                raise GeometryError(
                    f"{name.replace('_', ' ')} is {size:g} mm; it must be greater than 0 mm: give its size"
                )
        if not 0 <= self.proud < self.strip_width:
            raise GeometryError(
                f"proud is {self.proud:g} mm; it must be at least 0 mm and less than the strip width "
                f"{self.strip_width:g} mm: strips stand 1 or 2 mm proud"
            )
        if self.ring_width + self.proud > self.strip_width + FIT_MM:
            raise GeometryError(
                f"ring width {self.ring_width:g} mm and proud {self.proud:g} mm are more than the strip width "
                f"{self.strip_width:g} mm: use wider strips"
            )
        if self.layers < 1:
            raise GeometryError(f"layers is {self.layers}; it must be at least 1: count the layers of strips")
        most = self.blank_limit
        if self.segments_per_circle is None and most <= self.ring_width + self.proud + FIT_MM:
            raise GeometryError(
                f"widest segment blank is {most:g} mm; it must be more than ring width and proud together, "
                f"{self.ring_width + self.proud:g} mm: allow wider blanks"
            )
        if self.segments_per_circle is not None and not 4 <= self.segments_per_circle <= 360:
            raise GeometryError(
                f"segments per circle is {self.segments_per_circle}; it must be 4 to 360: 8, 12 or 16 are usual"
            )

    @property
    def least_in_corner(self) -> float:
        """Width that must stay inside a rounded corner (mm)."""
        return self.ring_width if self.corner_width is None else min(self.corner_width, self.ring_width)

    @property
    def blank_limit(self) -> float:
        """Widest blank of a segment (mm)."""
        return 1.6 * self.ring_width + self.proud if self.largest_blank is None else self.largest_blank

    def swapped(self, layer: int) -> bool:
        """Whether the layer's joints are turned against those of the layer above."""
        return self.alternate and layer % 2 == 0


@dataclass(frozen=True, slots=True)
class RingPiece:
    """One piece of the build-up; lengths in mm, seen from above in the frame of the top.

    Attributes
    ----------
    id
        Layer and number, counted counter-clockwise, like ``1.3``.
    edges
        Plain names of the edges it lies under.
    blank_length, blank_width, thickness
        Straight blank that the piece is cut from; the length is that of its longest edge with both cuts.
    start_angle, end_angle
        Cut of each end, degrees from square, positive where the outer edge is the longer one. For an inside
        block, 0: its ends are square to the edges.
    plan
        Corners of the piece as glued, counter-clockwise, before it is trimmed flush: see `under_rim`.
    joints
        Where its start and its end meet the edge of the finished outline.
    grain
        Direction of its own grain as it lies, radians from east; None for sheet goods. A strip or segment has
        its grain along its length, a block is turned to lie with the top.
    """

    id: str
    kind: PieceKind
    layer: int
    edges: tuple[str, ...]
    blank_length: float
    blank_width: float
    thickness: float
    start_angle: float
    end_angle: float
    plan: tuple[Point, ...]
    joints: tuple[Point, Point]
    grain: float | None = None


@dataclass(frozen=True, slots=True)
class Cut:
    """Straight cut across the ring through ``point``, running ``inward`` (unit vector).

    ``at`` is where the joint meets the finished edge.
    """

    point: Point
    inward: Point
    at: Point


def quad(
    edge: Point, along: Point, outer: float, inner: float, start: Cut, end: Cut, name: str
) -> tuple[tuple[Point, Point, Point, Point], float, float, float]:
    """Piece between two parallel long edges and two cuts.

    Parameters
    ----------
    edge, along
        A point of the finished edge and the unit vector along the piece, wood on its left.
    outer, inner
        Distances of the long edges from ``edge``, to the left (mm); the outer one is the smaller.
    start, end
        Cuts of the two ends.
    name
        Edge to name where the cuts leave nothing between them.

    Returns
    -------
    tuple
        Corners counter-clockwise from the outer start, length of the blank (mm), and both cut angles (degrees).

    Raises
    ------
    GeometryError
        If one of the long edges has no length.
    """
    (ux, uy), (nx, ny) = along, (-along[1], along[0])
    corners, places = [], []
    for depth, cut in ((outer, start), (outer, end), (inner, end), (inner, start)):
        px, py = edge[0] + depth * nx, edge[1] + depth * ny
        (qx, qy), (vx, vy) = cut.point, cut.inward
        cross = ux * vy - uy * vx
        if abs(cross) < 1e-9:
            raise GeometryError(f"{name}: an end would be cut along the piece: divide the edge otherwise")
        t = ((qx - px) * vy - (qy - py) * vx) / cross
        corners.append((px + t * ux, py + t * uy))
        places.append((corners[-1][0] - edge[0]) * ux + (corners[-1][1] - edge[1]) * uy)
    outside, inside = places[1] - places[0], places[2] - places[3]
    if outside <= FIT_MM or inside < -FIT_MM:
        raise GeometryError(
            f"{name}: between its ends {min(outside, inside):.4g} mm are left for a piece {inner - outer:.4g} mm "
            "wide; it must be more than 0 mm: use narrower strips or fewer segments, or a solid block there"
        )
    depth = inner - outer
    angles = [math.degrees(math.atan2(d, depth)) for d in (places[3] - places[0], places[1] - places[2])]
    first, second, third, fourth = corners
    return (first, second, third, fourth), max(places) - min(places), angles[0], angles[1]


def under_rim(piece: RingPiece, finished: Region) -> tuple[Outline, ...]:
    """Piece after it is trimmed flush: the part of its plan that lies in the finished top, exact, largest first.

    Parameters
    ----------
    piece
        A piece whose plan is convex, as every flat one is; not a skirt.
    finished
        The finished top.
    """
    parts: tuple[Region, ...] = (finished,)
    for a, b in zip(piece.plan, (*piece.plan[1:], piece.plan[0]), strict=True):
        if math.dist(a, b) > FIT_MM:
            parts = tuple(
                half for part in parts for half in clip_half_plane(part, a, (b[0] - a[0], b[1] - a[1]))
            )
    return tuple(sorted((part.outer for part in parts), key=lambda loop: -loop.area))
