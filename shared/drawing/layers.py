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
    "OLD_OUTLINE",
    "PARTS",
    "REFERENCE",
    "SHEETS",
    "STRIPS",
]

FINISHED_OUTLINE: Final = Layer("FINISHED_OUTLINE", "edge of the finished top", WIDE_MM, "continuous", True)
OLD_OUTLINE: Final = Layer("OLD_OUTLINE", "edge of the top as measured", NARROW_MM, "long dash dot", False)
CUT_OUTS: Final = Layer("CUT_OUTS", "edges of holes in the finished top", WIDE_MM, "continuous", True)
KEEP_LINES: Final = Layer("KEEP_LINES", "where the wood that stays begins", NARROW_MM, "continuous", True)
KERFS: Final = Layer("KERFS", "what the blade takes, on the waste side", NARROW_MM, "dashed", False)
STRIPS: Final = Layer("STRIPS", "strips as they lie in the offcuts", WIDE_MM, "continuous", True)
PARTS: Final = Layer(
    "PARTS", "blanks of top and build-up as they lie in the sheets", WIDE_MM, "continuous", True
)
SHEETS: Final = Layer("SHEETS", "edges of sheets and boards", NARROW_MM, "long dash dot", False)
REFERENCE: Final = Layer("REFERENCE", "notes, units and scale bar", NARROW_MM, "continuous", False)
