"""Each saw cut of a shaped top as the bench needs it: its number, its two marks on the rim, and its offcut."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.anytop.trim import ShapedTrims
from edgewright.design.shapes.model import Shape
from edgewright.design.trims.edge_names import inherited_names
from edgewright.design.trims.keep_marks import Mark, keep_marks
from edgewright.design.trims.offcut import Offcut
from edgewright.design.trims.straight_cut import Sawn

__all__ = ["CutRecord", "cut_records"]


@dataclass(frozen=True, slots=True)
class CutRecord:
    """One cut; ``marks`` are on the rim as it is before the cut, ``offcut`` is None where only dust comes off."""

    number: int
    sawn: Sawn
    marks: tuple[Mark, ...]
    offcut: Offcut | None


def cut_records(old: Shape, trims: ShapedTrims) -> tuple[CutRecord, ...]:
    """All cuts in order."""
    rim, names = old.outline, old.names
    left = list(trims.offcuts)
    found = []
    for number, sawn in enumerate(trims.cuts, start=1):
        offcuts, left = left[: len(sawn.offcuts)], left[len(sawn.offcuts) :]
        marks = keep_marks(rim, names, sawn.cut.keep)
        found.append(CutRecord(number, sawn, marks, offcuts[0] if offcuts else None))
        rim = sawn.kept.outer
        names = inherited_names(old, rim)
    return tuple(found)
