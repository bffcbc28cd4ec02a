"""What comes of a design with strips of one width: a checked plan and its stages, or why there is none."""

from __future__ import annotations

from dataclasses import dataclass

from edgewright.cutlist.compare import boards_bought
from edgewright.cutlist.compare_words import counted
from edgewright.cutlist.cutting import make_cut_plan
from edgewright.cutlist.demand import sticks_for
from edgewright.cutlist.model import CutPlan, Piece
from edgewright.cutlist.widest import try_width
from edgewright.design.model import Design
from edgewright.errors import CheckError

__all__ = ["Outcome", "Rank", "gain_words", "loss_words", "outcome", "outcome_of"]

_COST, _SPLICES = "new material cost", "splices"


Rank = tuple[bool, int, int]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What strips of a given width come to.

    Attributes
    ----------
    possible
        Whether there is a layout.
    cost, splices
        Cents to spend, and splices in all; 0 without a layout.
    plan
        The checked plan; None where there is none, or where any layout as good as another was enough.
    why
        Why there is no layout.
    proven
        Whether cost and splices are proven least, or are enough; without a layout, whether it is proven that there is
        none.
    """

    possible: bool
    cost: int
    splices: int
    plan: CutPlan | None
    why: str
    proven: bool

    @property
    def rank(self) -> Rank:
        """What is weighed, the lesser the better: no layout, cost, splices."""
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


def outcome(
    design: Design, *, enough: Rank | None = None, prove: bool = True, expect: bool = False
) -> Outcome:
    """Plan a design whose job gives the strip width.

    Parameters
    ----------
    design
        Its ``job.edge.strip_width`` is a length whose pitch lies on the bench grid.
    enough
        Any layout that ranks no higher will do; it is then neither checked nor made better.
    prove
        Whether it is worth the time to prove that there is no layout where length alone does not show it.
    expect
        Whether a plan is likely, so that nothing is gained by trying length alone first.
    """
    asked = design.job.edge.strip_width
    assert asked != "widest"
    if not expect:
        found = _by_any_layout(design, asked.ticks(), enough, prove)
        if found is not None:
            return found
    try:
        plan = make_cut_plan(design)
    except CheckError as error:  # the other plans are sound all the same
        return _none(str(error), False)
    return outcome_of(plan)


def outcome_of(plan: CutPlan) -> Outcome:
    """What a checked plan comes to."""
    if plan.shortage is not None:
        return _none(plan.shortage.sentence, plan.shortage.proven)
    stages = {stage.name: stage for stage in plan.stages}
    cost, splices = stages[_COST], stages[_SPLICES]
    return Outcome(True, cost.value, splices.value, plan, "", cost.proven and splices.proven)


def _by_any_layout(design: Design, width: int, enough: Rank | None, prove: bool) -> Outcome | None:
    """What length alone or any layout decides; None where a whole plan is needed."""
    trial, layout = try_width(design, width, for_sale=True, any_plan=True)
    if layout is None:
        by_length = trial.need_ticks > trial.have_ticks
        return _none(trial.reason, by_length) if by_length or not prove else None
    if enough is None:
        return None
    cost, splices = _counted(design, width, layout.pieces)
    return Outcome(True, cost, splices, None, "", True) if (False, cost, splices) <= enough else None


def _none(why: str, proven: bool) -> Outcome:
    return Outcome(False, 0, 0, None, why, proven)


def _counted(design: Design, width: int, pieces: tuple[Piece, ...]) -> tuple[int, int]:
    """Cents and splices of a layout."""
    used = {piece.lane_id for piece in pieces}
    bought = (s for s in sticks_for(design, width) if any(lane.id in used for lane in s.lanes))
    return sum(stick.price_cents for stick in bought), len(pieces) - len({p.side_id for p in pieces})


def gain_words(before: Outcome, after: Outcome) -> str:
    """What ``after`` saves against ``before``, like ``saves a splice``; empty where it is no better."""
    if after.rank >= before.rank:
        return ""
    if not before.possible:
        return "makes a plan possible"
    if after.cost < before.cost:
        saved = f"{(before.cost - after.cost) / 100:.2f}"
        boards = _boards(before) - _boards(after)
        words = f"saves {counted(boards, 'board')}, {saved}" if boards > 0 else f"saves {saved}"
        if after.cost == 0:
            words = f"saves the whole purchase, {saved}"
        splices = after.splices - before.splices
        return f"{words}, with {counted(splices, 'splice')} more" if splices > 0 else words
    less = before.splices - after.splices
    words = "saves a splice" if less == 1 else f"saves {less} splices"
    return f"{words}, so that none is needed" if after.splices == 0 else words


def _boards(found: Outcome) -> int:
    return sum(board.count for board in boards_bought(found.plan)) if found.plan else 0


def loss_words(before: Outcome, after: Outcome) -> str:
    """What ``after`` needs beyond ``before``, like ``1 more splice``; empty where it needs no more."""
    if not (before.possible and after.possible):
        return "no plan" if before.possible else ""
    more = []
    if after.cost > before.cost:
        more.append(f"{(after.cost - before.cost) / 100:.2f} more for boards")
    if after.cost >= before.cost and after.splices > before.splices:
        more.append(f"{counted(after.splices - before.splices, 'more splice')}")
    return ", ".join(more)
