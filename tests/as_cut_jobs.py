"""Jobs whose cutting has begun: [as_cut] written from a plan as if every cut had come out as planned."""

from __future__ import annotations

from collections.abc import Sequence

from edgewright.compass import is_lengthwise
from edgewright.cutlist.model import CutPlan, SawCut

__all__ = ["as_planned", "mm"]


def mm(ticks: int) -> str:
    """Ticks as the exact text of a length."""
    return f'"{ticks // 320}.{ticks % 320 * 3125:06d} mm"'


def as_planned(plan: CutPlan, made: int, *, by_sides: bool = False) -> str:
    """The tables [as_cut] and [[as_cut.piece]] after so many cuts, with the sizes that the plan expects.

    Either the panel now, or what came off each side.
    """
    cuts = plan.cuts[:made]
    lines = ["[as_cut]", f"cuts = {made}"]
    if by_sides:
        off = dict.fromkeys((cut.side for cut in cuts), 0)
        for cut in cuts:
            off[cut.side] += cut.panel_before_ticks - cut.keep_ticks
        lines.append(f"off = {{{', '.join(f'{side} = {mm(ticks)}' for side, ticks in off.items())}}}")
        return "\n".join([*lines, *_pieces(cuts)]) + "\n"
    for key, lengthwise in (("width", True), ("length", False)):
        across = [cut for cut in cuts if is_lengthwise(cut.side) == lengthwise]
        if across:
            lines.append(f"{key} = {mm(across[-1].keep_ticks)}")
    return "\n".join([*lines, *_pieces(cuts)]) + "\n"


def _pieces(cuts: Sequence[SawCut]) -> list[str]:
    lines = []
    for cut in cuts:
        if cut.offcut_width_ticks:
            lines += [
                "[[as_cut.piece]]",
                f'side = "{cut.side}"',
                f"cut = {cut.number}",
                f"length = {mm(cut.offcut_length_ticks)}",
                f"width = {mm(cut.offcut_width_ticks)}",
            ]
    return lines
