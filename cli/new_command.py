"""``edgewright new``: write a job file, from answers on a terminal or as a starter."""

from __future__ import annotations

import shlex
import sys

import click

__all__ = ["SHAPES", "new_command", "on_terminal"]

#: The names of `edgewright.starter_shapes.SHAPES`, so that --help loads nothing; a test compares them.
SHAPES = (
    "rectangle",
    "racetrack",
    "round",
    "ellipse",
    "oval",
    "boat",
    "d_end",
    "regular_polygon",
    "polygon",
    "tapered",
    "quad",
    "l_counter",
    "u_counter",
    "stations",
    "drawing",
)


@click.command("new")
@click.argument("file", default="job.toml")
@click.option("--defaults", is_flag=True, help="Ask nothing and write the starter.")
@click.option(
    "--shape",
    type=click.Choice(SHAPES),
    metavar="NAME",
    help=f"Write the starter of a top with an outline: {', '.join(SHAPES)}.",
)
@click.option("--force", is_flag=True, help="Overwrite a file that is there.")
def new_command(file: str, defaults: bool, shape: str | None, force: bool) -> None:
    """Write a commented job file to FILE (job.toml unless given).

    On a terminal it asks for what was measured, in the order of the trade; otherwise it writes a starter that
    can be planned as it is. With --shape it writes the starter of a top with that outline and asks nothing; the one
    for a drawing waits for its DXF file.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.output import check_file, write_file
    from edgewright.unit_words import printable

    check_file(file, force=force)  # told before the questions, not after them
    if shape is not None:
        from edgewright.starter_shapes import shaped_starter

        text = shaped_starter(shape)
    elif defaults or not on_terminal():
        from edgewright.starter import starter_job

        text = starter_job()
    else:
        from edgewright.cli.asking import ask_job

        text = ask_job()
    write_file(file, text.encode("utf-8"), force=force)
    first = "put your DXF file beside it and edit it" if shape == "drawing" else "edit it"
    say(f"{printable(file)} is written: {first}, then run: edgewright plan {_argument(file)}")


def _argument(file: str) -> str:
    """Write a name as a shell takes it."""
    if not file.isprintable():
        return "on it"
    return f"{shlex.quote(f'./{file}' if file.startswith('-') else file)} --out plan"


def on_terminal() -> bool:
    """Whether somebody sits there to answer."""
    return sys.stdin.isatty() and sys.stdout.isatty()
