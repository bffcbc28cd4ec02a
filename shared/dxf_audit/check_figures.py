"""Check figures that our own files carry on their reference layer: loops, length and area of each layer.

A line that was dropped or turned over on its way shows in them, in whatever shape it was part of.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.drawing.layers import REFERENCE
from edgewright.dxf_audit.model import CheckFigures, Fault, LayerAudit
from edgewright.dxf_audit.units import Text

__all__ = ["figure_faults", "figures_of"]

_LINE: Final = re.compile(
    r"([A-Z_]{1,40}): (\d{1,6}) closed, (\d{1,6}) open, length (\d{1,12}\.(\d{1,6})), area (\d{1,15}\.\d{1,6})"
)


def figures_of(texts: Sequence[Text]) -> tuple[CheckFigures, ...]:
    """Check figures of a file, none for one that is not ours."""
    found = (_LINE.fullmatch(text.words.strip()) for text in texts if text.layer == REFERENCE.name)
    return tuple(
        CheckFigures(one[1], int(one[2]), int(one[3]), float(one[4]), float(one[6]), 10.0 ** -len(one[5]))
        for one in found
        if one is not None
    )


def figure_faults(
    figures: Sequence[CheckFigures], layers: Sequence[LayerAudit], mm: float
) -> Iterator[Fault]:
    """Layers that are not as the file says of them; ``mm`` are those of one drawing unit."""
    for said in figures:
        layer = next((layer for layer in layers if layer.name == said.layer), None)
        if layer is None:
            yield Fault(
                "check figures",
                said.layer,
                f"{said.layer} should hold lines and holds none: get the file again",
            )
        elif not layer.agrees(said, mm):
            want = _shown(said.closed, said.open, said.length, said.area)
            got = _shown(layer.closed, layer.open, layer.length / mm, layer.area / mm**2)
            yield Fault(
                "check figures",
                said.layer,
                f"{said.layer} should hold {want} and holds {got}: get the file again",
            )


def _shown(closed: int, open_: int, length: float, area: float) -> str:
    return f"{closed} closed and {open_} open, length {length:.4f}, area {area:.4f}"
