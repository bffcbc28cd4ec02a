"""``edgewright plan``: do the job, write its folder, print its summary."""

from __future__ import annotations

import click

from edgewright.cli.dxf_options import Dialect, FileUnits, dxf_options

__all__ = ["plan_command"]


@click.command("plan")
@click.argument("file")
@click.option("--out", metavar="DIR", help="Folder to write; without it only the summary is printed.")
@click.option("--force", is_flag=True, help="Replace a folder that an earlier plan wrote.")
@click.option("--json", "as_json", is_flag=True, help="Print plan.json instead of the summary.")
@dxf_options
@click.option(
    "--paper", default="a4", show_default=True, metavar="SIZE", help="Paper of the packet: a4 or letter."
)
@click.option("--no-solid", is_flag=True, help="Leave out top.step, top.glb and top.stl.")
def plan_command(
    file: str,
    out: str | None,
    force: bool,
    as_json: bool,
    dialect: Dialect,
    dxf_units: FileUnits | None,
    paper: str,
    no_solid: bool,
) -> int:
    """Plan the job in FILE: saw cuts, strips, sheets and quantities.

    Prints a summary. With --out it writes packet.pdf, customer.pdf, the folders dxf and svg, cuts.csv, pieces.csv,
    quantities.csv, tables.xlsx, top.step, top.glb, top.stl and plan.json, all or none; of an old top with an outline no
    cuts.csv. While a stop is open or there is no plan, only packet.pdf, customer.pdf, quantities.csv, tables.xlsx and a
    plan.json without any cut are written, marked NOT FOR CUTTING, and the exit code is 1.
    """
    from edgewright.cli.any_output import any_dict, any_summary
    from edgewright.cli.guard import say
    from edgewright.cli.output import check_folder, write_folder
    from edgewright.cli.packet import paper_named
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.any_plan import plan_any
    from edgewright.unit_words import printable

    sheet = paper_named(paper)
    if out is not None:
        check_folder(out, force=force)
    files: dict[str, bytes] = {}
    left_out: tuple[str, ...] = ()
    with Progress() as progress:
        with computing():
            result = plan_any(file, progress)
        if out is not None:
            from edgewright.cli.plan_files import plan_files

            progress("drawing the sheets and building the solid")
            files, left_out = plan_files(
                result, dialect=dialect, dxf_units=dxf_units, paper=sheet, solid=not no_solid
            )
    names = sorted(files)
    text = json_text(any_dict(result, names))
    if out is not None:
        write_folder(out, files | {"plan.json": f"{text}\n".encode("ascii")}, force=force)
    if as_json:
        say(text)
    else:
        written = (
            ""
            if out is None
            else f"Written into {printable(out)}: {', '.join(sorted([*names, 'plan.json']))}."
        )
        say(any_summary(result, screen_width(), written))
    for why in left_out:
        say(why, err=True)
    return 0 if result.ready else 1
