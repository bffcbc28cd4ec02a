"""What every figure on paper must hold: no text on another, nothing outside the box, lettering of 9 pt.

On sheets with tables no rule and no box to tick runs through lettering either, and main figures are read from afar.
"""

from __future__ import annotations

from edgewright.drawing.audit import audit_view
from edgewright.drawing.lettering import note_box
from edgewright.drawing.paper import THIN
from edgewright.drawing.svg import drawn_box
from edgewright.drawing.view import Circle, Note, Segment, View

LEAST_MM = 9 * 25.4 / 72
#: Letters that reach below the base line; where there are none, that room is free.
_BELOW = set("gjpqyQ,;()[]/|_")


def paper_faults(view: View, width: float, height: float) -> list[str]:
    """Sentences about texts that overlap, leave the box or are too small, and about what the self-check finds."""
    faults = list(audit_view(view))
    notes = [shape for _, shape in view.shapes if isinstance(shape, Note)]
    circles = [shape for _, shape in view.shapes if isinstance(shape, Circle) and shape.radius > 2]
    x0, y0, x1, y1 = drawn_box(view)
    if x0 < -0.01 or y0 < -0.01 or x1 > width + 0.01 or y1 > height + 0.01:
        faults.append(f"drawn from {x0:.1f} {y0:.1f} to {x1:.1f} {y1:.1f}, box {width:g} x {height:g}")
    boxes = [(note.text, note_box(note)) for note in notes]
    numbered = {(c.x, c.y): (c.x - c.radius, c.y - c.radius, c.x + c.radius, c.y + c.radius) for c in circles}
    for note in notes:
        if note.height_mm < LEAST_MM:
            faults.append(f"{note.text!r} is only {note.height_mm:g} mm high")
    # the number inside a circle is part of the circle
    inside = [
        b
        for t, b in boxes
        if any(c[0] < b[0] and b[2] < c[2] and c[1] < b[1] and b[3] < c[3] for c in numbered.values())
    ]
    boxes = [(t, b) for t, b in boxes if b not in inside] + [("circle", c) for c in numbered.values()]
    for index, (text, a) in enumerate(boxes):
        for other, b in boxes[:index]:
            if min(a[2], b[2]) - max(a[0], b[0]) > 0.01 and min(a[3], b[3]) - max(a[1], b[1]) > 0.01:
                faults.append(f"{text!r} overlaps {other!r}")
    return faults


def ruled_faults(view: View) -> list[str]:
    """Sentences about upright or level thin lines (rules, boxes) that run through lettering."""
    lines = [
        (min(s.x0, s.x1), min(s.y0, s.y1), max(s.x0, s.x1), max(s.y0, s.y1))
        for s in view.on(THIN.name)
        if isinstance(s, Segment) and (abs(s.x0 - s.x1) < 1e-6 or abs(s.y0 - s.y1) < 1e-6)
    ]
    faults = []
    for _, note in view.shapes:
        if isinstance(note, Note):
            x0, y0, x1, y1 = note_box(note)
            inset = 0.05 * note.height_mm
            if not note.angle and not set(note.text) & _BELOW:
                y0 = note.y
            for a in lines:
                if a[0] < x1 - inset and a[2] > x0 + inset and a[1] < y1 - inset and a[3] > y0 + inset:
                    faults.append(f"a line from {a[0]:.1f} {a[1]:.1f} runs through {note.text!r}")
    return faults
