"""Audit of the lines of one layer: closed loops, doubles, crossings, arcs that bend the wrong way."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from edgewright.drawing.layers import KEEP_LINES
from edgewright.dxf_audit.chains import Chains, Run, chains_of
from edgewright.dxf_audit.measures import area_and_length, box_of
from edgewright.dxf_audit.meetings import MOST_PAIRS, meetings
from edgewright.dxf_audit.model import CheckFigures, Fault, LayerAudit
from edgewright.dxf_audit.paths import Edge, Path, Place
from edgewright.dxf_audit.turns import flipped_arcs
from edgewright.unit_words import printable

__all__ = ["LayerFound", "audit_layer"]

#: Ends of lines so near belong to an outline that gapes.
_CORNER_MM: Final = 2.0
_WORDS: Final = {"double": "lies on", "crossing": "crosses"}


@dataclass(frozen=True, slots=True)
class LayerFound:
    """Figures of a layer, its faults, and what is worth knowing."""

    layer: LayerAudit
    faults: tuple[Fault, ...]
    notes: tuple[str, ...]


def audit_layer(
    name: str, paths: Sequence[Path], *, cut: bool, mm: float, figures: CheckFigures | None
) -> LayerFound:
    """Audit one layer.

    Parameters
    ----------
    paths
        At least one.
    cut
        Whether a tool follows it; else it is measured only.
    mm
        Millimetres of one drawing unit.
    figures
        What the file itself says of the layer; where they agree, no arc is suspected for how it bends.
    """
    saw_lines = name == KEEP_LINES.name
    chains = _each_alone(paths) if saw_lines else chains_of(paths)
    if not saw_lines and _are_saw_lines(chains):
        saw_lines, chains = True, _each_alone(paths)
    edges = [edge for run in chains.runs for edge in run.edges]
    sums = [(run.closed, *area_and_length(run.edges)) for run in chains.runs]
    layer = LayerAudit(
        name,
        cut,
        sum(run.closed for run in chains.runs),
        sum(not run.closed for run in chains.runs),
        saw_lines,
        box_of(edges) if edges else (0.0, 0.0, 0.0, 0.0),
        math.fsum(length for *_, length in sums),
        math.fsum(abs(area) for closed, area, _ in sums if closed),
    )
    if not cut:
        return LayerFound(layer, (), ())
    shown = printable(name)[:60]
    faults = list(_chain_faults(name, chains, mm, saw_lines=saw_lines))
    met, all_pairs = meetings(chains.runs)
    for one in met:
        if saw_lines and one.kind == "crossing":
            continue
        first, second = chains.runs[one.one].label, chains.runs[one.other].label
        what = "itself" if one.one == one.other else second
        hint = "draw it once" if one.kind == "double" else "parts must be apart"
        faults.append(
            Fault(one.kind, name, f"{first} {_WORDS[one.kind]} {what} at {_at(one.at, mm)}: {hint}")
        )
    if figures is None or not layer.agrees(figures, mm):
        for arc in flipped_arcs(chains.runs):
            words = f"in {chains.runs[arc.run].label} the arc at {_at(arc.at, mm)} bends the wrong way, for {arc.why}"
            faults.append(Fault("flipped arc", name, f"{words}: turn its bulge round"))
    notes = []
    if saw_lines and name != KEEP_LINES.name:
        notes.append(
            f"{shown}: {layer.open} single line{'s' * (layer.open != 1)}, taken for straight saw cuts"
        )
    if not all_pairs:
        notes.append(
            f"{shown}: too many lines lie close together; crossings were looked for in {MOST_PAIRS} pairs"
        )
    return LayerFound(layer, tuple(faults), tuple(notes))


def _each_alone(paths: Sequence[Path]) -> Chains:
    runs = tuple(Run(path.label, path.edges, path.closed) for path in paths)
    return Chains(runs, (), (), ())


def _are_saw_lines(chains: Chains) -> bool:
    """Whether all lines are straight and alone, and no two of them all but meet in a corner."""
    if not all(map(_is_saw_line, chains.runs)):
        return False
    line_of = {end: run.edges[0] for run in chains.runs for end in run.edges[0][:2]}
    return not any(
        gap.wide <= _CORNER_MM and _sine(line_of[gap.one], line_of[gap.other]) > 0.02 for gap in chains.gaps
    )


def _sine(one: Edge, other: Edge) -> float:
    """Sine of the angle between two straight edges, 0 where they are parallel."""
    (ax, ay), (bx, by) = ((edge[1][0] - edge[0][0], edge[1][1] - edge[0][1]) for edge in (one, other))
    return abs(ax * by - ay * bx) / (math.hypot(ax, ay) * math.hypot(bx, by))


def _is_saw_line(run: Run) -> bool:
    return not run.closed and len(run.edges) == 1 and run.edges[0][2] == 0 and run.label.startswith("LINE ")


def _chain_faults(name: str, chains: Chains, mm: float, *, saw_lines: bool) -> Iterator[Fault]:
    for one, other in chains.doubles:
        yield Fault("double", name, f"{one} lies on {other} once more: delete it")
    for place, many in chains.branches:
        words = f"{many} lines end at {_at(place, mm)} on {printable(name)[:60]}: two do where an outline is closed"
        yield Fault("branch", name, words)
    if saw_lines:
        return
    for gap in chains.gaps:
        where = f"between {_at(gap.one, mm)} and {_at(gap.other, mm)}"
        if gap.wide <= 1e-3:
            continue  # told as a branch
        yield Fault(
            "open",
            name,
            f"an outline on {printable(name)[:60]} is open by {_wide(gap.wide, mm)} {where}: close it",
        )


def _wide(gap: float, mm: float) -> str:
    return f"{gap:.4g} mm" if mm == 1 else f"{gap / mm:.4g} drawing units ({gap:.4g} mm)"


def _at(place: Place, mm: float) -> str:
    return f"{place[0] / mm:.6g}, {place[1] / mm:.6g}"
