"""The widest strip from own wood with its proof: every wider one on the bench grid is refused, and why."""

from __future__ import annotations

from dataclasses import dataclass, replace

from edgewright.cutlist.asking.changes import with_width
from edgewright.cutlist.asking.outcome import outcome
from edgewright.cutlist.model import WidthTrial
from edgewright.cutlist.widest import try_width, widest_strip
from edgewright.design.model import Design
from edgewright.display import show_ticks

__all__ = ["OwnWidest", "own_widest", "refusal_words"]

#: Widths whose refusal is proven by the checker where length alone does not show it: each takes a whole plan.
_MOST_PROVEN = 3


@dataclass(frozen=True, slots=True)
class OwnWidest:
    """Widest strip from own wood.

    Attributes
    ----------
    width
        Ticks; None where there is none at all.
    stop
        The next wider width on the bench grid and what refuses it; None at the cap.
    proven
        Whether every wider one up to the cap is refused by length or by the checker's count.
    tried
        Widths looked at.
    """

    width: int | None
    stop: WidthTrial | None
    proven: bool
    tried: int


def own_widest(design: Design) -> OwnWidest:
    """Widest strip from the offcuts and the boards on hand, up to the cap of the bench checks."""
    grid, cap = design.sizes.grid, design.limits.cap
    width, trials = widest_strip(design)
    # from the narrowest width that was refused when none fits
    lowest = width + grid if width is not None else min((t.strip_width_ticks for t in trials), default=cap)
    above: list[WidthTrial] = []
    by_rule: list[int] = []
    # pitches lie on the grid, so widths are a step of it apart
    for wider in range(lowest, cap + 1, grid):
        trial, _ = try_width(design, wider, for_sale=False, any_plan=True)
        above.append(trial)
        if trial.need_ticks <= trial.have_ticks:
            by_rule.append(wider)
        if len(by_rule) > _MOST_PROVEN:
            break
    proven = len(by_rule) <= _MOST_PROVEN and all(_is_proven_none(design, w) for w in by_rule)
    return OwnWidest(width, above[0] if above else None, proven, len(trials) + len(above))


def _is_proven_none(design: Design, width: int) -> bool:
    own = tuple(board for board in design.job.stock if not board.for_sale)
    bare = replace(design, job=design.job.model_copy(update={"stock": own}))
    found = outcome(with_width(bare, width))
    return found.proven and not found.possible


def refusal_words(design: Design, found: OwnWidest) -> str:
    """Why no wider strip comes out, like ``1 29/32 in: need 208 3/8 in, have 144 in``."""
    units = design.job.units
    if found.stop is None:
        return f"no wider one is looked for: {design.limits.cap_reason}"
    return f"{show_ticks(found.stop.strip_width_ticks, units)}: {found.stop.reason}"
