"""What comes of a design with strips of one width: a checked plan and its stages, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.compare import boards_bought
from edgewright.cutlist.compare_words import counted
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.model import CutPlan, WidthTrial
from edgewright.cutlist.widest import try_width
from edgewright.design.model import Design
from edgewright.errors import CheckError

__all__ = ["Outcome", "gain_words", "loss_words", "outcome"]

_COST, _SPLICES = "new material cost", "splices"


@dataclass(frozen=True, slots=True)
class Outcome:
    """A plan for strips of a given width, or None and the reason.

    Attributes
    ----------
    trial
        The same width by length alone.
    proven
        Whether cost and splices are proven least; without a plan, whether it is proven that there is none.
    """

    trial: WidthTrial
    plan: CutPlan | None
    why: str
    proven: bool

    @property
    def possible(self) -> bool:
        """Whether there is a plan."""
        return self.plan is not None

    @property
    def cost(self) -> int:
        """Cents to spend; 0 without a plan."""
        return self._value(_COST)

    @property
    def splices(self) -> int:
        """Splices in all; 0 without a plan."""
        return self._value(_SPLICES)

    @property
    def rank(self) -> tuple[bool, int, int]:
        """What is weighed, the lesser the better: no plan, cost, splices."""
        return not self.possible, self.cost, self.splices

    def proof(self) -> str:
        """The proof of cost and splices, or why there is no plan; lengths as ``123 ticks``."""
        if self.plan is None:
            return f"{self.why}: {'proven' if self.proven else 'not proven'}"
        told = {_COST: f"{self.cost / 100:.2f}", _SPLICES: f"{self.splices}"}
        return "; ".join(
            f"{s.name} {told[s.name]}: {'proven' if s.proven else 'not proven'}, {s.why}"
            for s in self.plan.stages
            if s.name in told
        )

    def _value(self, name: str) -> int:
        return next((s.value for s in self.plan.stages if s.name == name), 0) if self.plan else 0


def outcome(design: Design, *, prove: bool = True) -> Outcome:
    """Plan a design whose job gives the strip width.

    Parameters
    ----------
    design
        Its ``job.edge.strip_width`` is a length whose pitch lies on the bench grid.
    prove
        Whether it is also worth the time to prove that there is no plan where length alone does not show it.
    """
    width = design.job.edge.strip_width
    assert width != "widest"
    trial, layout = try_width(design, width.ticks(), for_sale=True, any_plan=True)
    by_length = trial.need_ticks > trial.have_ticks
    if layout is None and (by_length or not prove):
        return Outcome(trial, None, trial.reason, by_length)
    try:
        plan = make_cut_plan(design)
    except CheckError as error:  # the other plans are sound all the same
        return Outcome(trial, None, str(error), False)
    if plan.shortage is not None:
        return Outcome(trial, None, plan.shortage.sentence, plan.shortage.proven)
    proven = all(stage.proven for stage in plan.stages if stage.name in (_COST, _SPLICES))
    return Outcome(trial, plan, "", proven)


def gain_words(before: Outcome, after: Outcome) -> str:
    """What ``after`` saves against ``before``, like ``saves a splice``; empty where it is no better."""
    if after.plan is None or after.rank >= before.rank:
        return ""
    if before.plan is None:
        return "makes a plan possible"
    if after.cost < before.cost:
        saved = f"{(before.cost - after.cost) / 100:.2f}"
        boards = _boards(before.plan) - _boards(after.plan)
        words = f"saves {counted(boards, 'board')}, {saved}" if boards > 0 else f"saves {saved}"
        if after.cost == 0:
            words = f"saves the whole purchase, {saved}"
        splices = after.splices - before.splices
        return f"{words}, with {counted(splices, 'splice')} more" if splices > 0 else words
    less = before.splices - after.splices
    words = "saves a splice" if less == 1 else f"saves {less} splices"
    return f"{words}, so that none is needed" if after.splices == 0 else words


def _boards(plan: CutPlan) -> int:
    return sum(board.count for board in boards_bought(plan))


def loss_words(before: Outcome, after: Outcome) -> str:
    """What ``after`` needs beyond ``before``, like ``1 more splice``; empty where it needs no more."""
    if after.plan is None or before.plan is None:
        return "" if after.plan is not None or before.plan is None else "no plan"
    more = []
    if after.cost > before.cost:
        more.append(f"{(after.cost - before.cost) / 100:.2f} more for boards")
    if after.cost >= before.cost and after.splices > before.splices:
        more.append(f"{counted(after.splices - before.splices, 'more splice')}")
    return ", ".join(more)
