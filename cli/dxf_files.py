"""The DXF files of a plan, and the audit of each as it was written."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from edgewright.cutlist.drawing_files import DrawingFile, drawing_files, listed_pieces
from edgewright.drawing.audit import audit_view
from edgewright.drawing.dxf import Dialect, dxf_text
from edgewright.drawing.reference import FileUnits
from edgewright.dxf_audit.audit import audit_dxf
from edgewright.dxf_audit.expected import against_view
from edgewright.dxf_audit.words import audit_lines
from edgewright.errors import CheckError
from edgewright.file_names import file_word

if TYPE_CHECKING:
    from edgewright.cutlist.plan import Plan
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["AUDIT", "FOLDER", "dxf_files"]

FOLDER: Final = "dxf"
AUDIT: Final = "audit.txt"
#: Letters of the longest name of a part or material.
_LONGEST: Final = 30


def dxf_files(plan: Plan | ShapedPlan, units: FileUnits, dialect: Dialect) -> dict[str, bytes]:
    """All drawings of a plan that is ready, by name, with ``audit.txt``.

    Raises
    ------
    CheckError
        If one of them is not as it should be, read back from what was written.
    """
    drawings = drawing_files(plan)
    faults = [fault for one in drawings for fault in audit_view(one.view)]
    files: dict[str, bytes] = {}
    report = [
        f"Audit of the drawings of plan {plan.code}, each read back from its file as written.",
        "",
    ]
    listed = listed_pieces(plan)
    drawn: dict[str, list[str]] = {words: [] for words in listed}
    for one in drawings if not faults else ():
        name, data = _name(plan, one, units), dxf_text(one.view, units, dialect).encode("ascii")
        files[f"{FOLDER}/{name}"] = data
        found = audit_dxf(data, name)
        wrong = (*(fault.message for fault in found.faults), *against_view(found, one.view))
        faults += [f"{name}: {fault}" for fault in wrong]
        pieces = [word for word in found.words if word in listed.get(one.lists, ())]
        drawn.setdefault(one.lists, []).extend(pieces)
        report += [f"{' ' * indent}{line}" for line, indent in audit_lines(found)]
        report += [f"  {line}" for line in _looked_at(one, len(pieces))]
        report.append("")
    for words, names in listed.items():
        report.append(f"Pieces {words}: {len(drawn[words])} in the drawings, {len(names)} in the cut list.")
        if sorted(drawn[words]) != sorted(names) and not faults:
            faults.append(
                f"pieces {words} are {sorted(drawn[words])} in the drawings and {sorted(names)} in the cut list"
            )
    if faults:
        listed_faults = "; ".join(faults[:5])
        raise CheckError(
            f"the drawings failed their check, so nothing is written; please report this: {listed_faults}"
        )
    text = "\n".join(report) + "\n"
    return files | {f"{FOLDER}/{AUDIT}": text.encode("ascii")}


def _looked_at(one: DrawingFile, pieces: int) -> Iterator[str]:
    layers = [name for name, _ in one.view.nominal]
    yield "no doubles, no crossings, no line of no length; Z = 0; no text on a cut layer; both unit headers agree"
    if layers:
        yield f"fills its planned size: {', '.join(layers)}"
    if one.lists:
        yield f"pieces of the cut list: {pieces}"


def _name(plan: Plan | ShapedPlan, one: DrawingFile, units: FileUnits) -> str:
    """File name: part, material, thickness in the job's units, quantity, unit of the drawing."""
    words = [file_word(one.part, _LONGEST)]
    if one.thickness_mm is not None:
        words += [file_word(plan.job.top.material, _LONGEST), _thickness(one.thickness_mm, plan.job.units)]
    return "_".join([*words, "x1", units]) + ".dxf"


def _thickness(mm: float, units: FileUnits) -> str:
    """Thickness with a hyphen for the decimal point, which a file name cannot have."""
    figure = f"{mm / 25.4:.3f}" if units == "in" else f"{mm:.1f}"
    return figure.rstrip("0").rstrip(".").replace(".", "-") + units
