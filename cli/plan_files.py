"""All files of a plan as bytes, before any of them is written; the solid is built beside the rest."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewright.cli.packet import Paper
from edgewright.cutlist.plan import Plan
from edgewright.drawing.dxf import Dialect

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec
    from edgewright.drawing.view import View

__all__ = ["cut_views", "plan_files"]

#: Tables that are files of their own too.
_LISTS: Final = ("cuts", "pieces", "quantities")


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
    from edgewright.cli.plan_json import status_of
    from edgewright.cli.plan_tables import plan_tables
    from edgewright.cli.plan_views import sheet_views
    from edgewright.cli.svg_files import svg_files
    from edgewright.cli.table_csv import table_csv
    from edgewright.cli.table_xlsx import tables_xlsx
    from edgewright.drawing.audit import audit_view
    from edgewright.drawing.dxf import dxf_text
    from edgewright.errors import CheckError

    sheets, tables = sheet_views(plan), plan_tables(plan)
    files = {
        **{f"{one.name}.csv": table_csv(one).encode("utf-8") for one in tables if one.name in _LISTS},
        "tables.xlsx": tables_xlsx(
            tables, title=plan.job.info.title, code=plan.code, status=status_of(plan), paper=paper
        ),
        "packet.pdf": packet_pdf(plan, paper, sheets),
    }
    if not plan.ready:
        return files
    views = cut_views(plan)
    faults = [fault for view in views for fault in audit_view(view)]
    if faults:
        listed = "; ".join(faults[:5])
        raise CheckError(f"the drawing failed its check, so nothing is written; please report this: {listed}")
    drawings = {f"{view.name}.dxf": dxf_text(view, plan.job.units, dialect).encode("ascii") for view in views}
    return files | drawings | svg_files(plan, (*sheets, *views))


def _solid(plan: Plan | ShapedPlan) -> SolidSpec:
    """Figures of the solid."""
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)


def cut_views(plan: Plan | ShapedPlan) -> tuple[View, ...]:
    """Cut drawing of a plan that is ready, of a new top that of its sheets too."""
    if isinstance(plan, Plan):
        from edgewright.cutlist.cut_view import cut_view

        return (cut_view(plan.design, plan.cut_plan, plan.code),)
    from edgewright.cutlist.shaped_cut_view import shaped_cut_view

    view = shaped_cut_view(plan.design, plan.code)
    if not plan.job.top.new:
        return (view,)
    from edgewright.cutlist.new_top_view import sheets_view

    return (view, sheets_view(plan))
