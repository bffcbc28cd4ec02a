"""The box that the header gives, against the one that the lines fill."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from edgewright.dxf_audit.drawing import Drawing
from edgewright.dxf_audit.model import Fault, LayerAudit
from edgewright.dxf_audit.units import Text

__all__ = ["extent_faults"]

#: How much of the drawing's own size text may stick out beyond all lines.
_FOR_TEXT: Final = 1.0
#: What the header says, in reverse, where no box was ever reckoned.
_UNSET: Final = 1e20
#: Share of the size that is rounding.
_ROUNDING: Final = 1e-6


def extent_faults(
    drawing: Drawing, layers: Sequence[LayerAudit], texts: Sequence[Text], mm: float, *, exact: bool
) -> Iterator[Fault]:
    """Compare both boxes, in drawing units.

    Parameters
    ----------
    exact
        Whether the header counts each text by its anchor alone, as our own files do; else text may stick out.
    """
    if not layers:
        return
    try:
        said = [
            float(drawing.variable(name, code) or "") for name in ("$EXTMIN", "$EXTMAX") for code in (10, 20)
        ]
    except ValueError:
        said = [_UNSET, _UNSET, -_UNSET, -_UNSET]
    if said[0] >= _UNSET and said[2] <= -_UNSET:
        # it is asked for from our own files only: many writers leave it out
        if exact:
            yield Fault("extents", "", "the header gives no box ($EXTMIN, $EXTMAX): export the file again")
        return
    boxes = [[side / mm for side in layer.box] for layer in layers]
    places = [(text.x, text.y, text.x, text.y) for text in texts] if exact else []
    rows = list(zip(*boxes, *places, strict=True))
    box = [min(rows[0]), min(rows[1]), max(rows[2]), max(rows[3])]
    size = max(box[2] - box[0], box[3] - box[1])
    slack = _ROUNDING * max(size, 1.0)
    # how far the header's box reaches beyond the lines on each side
    beyond = (box[0] - said[0], box[1] - said[1], said[2] - box[2], said[3] - box[3])
    bound_by_lines = exact or len(drawing.entities) == sum(
        _is_line(entity.kind) for entity in drawing.entities
    )
    most = slack if bound_by_lines else _FOR_TEXT * size
    if not all(-slack <= by <= most for by in beyond):
        given, real = (" ".join(f"{value:.6g}" for value in figures) for figures in (said, box))
        yield Fault(
            "extents", "", f"the header says that the drawing fills {given}; it fills {real}: export it again"
        )


def _is_line(kind: str) -> bool:
    return kind in ("LINE", "ARC", "CIRCLE", "LWPOLYLINE", "POLYLINE")
