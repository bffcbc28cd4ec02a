"""What the drawings say beside their lines: face, tool side, size."""

from __future__ import annotations

from typing import Final

__all__ = [
    "FACE_DOWN",
    "FACE_UP",
    "INSIDE",
    "OUTSIDE",
    "PLACES",
    "SAWN",
    "TEMPLATE_INSIDE",
    "TEMPLATE_OUTSIDE",
    "heading_lines",
]

FACE_UP: Final = "seen from above, face up"
FACE_DOWN: Final = "UNDERSIDE view, mirrored: top face DOWN, east is on the left, west on the right"
OUTSIDE: Final = (
    "FINISHED_OUTLINE is the finished edge, not offset for the tool: cut outside it, on the waste side"
)
INSIDE: Final = "CUT_OUTS are finished edges, not offset for the tool: cut inside them"
TEMPLATE_OUTSIDE: Final = (
    "TEMPLATE_EDGE is the finished edge, not offset for the tool: cut the template outside it"
)
TEMPLATE_INSIDE: Final = "TEMPLATE_OPENINGS are finished edges, not offset: cut the template inside them"
SAWN: Final = (
    "STRIPS as ripped, PARTS as crosscut, not offset: the kerf lies outside each line, on the waste side"
)
PLACES: Final = "shows where each strip is glued on; no tool follows this drawing"


def heading_lines(title: str, plan_code: str) -> list[str]:
    """Title and plan code: the code stands on every drawing, so that old and new never mix."""
    return [title, f"plan {plan_code}"]
