"""All files of a plan as bytes, before any of them is written; the solid is built beside the rest."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import TYPE_CHECKING, Final

from edgewright.cli.packet import Paper
from edgewright.cutlist.plan import Plan
from edgewright.drawing.dxf import Dialect
from edgewright.drawing.reference import FileUnits

if TYPE_CHECKING:
    from edgewright.cutlist.shaped_plan import ShapedPlan
    from edgewright.design.solid_figures import SolidSpec

__all__ = ["plan_files"]

#: Tables that are files of their own too.
_LISTS: Final = ("cuts", "pieces", "quantities")


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
    from edgewright.cli.packet import packet_files
    from edgewright.cli.plan_json import status_of
    from edgewright.cli.plan_tables import plan_tables
    from edgewright.cli.table_csv import table_csv
    from edgewright.cli.table_xlsx import tables_xlsx

    tables = plan_tables(plan)
    files = {
        **{f"{one.name}.csv": table_csv(one).encode("utf-8") for one in tables if one.name in _LISTS},
        "tables.xlsx": tables_xlsx(
            tables, title=plan.job.info.title, code=plan.code, status=status_of(plan), paper=paper
        ),
        **packet_files(plan, paper),
    }
    if not plan.ready:
        return files
    from edgewright.cli.dxf_files import dxf_files
    from edgewright.cli.plan_views import sheet_views
    from edgewright.cli.svg_files import svg_files
    from edgewright.cutlist.drawing_files import top_view

    drawings = dxf_files(plan, dxf_units or plan.job.units, dialect)
    return files | drawings | svg_files(plan, (*sheet_views(plan), top_view(plan)))


def _solid(plan: Plan | ShapedPlan) -> SolidSpec:
    """Figures of the solid."""
    if isinstance(plan, Plan):
        from edgewright.cutlist.solid_spec import solid_spec

        return solid_spec(plan.design, plan.cut_plan)
    from edgewright.cutlist.shaped_solid import shaped_solid_spec

    return shaped_solid_spec(plan.design)
