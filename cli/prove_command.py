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
    from edgewright.cli.output import BATCH_FORMAT

    stored = _read(file) if file.endswith(".json") else None
    if stored is not None and stored.get("format") == BATCH_FORMAT:
        return _prove_batch(file, stored, as_json=as_json)
    title, code, units, key, plan = _planned(file) if stored is None else _stored(file, stored)
    return (_say_cut_plan if key == "cut_plan" else _say_build_up)(title, code, units, plan, as_json=as_json)


def _say_cut_plan(title: str, code: str, units: Any, plan: dict[str, Any], *, as_json: bool) -> int:
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.prove_text import proof_dict, proof_lines
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.proof import prove

    proof = prove(plan)
    if as_json:
        say(json_text(proof_dict(title, code, proof.faults, proof.stages, proof.shortage)))
    else:
        say("\n".join(proof_lines(title, code, units, plan, proof, screen_width())))
    return 0 if not proof.faults and proof.shortage is None else 1


def _say_build_up(title: str, code: str, units: Any, build_up: dict[str, Any], *, as_json: bool) -> int:
    from edgewright.cli.guard import say
    from edgewright.cli.plan_json import json_text
    from edgewright.cli.prove_build_up import build_up_proof_lines
    from edgewright.cli.prove_text import proof_dict
    from edgewright.cli.text import screen_width
    from edgewright.cutlist.shaped_proof import prove_build_up

    proof = prove_build_up(build_up)
    if as_json:
        say(json_text(proof_dict(title, code, proof.faults, proof.stages, proof.shortage)))
    else:
        say("\n".join(build_up_proof_lines(title, code, units, build_up, proof, screen_width())))
    return 1 if proof.faults else 0


def _planned(file: str) -> tuple[str, str, Any, str, dict[str, Any]]:
    """Title, code, units, and the cut plan or build-up of a job file with its name."""
    import json

    from edgewright.cli.progress import Progress
    from edgewright.cli.shaped_json import build_up_dict
    from edgewright.cli.stopping import computing
    from edgewright.cutlist.any_plan import plan_any
    from edgewright.cutlist.plan import Plan
    from edgewright.cutlist.stages import plain_plan

    with Progress() as progress, computing():
        result = plan_any(file, progress)
    title, code, units = result.job.info.title, result.code, result.job.units
    if isinstance(result, Plan):
        return title, code, units, "cut_plan", plain_plan(result.cut_plan)
    return (
        title,
        code,
        units,
        "build_up",
        json.loads(json.dumps(build_up_dict(result.design, result.build_up))),
    )


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


def _stored(file: str, content: dict[str, Any]) -> tuple[str, str, Any, str, dict[str, Any]]:
    """The same of a plan.json."""
    from edgewright.cli.output import FORMAT
    from edgewright.cli.plan_json import WITHHELD
    from edgewright.errors import EdgewrightError
    from edgewright.unit_words import printable

    name = printable(file)
    job = content.get("job")
    if content.get("format") != FORMAT or not isinstance(job, dict):
        raise EdgewrightError(f"{name} is no plan: give a plan.json that edgewright wrote")
    key = "cut_plan" if "cut_plan" in content else "build_up"
    plan = content.get(key)
    missing = []
    if key == "cut_plan" and isinstance(plan, dict):
        missing = [part for part in WITHHELD if part not in plan]
        withheld = bool(missing) and plan.get("status") != "impossible"
    else:
        withheld = plan is None and content.get("status") == "NOT FOR CUTTING"
    if withheld:
        raise EdgewrightError(f"{name} is NOT FOR CUTTING and holds no cut: prove its job file instead")
    if not isinstance(plan, dict):
        raise EdgewrightError(f"{name} has no cut plan in it: write it again with edgewright plan")
    units = "mm" if job.get("units") == "mm" else "in"
    title, code = printable(str(job.get("title", name))), printable(str(content.get("plan_code", "")))
    return title, code, units, key, plan | {part: [] for part in missing}


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
