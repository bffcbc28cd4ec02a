"""The layers of all drawings, named in plain trade words.

Wide lines are edges of parts, narrow ones everything else. A tool may follow a cut layer; the others only
explain.
"""

from __future__ import annotations

from typing import Final

from edgewright.drawing.view import NARROW_MM, WIDE_MM, Layer

__all__ = [
    "CUT_OUTS",
    "FINISHED_OUTLINE",
    "KEEP_LINES",
    "KERFS",
    "LAYERS",
    "OLD_OUTLINE",
    "PARTS",
    "REFERENCE",
    "STOCK_EDGES",
    "STRIPS",
    "STRIP_PLACES",
    "TEMPLATE_EDGE",
    "TEMPLATE_OPENINGS",
    "UNDERSIDE_OUTLINE",
]

FINISHED_OUTLINE: Final = Layer("FINISHED_OUTLINE", "edge of the finished top", WIDE_MM, "continuous", True)
OLD_OUTLINE: Final = Layer("OLD_OUTLINE", "edge of the top as measured", NARROW_MM, "long dash dot", False)
CUT_OUTS: Final = Layer("CUT_OUTS", "edges of holes in the finished top", WIDE_MM, "continuous", True)
KEEP_LINES: Final = Layer("KEEP_LINES", "where the wood that stays begins", NARROW_MM, "continuous", True)
KERFS: Final = Layer("KERFS", "what the blade takes, on the waste side", NARROW_MM, "dashed", False)
STRIPS: Final = Layer("STRIPS", "strips as they lie in the offcuts", WIDE_MM, "continuous", True)
PARTS: Final = Layer(
    "PARTS", "parts as they are crosscut from the strips of a stick", WIDE_MM, "continuous", True
)
STOCK_EDGES: Final = Layer(
    "STOCK_EDGES", "edges of offcuts, boards and sheets", NARROW_MM, "long dash dot", False
)
TEMPLATE_EDGE: Final = Layer("TEMPLATE_EDGE", "edge that the bearing runs along", WIDE_MM, "continuous", True)
TEMPLATE_OPENINGS: Final = Layer(
    "TEMPLATE_OPENINGS", "openings that the bearing runs along within", WIDE_MM, "continuous", True
)
#: Mirrored, so no tool may follow them.
UNDERSIDE_OUTLINE: Final = Layer(
    "UNDERSIDE_OUTLINE", "edge of the finished top, seen from below", NARROW_MM, "continuous", False
)
STRIP_PLACES: Final = Layer(
    "STRIP_PLACES", "strips as they are glued on, seen from below", WIDE_MM, "continuous", False
)
REFERENCE: Final = Layer("REFERENCE", "notes, units and scale bar", NARROW_MM, "continuous", False)
LAYERS: Final = (
    *(FINISHED_OUTLINE, OLD_OUTLINE, CUT_OUTS, KEEP_LINES, KERFS, STRIPS, PARTS, STOCK_EDGES, TEMPLATE_EDGE),
    *(TEMPLATE_OPENINGS, UNDERSIDE_OUTLINE, STRIP_PLACES, REFERENCE),
)
"""All of them."""
