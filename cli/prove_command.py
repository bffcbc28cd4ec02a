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
    """Prove the plan of the job in FILE, or the plan in a plan.json or batch.json, and check it again.

    Prints for each stage of the objective its value, the bound and the figures the bound follows from; the
    independent checker recomputes all of them without the planner. Exit code 0: the checker accepts the plan; 1:
    there is no plan, or it found a fault.
    """
    from edgewright.cli.guard import say
    from edgewright.cli.output import BATCH_FORMAT
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.prove_text import proof_dict, proof_lines
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.proof import prove

    stored = _read(file) if file.endswith(".json") else None
    if stored is not None and stored.get("format") == BATCH_FORMAT:
        return _prove_batch(file, stored, as_json=as_json)
    title, code, units, plan = _stored(file, stored) if stored is not None else _planned(file)
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


def _read(file: str) -> dict[str, Any]:
    """Content of a plan.json or batch.json."""
    import json

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
    return content if isinstance(content, dict) else {}


def _stored(file: str, content: dict[str, Any]) -> tuple[str, str, Any, dict[str, Any]]:
    """Title, code, units and cut plan of a plan.json."""
    from edgewright.cli.output import FORMAT
    from edgewright.cli.plan_json import WITHHELD
    from edgewright.errors import EdgewrightError
    from edgewright.unit_words import printable

    name = printable(file)
    if content.get("format") != FORMAT or "cut_plan" not in content:
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


def _prove_batch(file: str, content: dict[str, Any], *, as_json: bool) -> int:
    """Check a batch from its own figures alone, and recompute the bound of each stage."""
    from edgewright.cli.batch_text import batch_stage_lines
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.text import heading, paragraph, screen_width
    from edgewright.cutlist.check_batch import proven_batch
    from edgewright.cutlist.model import Stage
    from edgewright.errors import EdgewrightError
    from edgewright.unit_words import printable

    if not isinstance(content.get("batch"), dict):
        raise EdgewrightError(f"{printable(file)} is NOT FOR CUTTING and holds no cut: plan its jobs again")
    code, width = printable(str(content.get("batch_code", ""))), screen_width()
    faults, found = proven_batch(content["batch"])
    stages = [Stage(name, value, bound, bound == value, why) for name, value, bound, why in found]
    if as_json:
        verdict = {
            "format": "edgewright prove",
            "version": 1,
            "title": "batch",
            "plan_code": code,
            "accepted": not faults,
            "faults": [{"name": f.name, "place": f.place, "message": f.message} for f in faults],
            "stages": [
                {"name": s.name, "value": s.value, "bound": s.bound, "proven": s.proven, "why": s.why}
                for s in stages
            ],
        }
        say(json_text(verdict))
        return 1 if faults else 0
    lines = [*paragraph(f"batch {code}", width), *heading("stages")]
    lines += batch_stage_lines(str(content.get("units")), stages, width)
    lines.append("")
    for fault in faults:
        lines += paragraph(f"FAULT {fault.name}, {fault.place}: {fault.message}", width, 0, 4)
    if faults:
        lines += [*paragraph("The independent checker refuses this batch.", width), "NOT FOR CUTTING"]
    else:
        plain = content["batch"]
        words = (
            f"The independent checker accepts the batch: {len(plain['pieces'])} pieces for {len(plain['jobs'])} jobs "
            f"from {len(plain['sticks'])} sticks; {sum(s.proven for s in stages)} of {len(stages)} stages are proven."
        )
        lines += paragraph(words, width)
    say("\n".join(lines))
    return 1 if faults else 0
