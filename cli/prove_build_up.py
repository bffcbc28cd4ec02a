"""The proof of a build-up in words and sums that can be followed with a pencil."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from edgewright.cli.proof_sums import Names, point_lines, short_point_sum, stage_sum, stick_names
from edgewright.cli.prove_text import fault_lines
from edgewright.cli.shaped_stock_rows import blank_words
from edgewright.cli.summary import stage_words
from edgewright.cli.text import heading, paragraph
from edgewright.cutlist.check_guillotine_sums import PointSum, SumsOfPoints
from edgewright.cutlist.model import Stage
from edgewright.cutlist.shaped_proof import BuildUpProof
from edgewright.units import Units

__all__ = ["build_up_proof_lines"]

_ASKED = ("new material cost", "sticks touched")


def build_up_proof_lines(
    title: str, code: str, units: Units, build_up: dict[str, Any], proof: BuildUpProof, width: int
) -> list[str]:
    """Write the proof, wrapped to ``width`` columns; ``build_up`` as in plan.json."""
    lines = [*paragraph(title, width), *paragraph(f"plan {code}", width)]
    if proof.stages:
        names = stick_names(build_up, build_up["laid_out"]["stock"])
        for stage in proof.stages:
            lines += _stage_lines(stage, proof.sums, names, units, width)
    if proof.shortage is not None:
        lines += _shortage_lines(build_up, proof, units, width)
    return [*lines, "", *_verdict(build_up, proof, width)]


def _stage_lines(
    stage: Stage, sums: SumsOfPoints | None, names: Names, units: Units, width: int
) -> Iterator[str]:
    name, figure, words = stage_words(stage, units, areas=True)
    yield from heading(f"{name} {figure}")
    yield from paragraph(words, width, 2)
    if sums is None or name not in _ASKED or not stage.value or not stage.bound:
        return
    one = stage_sum(stage, sums)
    if one is not None:
        yield from _sum_lines(one, names, units, width)
        yield from paragraph(_sentence(short_point_sum(one, stage, units)), width, 4)
    elif name != "sticks touched" or stage.value > 1:
        yield from _all_lines(sums, names, units, width)


def _all_lines(sums: SumsOfPoints, names: Names, units: Units, width: int) -> Iterator[str]:
    """All sums: it takes several of them together, or a search besides."""
    for number, one in enumerate(sums.sums, 1):
        yield from paragraph(f"sum {number} of {len(sums.sums)}", width, 2)
        yield from _sum_lines(one, names, units, width)
    for choice in sums.searched:
        sticks = ", ".join(f"{number} like {names.get(name, (name,))[0]}" for name, number in choice)
        yield from paragraph(f"tried in every layout, and too little: {sticks}", width, 4, 8)
    words = "Sticks that are to hold all blanks must hold the points of each sum, and must not be among those tried."
    yield from paragraph(words, width, 4)


def _sum_lines(one: PointSum, names: Names, units: Units, width: int) -> Iterator[str]:
    for line in point_lines(one, names, units):
        yield from paragraph(line, width, 4, 8)


def _shortage_lines(build_up: dict[str, Any], proof: BuildUpProof, units: Units, width: int) -> Iterator[str]:
    short = build_up["shortage"]
    yield from heading("blanks that must be bought")
    yield from paragraph(_sentence(blank_words(short["sentence"], units)), width, 2)
    sums = proof.shortage_sums
    if proof.shortage and sums is not None:
        names, alone = stick_names(build_up, short["laid_out"]["stock"]), sums.alone["shortage"]
        if alone is None:
            yield from _all_lines(sums, names, units, width)
        else:
            yield from _sum_lines(sums.sums[alone], names, units, width)
            yield from paragraph(_sentence(short_point_sum(sums.sums[alone], None, units)), width, 4)
    held = "recomputed the same" if proof.shortage else "could not show this by itself"
    yield from paragraph(f"The independent checker {held}.", width, 2)


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _verdict(build_up: dict[str, Any], proof: BuildUpProof, width: int) -> Iterator[str]:
    if proof.faults:
        yield from fault_lines(proof.faults, width)
        return
    wanted = sum(one["count"] for one in build_up["wanted"])
    cut, bought = len(build_up["cut"]), sum(len(row["piece_ids"]) for row in build_up["to_buy"])
    if not wanted and not bought:
        yield from paragraph("There is no build-up: nothing is cut for it, and nothing needs a proof.", width)
    elif build_up["laid_out"] is None:
        words = f"All {bought} blanks of the build-up must be bought: "
        words += (
            "no stick at hand holds one of them."
            if build_up["sticks"]
            else "no stick is there to cut them from."
        )
        yield from paragraph(words, width)
    else:
        proven = sum(stage.proven for stage in proof.stages)
        used = len(build_up["laid_out"]["plan"]["layouts"])
        yield from paragraph(
            f"The independent checker accepts the plan: {cut} of {cut + bought} blanks cut from {used} "
            f"stick{'s' * (used != 1)}; {proven} of {len(proof.stages)} stages are "
            "proven.",
            width,
        )
