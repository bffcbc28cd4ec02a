"""``edgewright new``: write a job file, from answers on a terminal or as a starter."""

from __future__ import annotations

import shlex
import sys

import click

__all__ = ["new_command", "on_terminal"]


@click.command("new")
@click.argument("file", default="job.toml")
@click.option("--defaults", is_flag=True, help="Ask nothing and write the starter.")
@click.option("--force", is_flag=True, help="Overwrite a file that is there.")
def new_command(file: str, defaults: bool, force: bool) -> None:
    """Write a commented job file to FILE (job.toml unless given).

    On a terminal it asks for what was measured, in the order of the trade; otherwise it writes a starter that
    can be planned as it is.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.output import check_file, write_file
    from edgewright.unit_words import printable

    check_file(file, force=force)  # told before the questions, not after them
    if defaults or not on_terminal():
        from edgewright.starter import starter_job

        text = starter_job()
    else:
        from edgewright.cli.asking import ask_job

        text = ask_job()
    write_file(file, text.encode("utf-8"), force=force)
    say(f"{printable(file)} is written: edit it, then run: edgewright plan {_argument(file)}")


def _argument(file: str) -> str:
    """Write a name as a shell takes it."""
    if not file.isprintable():
        return "on it"
    return f"{shlex.quote(f'./{file}' if file.startswith('-') else file)} --out plan"


def on_terminal() -> bool:
    """Whether somebody sits there to answer."""
    return sys.stdin.isatty() and sys.stdout.isatty()
