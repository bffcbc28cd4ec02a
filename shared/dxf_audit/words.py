"""An audit in words: a line for each thing looked at, and one for each fault."""

from __future__ import annotations

from collections.abc import Iterator

from edgewright.drawing.layers import REFERENCE
from edgewright.dxf_audit.audit import FileAudit
from edgewright.dxf_audit.model import LayerAudit
from edgewright.unit_words import printable

__all__ = ["audit_lines"]


def audit_lines(found: FileAudit) -> Iterator[tuple[str, int]]:
    """Lines of a report, each with its indent in characters."""
    yield f"{printable(found.name)[:80]}: DXF {found.version or 'of a version that it does not name'}", 0
    said = "; ".join(f"{source} {what}" for source, what in found.units.said)
    yield f"unit: {found.units.unit or 'not known, taken for mm'}{f' ({printable(said)})' if said else ''}", 2
    for layer in found.layers:
        if layer.name == REFERENCE.name:
            continue
        yield (
            f"{printable(layer.name)[:60]}: {layer_words(layer, found.units.unit or 'mm', found.units.mm)}",
            2,
        )
    for note in found.notes:
        yield f"note: {note}", 2
    if not found.faults:
        yield "Sound: nothing was found that a saw or router could trip over.", 0
        return
    yield f"{len(found.faults)} fault{'s' * (len(found.faults) != 1)}:", 0
    for fault in found.faults:
        yield f"{fault.kind}: {fault.message}", 2


def layer_words(layer: LayerAudit, unit: str, mm: float) -> str:
    """Outlines closed and size of a layer, in drawing units."""
    x0, y0, x1, y1 = (side / mm for side in layer.box)
    count = layer.closed + layer.open
    what = f"{layer.closed} of {count} outline{'s' * (count != 1)} closed"
    if layer.saw_lines:
        what = f"{count} straight saw line{'s' * (count != 1)}"
    if not layer.cut:
        what = f"{count} shape{'s' * (count != 1)}, no tool follows {'them' if count != 1 else 'it'}"
    return f"{what}; {x1 - x0:.6g} x {y1 - y0:.6g} {unit}"
