"""``edgewright prove``: why a plan is the best, recomputed from its own figures by the independent checker."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

__all__ = ["prove_command"]

_LARGEST = 64 * 2**20


@click.command("prove")
@click.argument("file")
@click.option("--json", "as_json", is_flag=True, help="Print the verdict as JSON.")
def prove_command(file: str, as_json: bool) -> int:
    """Prove the plan of the job in FILE, or the plan in a plan.json, and check it again.

    Prints for each stage of the objective its value, the bound and the figures the bound follows from; the
    independent checker recomputes all of them without the planner. Exit code 0: the checker accepts the plan; 1:
    there is no plan, or it found a fault.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.prove_text import proof_dict, proof_lines
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.proof import prove

    title, code, units, plan = _stored(file) if file.endswith(".json") else _planned(file)
    proof = prove(plan)
    if as_json:
        say(json_text(proof_dict(title, code, proof)))
    else:
        say("\n".join(proof_lines(title, code, units, plan, proof, screen_width())))
    return 0 if not proof.faults and proof.shortage is None else 1


def _planned(file: str) -> tuple[str, str, Any, dict[str, Any]]:
    """Title, code, units and cut plan of a job file."""
    from edgewright.cli.progress import Progress
    from edgewright.cli.stopping import computing
    from edgewright.cutlist.any_plan import plan_any
    from edgewright.cutlist.plan import Plan
    from edgewright.cutlist.stages import plain_plan
    from edgewright.errors import EdgewrightError

    with Progress() as progress, computing():
        result = plan_any(file, progress)
    if not isinstance(result, Plan):
        what = "sheets of a new top are" if result.job.top.new else "build-up of a top with an outline is"
        raise EdgewrightError(
            f"{result.job.info.title}: the {what} proven in its own summary; run edgewright plan"
        )
    return result.job.info.title, result.code, result.job.units, plain_plan(result.cut_plan)


def _stored(file: str) -> tuple[str, str, Any, dict[str, Any]]:
    """Title, code, units and cut plan of a plan.json."""
    import json

    from edgewright.cli.output import FORMAT
    from edgewright.cli.plan_json import WITHHELD
    from edgewright.errors import EdgewrightError
    from edgewright.unit_words import printable

    name = printable(file)
    try:
        path = Path(file)
        if path.stat().st_size > _LARGEST:
            raise EdgewrightError(f"{name} is larger than 64 MiB, the most that is read: give a plan.json")
        content = json.loads(path.read_bytes())
    except OSError as error:
        reason = (error.strerror or "it cannot be read").lower()
        raise EdgewrightError(f"{name}: {reason}: give a plan.json or a job file") from None
    except (ValueError, RecursionError):
        raise EdgewrightError(f"{name} is no JSON: give a plan.json that edgewright wrote") from None
    if not isinstance(content, dict) or content.get("format") != FORMAT or "cut_plan" not in content:
        raise EdgewrightError(
            f"{name} is no plan of a rectangular top: give a plan.json that edgewright wrote"
        )
    plan, job = content["cut_plan"], content.get("job")
    if not isinstance(plan, dict) or not isinstance(job, dict):
        raise EdgewrightError(f"{name} has no cut plan in it: write it again with edgewright plan")
    missing = [key for key in WITHHELD if key not in plan]
    if missing and plan.get("status") != "impossible":
        raise EdgewrightError(f"{name} is NOT FOR CUTTING and holds no cut: prove its job file instead")
    units = "mm" if job.get("units") == "mm" else "in"
    title, code = printable(str(job.get("title", name))), printable(str(content.get("plan_code", "")))
    return title, code, units, plan | {key: [] for key in missing}
