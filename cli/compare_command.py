"""``edgewright compare``: variants of one job side by side, before anything is cut."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from edgewright.cutlist.compare import Comparison, ComparisonGroup

__all__ = ["compare_command"]

#: The words of `edgewright.cutlist.questions.QUESTIONS`, so that --help loads nothing; a test compares them.
WORDS = ("sides", "corners", "layers", "radii", "segments", "build_up", "orders", "fits")


def _questions(ctx: click.Context, param: click.Parameter, text: str) -> tuple[str, ...]:
    """Read the words of --vary."""
    words = [word.strip().lower() for word in text.split(",")]
    for word in words:
        if word not in WORDS:
            raise click.BadParameter(
                f'"{word}" cannot be varied: choose from {", ".join(WORDS)}.', ctx, param
            )
    return tuple(word for word in WORDS if word in words)


@click.command("compare")
@click.argument("file")
@click.option(
    "--vary",
    default=",".join(WORDS),
    show_default=True,
    metavar="WORDS",
    callback=_questions,
    help="What to vary, separated by commas.",
)
@click.option("--all", "combine", is_flag=True, help="Combine them, instead of changing one thing at a time.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def compare_command(file: str, vary: tuple[str, ...], combine: bool, as_json: bool) -> int:
    """Plan variants of the job in FILE and set them side by side.

    Which side the trim comes off, how the strips meet at the corners, how many layers, which round-overs and
    corner radii; for a top with an outline also the segments of curves, the kind of build-up, the order of the cuts
    and how an odd top is made true: each is varied by itself, from the job as written. What does not arise for the
    top is left out. Every variant is planned and checked in full.

    Exit code 0: compared, whether or not a variant is ready; 2: the file has faults.
    """
    from edgewright.cli.compare_text import comparison_lines
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.compare import compare
    from edgewright.errors import JobError

    try:
        with Progress() as progress, computing():
            comparison = compare(file, vary, combine=combine, progress=progress)
    except JobError as error:
        if not as_json:
            raise
        say(json_text(_result("faulty", faults=[_plain(fault) for fault in error.faults])))
        return 2
    say(
        json_text(_content(comparison))
        if as_json
        else "\n".join(comparison_lines(comparison, screen_width()))
    )
    return 0


def _result(status: str, **more: Any) -> dict[str, Any]:
    empty: dict[str, Any] = {"title": None, "units": None, "faults": [], "groups": []}
    return {"format": "edgewright compare", "version": 1, "status": status} | empty | more


def _plain(value: Any) -> dict[str, Any]:
    from dataclasses import asdict

    plain: dict[str, Any] = asdict(value)
    return plain


def _content(comparison: Comparison) -> dict[str, Any]:
    """Give the comparison as plain data; keys carry their unit as in plan.json."""
    job = comparison.job
    groups = [_group(group) for group in comparison.groups]
    return _result("compared", title=job.info.title, units=job.units, groups=groups)


def _group(group: ComparisonGroup) -> dict[str, Any]:
    rows = [_plain(row) | {"stops": row.stops, "warnings": row.warnings} for row in group.rows]
    return _plain(group) | {"rows": rows}
