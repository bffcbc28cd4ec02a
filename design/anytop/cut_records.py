"""Each saw cut of a shaped top as the bench needs it: its number, where its keep line lies, and its offcut."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.design.anytop.trim import ShapedTrims
from edgewright.design.outline import Line
from edgewright.design.shapes.model import Shape
from edgewright.design.trims.cut_datum import Datum, edge_kept, edge_off
from edgewright.design.trims.edge_names import inherited_names
from edgewright.design.trims.keep_marks import Mark, keep_marks
from edgewright.design.trims.offcut import Offcut
from edgewright.design.trims.straight_cut import Sawn

__all__ = ["CutRecord", "cut_records"]


@dataclass(frozen=True, slots=True)
class CutRecord:
    """One cut.

    Attributes
    ----------
    marks
        Where the keep line meets the rim as it is before the cut.
    offcut
        None where only dust comes off.
    before
        The top before the cut.
    off, kept
        Straight edges parallel to the keep line: the one that comes off, and one that stays.
    """

    number: int
    sawn: Sawn
    marks: tuple[Mark, ...]
    offcut: Offcut | None
    before: Shape
    off: Datum | None
    kept: Datum | None

    @property
    def keep(self) -> Line:
        """Keep line from rim to rim, as far as it meets the rim (mm)."""
        if len(self.marks) == 2:
            return Line(self.marks[0].at, self.marks[1].at)
        return self.sawn.cut.keep

    def datum(self, way: str | None) -> Datum | None:
        """Edge that the keep line is measured from; None where it is marked at its ends only.

        Parameters
        ----------
        way
            How the job trims. An amount off an edge is measured in from that edge, everything else from one that
            stays.
        """
        if way in ("edges", "all_round"):
            return self.off or self.kept
        return self.kept or self.off


def cut_records(old: Shape, trims: ShapedTrims) -> tuple[CutRecord, ...]:
    """All cuts in order."""
    before = old
    left = list(trims.offcuts)
    found = []
    for number, sawn in enumerate(trims.cuts, start=1):
        offcuts, left = left[: len(sawn.offcuts)], left[len(sawn.offcuts) :]
        rim, names = before.outline, before.names
        marks = keep_marks(rim, names, sawn.cut.keep)
        keep = Line(marks[0].at, marks[1].at) if len(marks) == 2 else sawn.cut.keep
        off, kept = edge_off(rim, names, keep, sawn.cut.name), edge_kept(rim, names, keep)
        found.append(CutRecord(number, sawn, marks, offcuts[0] if offcuts else None, before, off, kept))
        before = Shape(sawn.kept.outer, inherited_names(old, sawn.kept.outer))
    return tuple(found)
