"""``edgewright check``: whether the job file is sound, and what the bench checks find."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from edgewright.cutlist.plan import Plan
    from edgewright.cutlist.shaped_plan import ShapedPlan

__all__ = ["check_command"]


@click.command("check")
@click.argument("file")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
def check_command(file: str, as_json: bool) -> int:
    """Check the job in FILE and list what the bench checks find.

    Exit code 0: sound; 1: a stop is open or there is no plan; 2: the file has faults.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text, status_of
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cutlist.any_plan import plan_any
    from edgewright.errors import JobError

    try:
        with Progress() as progress, computing():
            result = plan_any(file, progress)
    except JobError as error:
        if not as_json:
            raise
        faults = [{"key": f.key, "line": f.line, "message": f.message} for f in error.faults]
        say(json_text(_result("faulty", faults=faults)))
        return 2
    if as_json:
        from dataclasses import asdict

        from edgewright.cutlist.plan import Plan

        shortage = result.cut_plan.shortage if isinstance(result, Plan) else None
        content = _result(
            status_of(result),
            findings=[asdict(finding) for finding in result.findings],
            shortage=None if shortage is None else asdict(shortage),
        )
        say(json_text(content))
    else:
        _print(result)
    return 0 if result.ready else 1


def _result(status: str, **more: Any) -> dict[str, Any]:
    empty: dict[str, Any] = {"faults": [], "findings": [], "shortage": None}
    return {"format": "edgewright check", "version": 1, "status": status} | empty | more


def _print(result: Plan | ShapedPlan) -> None:
    from edgewright.cli.any_output import any_verdict
    from edgewright.cli.guard import say
    from edgewright.cli.summary import finding_lines
    from edgewright.cli.text import paragraph, screen_width

    width = screen_width()
    lines = [*paragraph(result.job.info.title, width), *finding_lines(result.findings, width)]
    if not result.findings:
        lines.append("The bench checks found nothing.")
    say("\n".join([*lines, "", *any_verdict(result, width)]))
