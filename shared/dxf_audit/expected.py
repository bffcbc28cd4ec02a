"""A file of ours against the drawing it was written from: what each layer must hold, and the box it must fill."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from edgewright.drawing.strokes import plain_parts
from edgewright.drawing.view import Circle, Loop, Segment, View
from edgewright.dxf_audit.audit import FileAudit

__all__ = ["against_view"]

#: Inches are written to 16 digits; what differs more than this was never meant (mm).
_FIT_MM: Final = 1e-6


def against_view(found: FileAudit, view: View) -> Iterator[str]:
    """Sentences about what the file lacks or has too much."""
    for layer in view.layers:
        parts = [part for shape in view.on(layer.name) for part in plain_parts(shape)]
        loops = sum(isinstance(part, (Loop, Circle)) for part in parts)
        lines = sum(isinstance(part, Segment) for part in parts)
        got = found.layer(layer.name)
        held = (0, 0) if got is None else (got.closed, got.open)
        if not layer.cut and lines:
            continue  # strokes and marks
        if layer.name != "REFERENCE" and held != (loops, lines):
            yield f"{layer.name} holds {held[0]} loops and {held[1]} lines instead of {loops} and {lines}"
    for name, box in view.nominal:
        got = found.layer(name)
        if got is None or not all(abs(a - b) <= _FIT_MM for a, b in zip(got.box, box, strict=True)):
            yield f"{name} does not fill its planned size"
