"""What the cut sheet asks for before the second cut: kerf and guide offset of the test cut, beside those planned."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from edgewright.cutlist.plan import Plan
from edgewright.display import show_ticks

__all__ = ["ENOUGH_TO_STOP", "TrialCutQuestion", "trial_cut_question"]

#: Both figures come back in every cut, so what a tape shows is enough.
ENOUGH_TO_STOP: Final = "A difference of 1/64 in (0.4 mm) is enough to stop and plan again with [as_cut]."


@dataclass(frozen=True, slots=True)
class TrialCutQuestion:
    """The cut before which it is asked, and each figure's name with what was planned."""

    cut: int
    planned: tuple[tuple[str, str], ...]


def trial_cut_question(plan: Plan) -> TrialCutQuestion | None:
    """What is asked before cut 2, or before the next cut of a panel already begun.

    None where there is no such cut, or where [as_cut] says both figures.
    """
    as_cut, rules, units = plan.job.as_cut, plan.cut_plan.rules, plan.job.units
    if as_cut is not None and as_cut.kerf is not None and as_cut.guide_offset is not None:
        return None
    number = max(2, 1 + (0 if as_cut is None else as_cut.cuts))
    if all(cut.number != number for cut in plan.cut_plan.cuts):
        return None
    return TrialCutQuestion(
        number,
        (
            ("kerf", show_ticks(rules.kerf_ticks, units)),
            ("guide offset", show_ticks(rules.guide_offset_ticks, units)),
        ),
    )
