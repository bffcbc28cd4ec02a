"""The ring of strips under the rim: which piece of side each strip covers, layer by layer.

Every strip lies with its outer edge ``proud`` outside the finished outline, so the ring is a rectangle of
(length + 2 proud) by (width + 2 proud). Along it, with strip width w and proud p:

- a through strip runs from corner to corner:      F + 2 p
- a fit-between strip lies between two of those:    F + 2 p - 2 w
- a pinwheel strip has one free end, one that butts: F + 2 p - w
- a mitred strip's long edge runs corner to corner: F + 2 p

where F is the finished side.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from edgewright.compass import SIDES, Side, is_lengthwise

__all__ = ["StripSpan", "ring_spans"]

Corners = Literal["butt", "pinwheel", "mitre"]


@dataclass(frozen=True, slots=True)
class StripSpan:
    """What one side of one layer needs: length and the offsets of its two ends from the finished corners, ticks."""

    side: Side
    layer: int
    length: int
    start_offset: int
    end_offset: int
    mitred: bool


def ring_spans(
    finished: tuple[int, int],
    strip_width: int,
    *,
    corners: Corners,
    through: Literal["long", "short"],
    proud: int = 0,
    layers: int = 1,
    alternate: bool = True,
) -> tuple[StripSpan, ...]:
    """Spans of all sides of all layers.

    Parameters
    ----------
    finished
        Finished (length, width), ticks.
    strip_width
        Width w of the strips, ticks.
    corners, through
        Corner style and, for butt corners, which pair runs through. On a square "long" is the pair along the length.
    proud
        How far the ring stands outside the finished outline, ticks.
    layers, alternate
        Number of layers; every second layer swaps the through pair (or turns the pinwheel the other way) so
        that no joint lies over another.
    """
    long_runs_lengthwise = finished[0] >= finished[1]
    spans = []
    for layer in range(1, layers + 1):
        swapped = alternate and layer % 2 == 0
        for side in SIDES:
            size = finished[0] if is_lengthwise(side) else finished[1]
            if corners == "mitre":
                ends = (True, True)
            elif corners == "pinwheel":
                # Going round counter-clockwise each strip starts free and butts into the next.
                starts_free = side in ("south", "east")
                ends = (starts_free != swapped, starts_free == swapped)
            else:
                runs_long = is_lengthwise(side) == long_runs_lengthwise
                runs_through = (runs_long == (through == "long")) != swapped
                ends = (runs_through, runs_through)
            start, end = (-proud if free else strip_width - proud for free in ends)
            spans.append(StripSpan(side, layer, size - start - end, start, end, corners == "mitre"))
    return tuple(spans)
