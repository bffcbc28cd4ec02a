"""``edgewright batch``: plan many jobs together over shared wood, write one folder for all."""

from __future__ import annotations

import click

from edgewright.cli.dxf_options import Dialect, FileUnits, dxf_options

__all__ = ["batch_command"]


@click.command("batch")
@click.argument("files", nargs=-1, required=True, metavar="FILE...")
@click.option("--stock", metavar="STOCK", help="File of [[stock]] tables: wood that all jobs share.")
@click.option("--out", metavar="DIR", help="Folder to write; without it only the summary is printed.")
@click.option("--force", is_flag=True, help="Replace a folder that an earlier batch wrote.")
@click.option("--json", "as_json", is_flag=True, help="Print batch.json instead of the summary.")
@click.option(
    "--rounds",
    type=click.IntRange(1, 100),
    default=8,
    show_default=True,
    help="Work limit, a count: rounds of choosing and placing; few end sooner with a plan that may be worse.",
)
@dxf_options
@click.option(
    "--paper", default="a4", show_default=True, metavar="SIZE", help="Paper of the packets: a4 or letter."
)
@click.option("--solid", is_flag=True, help="Also write top.step, top.glb and top.stl of each job.")
def batch_command(
    files: tuple[str, ...],
    stock: str | None,
    out: str | None,
    force: bool,
    as_json: bool,
    rounds: int,
    dialect: Dialect,
    dxf_units: FileUnits | None,
    paper: str,
    solid: bool,
) -> int:
    """Plan the jobs in all FILEs together: every offcut, board and board for sale is there for all of them.

    Prints what to buy, which strips go from job to job, and what is proven. With --out it writes batch.json,
    strips.csv, tables.xlsx, one packet.pdf for all, and a folder for each job with the files of edgewright plan, all or
    none. While a stop is open in any job, or there is no plan, nothing is written and the exit code is 1.
    """
    from dataclasses import replace

    from edgewright.cli.batch_files import batch_files, batch_json
    from edgewright.cli.batch_text import batch_summary
    from edgewright.cli.guard import say
    from edgewright.cli.output import check_folder, write_folder
    from edgewright.cli.packet import paper_named
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.batch.batch import plan_batch
    from edgewright.cutlist.batch.layout import BATCH_LIMITS
    from edgewright.cutlist.column_generation.batch import PLAN_IN_HAND
    from edgewright.unit_words import printable

    sheet = paper_named(paper)
    if out is not None:
        check_folder(out, force=force)
    written: dict[str, bytes] = {}
    with Progress() as progress:
        with computing():
            told: set[str] = set()

            def tell(words: str) -> None:
                told.add(words)
                progress(words)

            limits = replace(BATCH_LIMITS, rounds=rounds, pricing=15 * rounds)
            try:
                batch = plan_batch(files, stock, tell, limits)
            except KeyboardInterrupt:
                if PLAN_IN_HAND in told:
                    say(f"{PLAN_IN_HAND}, but it was not proven yet: --rounds 1 ends sooner", err=True)
                raise
        if out is not None and batch.ready:
            written = batch_files(
                batch, dialect=dialect, dxf_units=dxf_units, paper=sheet, solid=solid, progress=progress
            )
    text = json_text(batch_json(batch, sorted(written)))
    where = ""
    if written and out is not None:
        write_folder(out, written | {"batch.json": f"{text}\n".encode("ascii")}, force=force)
        where = (
            f"Written into {printable(out)}: batch.json, strips.csv, tables.xlsx, packet.pdf and a folder for each "
            "job."
        )
    elif out is not None:
        where = f"Nothing is written into {printable(out)}."
    say(text if as_json else batch_summary(batch, screen_width(), where))
    return 0 if batch.ready else 1
