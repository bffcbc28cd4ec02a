"""``edgewright plan``: do the job, write its folder, print its summary."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import click

if TYPE_CHECKING:
    from edgewright.cutlist.plan import Plan

__all__ = ["plan_command"]

Dialect = Literal["R2000", "R12"]


@click.command("plan")
@click.argument("file", type=click.Path())
@click.option(
    "--out", type=click.Path(), metavar="DIR", help="Folder to write; without it only the summary is printed."
)
@click.option("--force", is_flag=True, help="Replace a folder that an earlier plan wrote.")
@click.option("--json", "as_json", is_flag=True, help="Print plan.json instead of the summary.")
@click.option(
    "--dxf",
    "dialect",
    type=click.Choice(["R2000", "R12"], case_sensitive=False),
    default="R2000",
    show_default=True,
    help="DXF version; R12 has lines and arcs only, for old controllers.",
)
def plan_command(file: str, out: str | None, force: bool, as_json: bool, dialect: Dialect) -> int:
    """Plan the job in FILE: saw cuts, strips, drawing and quantities.

    Prints a summary. With --out it writes cut.dxf, cuts.csv, quantities.csv and plan.json, all or none. While
    a stop is open or there is no plan, only quantities.csv and a plan.json without any cut are written, marked
    NOT FOR CUTTING, and the exit code is 1.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.output import check_folder, write_folder
    from edgewright.cli.plan_json import json_text, plan_dict
    from edgewright.cli.progress import Progress
    from edgewright.cli.summary import summary
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.plan import plan

    if out is not None:
        check_folder(out, force=force)
    with Progress() as progress:
        result = plan(file, progress)
        files = {} if out is None else _files(result, dialect)
    names = sorted(files)
    text = json_text(plan_dict(result, names))
    if out is not None:
        write_folder(out, files | {"plan.json": f"{text}\n".encode("ascii")}, force=force)
    if as_json:
        say(text)
    else:
        written = "" if out is None else f"Written into {out}: {', '.join(sorted([*names, 'plan.json']))}."
        say(summary(result, screen_width(), written))
    return 0 if result.ready else 1


def _files(result: Plan, dialect: Dialect) -> dict[str, bytes]:
    """Everything but plan.json; while NOT FOR CUTTING nothing that one could cut by."""
    from edgewright.cli.cuts_csv import cuts_csv
    from edgewright.cli.quantities_file import quantities_file
    from edgewright.cutlist.cut_view import cut_view
    from edgewright.drawing.audit import audit_view
    from edgewright.drawing.dxf import dxf_text
    from edgewright.errors import CheckError

    files = {"quantities.csv": quantities_file(result).encode("utf-8")}
    if not result.ready:
        return files
    view = cut_view(result.design, result.cut_plan, result.code)
    faults = audit_view(view)
    if faults:
        listed = "; ".join(faults[:5])
        raise CheckError(f"the drawing failed its check, so nothing is written; please report this: {listed}")
    drawing = dxf_text(view, result.job.units, dialect)
    return files | {"cut.dxf": drawing.encode("ascii"), "cuts.csv": cuts_csv(result).encode("utf-8")}
