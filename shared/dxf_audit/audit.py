"""Audit the bytes of a DXF file; each fault is a sentence with its place in drawing units."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.drawing.layers import LAYERS
from edgewright.dxf_audit.check_figures import figure_faults, figures_of
from edgewright.dxf_audit.drawing import Drawing, Entity, read_drawing
from edgewright.dxf_audit.extents import extent_faults
from edgewright.dxf_audit.layer_audit import audit_layer
from edgewright.dxf_audit.model import Fault, LayerAudit
from edgewright.dxf_audit.paths import LINES, Path, path_of
from edgewright.dxf_audit.tags import UnreadableError
from edgewright.dxf_audit.units import UnitEvidence, texts_of, unit_evidence
from edgewright.unit_words import printable

__all__ = ["VERSIONS", "Fault", "FileAudit", "LayerAudit", "UnreadableError", "audit_dxf"]

MOST_EDGES: Final = 50_000
#: Faults of one kind that are told one by one.
_MOST_TOLD: Final = 20
VERSIONS: Final = {
    "AC1006": "R10",
    "AC1009": "R12",
    "AC1012": "R13",
    "AC1014": "R14",
    "AC1015": "R2000",
    "AC1018": "R2004",
    "AC1021": "R2007",
    "AC1024": "R2010",
    "AC1027": "R2013",
    "AC1032": "R2018",
}
"""Versions by what $ACADVER says."""
_OWN: Final = {layer.name: layer.cut for layer in LAYERS}
_FOR_NOTES: Final = re.compile(
    r"note|text|dim|title|border|frame|refer|hatch|label|legend|scale|defpoint|viewport|kerf|cent(?:re|er)|hidden|"
    r"construct|guide|annot"
)
_WORDS: Final = frozenset(
    {
        *("TEXT", "MTEXT", "ATTDEF", "HATCH", "DIMENSION", "ARC_DIMENSION", "LARGE_RADIAL_DIMENSION"),
        *("LEADER", "MULTILEADER", "MLEADER", "TOLERANCE"),
    }
)
_CURVES: Final = frozenset({"SPLINE", "ELLIPSE", "HELIX", "MLINE"})
#: A point marks a hole; a view of the paper, a ray and the like are no part of the drawing.
_LEFT: Final = frozenset({"POINT", "VIEWPORT", "XLINE", "RAY"})


@dataclass(frozen=True, slots=True)
class FileAudit:
    """What an audit found.

    Attributes
    ----------
    version
        ``R2000`` and the like; empty where the header does not say.
    layers
        Those that hold lines, in the order of the file.
    notes
        What is worth knowing and no fault.
    words
        All text on the drawing.
    """

    name: str
    version: str
    units: UnitEvidence
    layers: tuple[LayerAudit, ...]
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]
    words: tuple[str, ...]

    def layer(self, name: str) -> LayerAudit | None:
        """A layer by its name."""
        return next((layer for layer in self.layers if layer.name == name), None)


def audit_dxf(data: bytes, file_name: str, cut: Sequence[str] | None = None) -> FileAudit:
    """Audit a file.

    Parameters
    ----------
    data
        The whole file, ASCII of R12 to R2018, or binary.
    file_name
        Its name without folders; it may say the unit.
    cut
        Names of the layers that a tool follows; without them all layers with lines, but those of our own drawings that
        none follows and those that are off or named for notes.

    Raises
    ------
    UnreadableError
        If it is no whole DXF file, or holds more than is read.
    """
    shown = printable(file_name)[:80]
    drawing = read_drawing(data, shown)
    texts = texts_of(drawing)
    units = unit_evidence(drawing, texts, file_name)
    figures = figures_of(texts)
    wanted = None if cut is None else {name.casefold() for name in cut}
    faults = [Fault("units", "", sentence) for sentence in units.faults]
    paths: dict[str, list[Path]] = {}
    count = 0
    for entity in drawing.entities:
        is_cut = _is_cut(entity.layer, drawing, wanted)
        if entity.kind in LINES:
            path, wrong = path_of(entity, units.mm)
            faults += [Fault(one.kind, entity.layer, f"{entity.label} {one.words}") for one in wrong]
            if path is not None:
                paths.setdefault(entity.layer, []).append(path)
                count += len(path.edges)
                if count > MOST_EDGES:
                    raise UnreadableError(f"{shown} holds more than {MOST_EDGES} lines and arcs: divide it")
        elif is_cut:
            faults += _of_other_kind(entity)
    layers: list[LayerAudit] = []
    notes: list[str] = []
    for name, own in paths.items():
        figure = next((one for one in figures if one.layer == name), None)
        found = audit_layer(name, own, cut=_is_cut(name, drawing, wanted), mm=units.mm, figures=figure)
        layers.append(found.layer)
        faults += found.faults
        notes += found.notes
    faults += figure_faults(figures, layers, units.mm)
    faults += extent_faults(drawing, layers, texts, units.mm, exact=bool(figures))
    if not layers:
        faults.append(Fault("empty", "", "no line or arc lies in the model space: draw the parts there"))
    faults += _unknown(cut or (), layers)
    version = VERSIONS.get(drawing.variable("$ACADVER", 1) or "", "")
    words = tuple(text.words for text in texts)
    return FileAudit(file_name, version, units, tuple(layers), tuple(_short(faults)), tuple(notes), words)


def _is_cut(layer: str, drawing: Drawing, wanted: set[str] | None) -> bool:
    if wanted is not None:
        return layer.casefold() in wanted
    if layer in _OWN:
        return _OWN[layer]
    return layer.upper() not in drawing.unseen and _FOR_NOTES.search(layer.lower()) is None


def _of_other_kind(entity: Entity) -> Iterator[Fault]:
    """Faults of an entity that is no line and lies on a cut layer."""
    kind, label = entity.kind, entity.label
    if kind in _WORDS:
        words = "is no line, and a tool follows all on its layer: move it to a layer for notes"
        yield Fault("text on a cut layer", entity.layer, f"{label} {words}")
    elif kind in _CURVES:
        words = "is a curve that many controllers drop or turn into chords: fit arcs to it"
        yield Fault("curve", entity.layer, f"{label} {words}")
    elif kind == "INSERT":
        block = printable(entity.first(2))[:40]
        yield Fault("block", entity.layer, f"{label} is the block {block}: explode it to lines and arcs")
    elif kind not in _LEFT:
        yield Fault(
            "other kind",
            entity.layer,
            f"{label} is nothing that a tool can follow: draw it with lines and arcs",
        )


def _unknown(wanted: Sequence[str], layers: Sequence[LayerAudit]) -> Iterator[Fault]:
    held = {layer.name.casefold() for layer in layers}
    for name in (name for name in wanted if name.casefold() not in held):
        yield Fault(
            "empty", name, f"layer {printable(name)[:60]} holds no line or arc: look how its name is written"
        )


def _short(faults: Sequence[Fault]) -> Iterator[Fault]:
    """Tell the first faults of each kind, and how many more there are."""
    many = Counter(fault.kind for fault in faults)
    told: Counter[str] = Counter()
    for fault in faults:
        told[fault.kind] += 1
        if told[fault.kind] <= _MOST_TOLD:
            yield fault
        elif told[fault.kind] == many[fault.kind]:
            yield Fault(fault.kind, "", f"and {many[fault.kind] - _MOST_TOLD} more like those before")
