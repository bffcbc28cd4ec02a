"""All files of a plan as bytes, before any of them is written; the solid is built beside the rest."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from edgewright.cli.packet import Paper
from edgewright.cutlist.plan import Plan
from edgewright.drawing.dxf import Dialect

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec
    from edgewright.drawing.view import View

__all__ = ["cut_files", "plan_files"]


def plan_files(
    plan: Plan | ShapedPlan, *, dialect: Dialect, paper: Paper, solid: bool
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
            f"top.step, top.glb and top.stl are left out: no temporary folder can be written ({error.strerror}); "
            "set TMPDIR to one that can"
        )
        return _sheets(plan, dialect, paper), (why,)
    with folder as name:
        return _with_solid(plan, Path(name), dialect, paper)


def _with_solid(
    plan: Plan | ShapedPlan, folder: Path, dialect: Dialect, paper: Paper
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from edgewright.cli.solid_process import start_solid

    building = start_solid(_solid(plan), folder, f"{plan.job.info.title} {plan.code}", stl=True)
    try:
        files = _sheets(plan, dialect, paper)
        result = building.finish()
    except BaseException:
        building.cancel()
        raise
    files |= {path.name: path.read_bytes() for path in result.files}
    return files, (result.problem,) if result.problem else ()


def _sheets(plan: Plan | ShapedPlan, dialect: Dialect, paper: Paper) -> dict[str, bytes]:
    from edgewright.cli.packet import packet_pdf
    from edgewright.cli.plan_views import sheet_views
    from edgewright.cli.quantities_file import quantities_file
    from edgewright.cli.svg_files import svg_files
    from edgewright.drawing.audit import audit_view
    from edgewright.drawing.dxf import dxf_text
    from edgewright.errors import CheckError

    sheets = sheet_views(plan)
    files = {
        "quantities.csv": quantities_file(plan).encode("utf-8"),
        "packet.pdf": packet_pdf(plan, paper, sheets),
    }
    if not plan.ready:
        return files
    views, lists = cut_files(plan)
    faults = [fault for view in views for fault in audit_view(view)]
    if faults:
        listed = "; ".join(faults[:5])
        raise CheckError(f"the drawing failed its check, so nothing is written; please report this: {listed}")
    drawings = {f"{view.name}.dxf": dxf_text(view, plan.job.units, dialect).encode("ascii") for view in views}
    return files | lists | drawings | svg_files(plan, (*sheets, *views))


def _solid(plan: Plan | ShapedPlan) -> SolidSpec:
    """Figures of the solid."""
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)


def cut_files(plan: Plan | ShapedPlan) -> tuple[tuple[View, ...], dict[str, bytes]]:
    """Cut drawing, of a new top that of its sheets too, and the lists that go with it."""
    if isinstance(plan, Plan):
        from edgewright.cli.cuts_csv import cuts_csv
        from edgewright.cutlist.cut_view import cut_view

        view = cut_view(plan.design, plan.cut_plan, plan.code)
        return (view,), {"cuts.csv": cuts_csv(plan).encode("utf-8")}
    from edgewright.cli.pieces_csv import pieces_csv
    from edgewright.cutlist.shaped_cut_view import shaped_cut_view

    views, lists = (
        (shaped_cut_view(plan.design, plan.code),),
        {"pieces.csv": pieces_csv(plan).encode("utf-8")},
    )
    if not plan.job.top.new:
        return views, lists
    from edgewright.cli.sheet_cuts_csv import sheet_cuts_csv
    from edgewright.cutlist.new_top_view import sheets_view

    return (*views, sheets_view(plan)), lists | {"cuts.csv": sheet_cuts_csv(plan).encode("utf-8")}
