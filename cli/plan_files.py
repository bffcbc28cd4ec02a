"""All files of a plan as bytes, before any of them is written; the solid is built beside the rest."""

from __future__ import annotations

import tempfile
from pathlib import Path

from edgewright.cli.packet import Paper
from edgewright.cutlist.plan import Plan
from edgewright.drawing.dxf import Dialect

__all__ = ["plan_files"]


def plan_files(
    plan: Plan, *, dialect: Dialect, paper: Paper, solid: bool
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Everything but plan.json, and what was left out and why.

    While NOT FOR CUTTING there is nothing one could cut by: the quantities and a marked packet only.

    Raises
    ------
    CheckError
        If a drawing or the packet fails its own check.
    """
    if not plan.ready:
        return _sheets(plan, dialect, paper), ()
    if not solid:
        return _sheets(plan, dialect, paper), ()
    try:
        folder = tempfile.TemporaryDirectory(prefix="edgewright-")
    except OSError as error:
        why = (
            f"top.step and top.glb are left out: no temporary folder can be written ({error.strerror}); "
            "set TMPDIR to one that can"
        )
        return _sheets(plan, dialect, paper), (why,)
    with folder as name:
        return _with_solid(plan, Path(name), dialect, paper)


def _with_solid(
    plan: Plan, folder: Path, dialect: Dialect, paper: Paper
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from edgewright.cli.solid_process import start_solid
    from edgewright.cutlist.solid_spec import solid_spec

    building = start_solid(
        solid_spec(plan.design, plan.cut_plan), folder, f"{plan.job.info.title} {plan.code}"
    )
    try:
        files = _sheets(plan, dialect, paper)
        result = building.finish()
    except BaseException:
        building.cancel()
        raise
    files |= {path.name: path.read_bytes() for path in result.files}
    return files, (result.problem,) if result.problem else ()


def _sheets(plan: Plan, dialect: Dialect, paper: Paper) -> dict[str, bytes]:
    from edgewright.cli.cuts_csv import cuts_csv
    from edgewright.cli.packet import packet_pdf
    from edgewright.cli.quantities_file import quantities_file
    from edgewright.cutlist.cut_view import cut_view
    from edgewright.drawing.audit import audit_view
    from edgewright.drawing.dxf import dxf_text
    from edgewright.errors import CheckError

    files = {
        "quantities.csv": quantities_file(plan).encode("utf-8"),
        "packet.pdf": packet_pdf(plan, paper),
    }
    if not plan.ready:
        return files
    view = cut_view(plan.design, plan.cut_plan, plan.code)
    faults = audit_view(view)
    if faults:
        listed = "; ".join(faults[:5])
        raise CheckError(f"the drawing failed its check, so nothing is written; please report this: {listed}")
    drawing = dxf_text(view, plan.job.units, dialect)
    return files | {"cut.dxf": drawing.encode("ascii"), "cuts.csv": cuts_csv(plan).encode("utf-8")}
