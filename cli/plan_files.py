"""All files of a plan as bytes, before any of them is written; the solid is built beside the rest."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from edgewright.cli.packet import Paper
from edgewright.cutlist.plan import Plan
from edgewright.drawing.dxf import Dialect
from edgewright.drawing.reference import FileUnits

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec

__all__ = ["plan_files"]


def plan_files(
    plan: Plan | ShapedPlan, *, dialect: Dialect, dxf_units: FileUnits | None, paper: Paper, solid: bool
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """Everything but plan.json, and what was left out and why; ``dxf_units`` None are the job's.

    While NOT FOR CUTTING there is nothing one could cut by: the quantities, a marked packet and a marked page for the
    customer only.

    Raises
    ------
    CheckError
        If a drawing or the packet fails its own check.
    """
    if not plan.ready:
        return _sheets(plan, dialect, dxf_units, paper), ()
    if not solid:
        return _sheets(plan, dialect, dxf_units, paper), ()
    try:
        folder = tempfile.TemporaryDirectory(prefix="edgewright-")
    except OSError as error:
        why = (
            f"top.step, top.glb and top.stl are left out: no temporary folder can be written ({error.strerror}); "
            "set TMPDIR to one that can"
        )
        return _sheets(plan, dialect, dxf_units, paper), (why,)
    with folder as name:
        return _with_solid(plan, Path(name), dialect, dxf_units, paper)


def _with_solid(
    plan: Plan | ShapedPlan, folder: Path, dialect: Dialect, dxf_units: FileUnits | None, paper: Paper
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from edgewright.cli.solid_process import start_solid

    building = start_solid(_solid(plan), folder, f"{plan.job.info.title} {plan.code}", stl=True)
    try:
        files = _sheets(plan, dialect, dxf_units, paper)
        result = building.finish()
    except BaseException:
        building.cancel()
        raise
    files |= {path.name: path.read_bytes() for path in result.files}
    return files, (result.problem,) if result.problem else ()


def _sheets(
    plan: Plan | ShapedPlan, dialect: Dialect, dxf_units: FileUnits | None, paper: Paper
) -> dict[str, bytes]:
    from edgewright.cli.packet import customer_pdf, packet_pdf
    from edgewright.cli.quantities_file import quantities_file

    files = {
        "quantities.csv": quantities_file(plan).encode("utf-8"),
        "packet.pdf": packet_pdf(plan, paper),
        "customer.pdf": customer_pdf(plan, paper),
    }
    if not plan.ready:
        return files
    from edgewright.cli.dxf_files import dxf_files

    return files | _lists(plan) | dxf_files(plan, dxf_units or plan.job.units, dialect)


def _solid(plan: Plan | ShapedPlan) -> SolidSpec:
    """Figures of the solid."""
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)


def _lists(plan: Plan | ShapedPlan) -> dict[str, bytes]:
    """The cut lists."""
    if isinstance(plan, Plan):
        from edgewright.cli.cuts_csv import cuts_csv

        return {"cuts.csv": cuts_csv(plan).encode("utf-8")}
    from edgewright.cli.pieces_csv import pieces_csv

    lists = {"pieces.csv": pieces_csv(plan).encode("utf-8")}
    if plan.job.top.new:
        from edgewright.cli.sheet_cuts_csv import sheet_cuts_csv

        lists["cuts.csv"] = sheet_cuts_csv(plan).encode("utf-8")
    return lists
