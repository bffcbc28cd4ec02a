"""The plan at hand: the job as written, and the same held to the strip width that came out of it."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.asking.changes import with_width
from edgewright.cutlist.asking.outcome import Outcome, outcome, outcome_of
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.design.build import build_design
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.job import Job

__all__ = ["AtHand", "at_hand"]


@dataclass(frozen=True, slots=True)
class AtHand:
    """What other cases are compared with.

    Attributes
    ----------
    design
        Of the job as written.
    width
        Strip width of its plan, or of the one that could not be made, ticks.
    held
        Outcome with that width given.
    buy
        What would make a plan possible, a sentence; empty where there is one.
    """

    design: Design
    width: int
    held: Outcome
    buy: str

    @property
    def strips(self) -> str:
        """Like ``strips 1 7/8 in wide``."""
        return f"strips {show_ticks(self.width, self.design.job.units)} wide"

    @property
    def why(self) -> str:
        """Why there is no plan, with the width of its strips."""
        said = self.held.why
        return said if said.startswith("strips") else f"{self.strips}: {said}"


def at_hand(job: Job) -> AtHand:
    """Plan the job as written.

    Raises
    ------
    GeometryError
        If the job makes no top.
    """
    design = build_design(job)
    plan = make_cut_plan(design)
    width, shortage = plan.strip_width_ticks, plan.shortage
    return AtHand(
        design,
        width,
        outcome_of(plan) if shortage is None else outcome(with_width(design, width)),
        shortage.buy_sentence if shortage else "",
    )
