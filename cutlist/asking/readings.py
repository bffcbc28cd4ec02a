"""What may be read wrong before the first cut, and what comes of the plan when one reading is off."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from pydantic import ValidationError

from edgewright.compass import Side
from edgewright.cutlist.asking.at_hand import AtHand
from edgewright.cutlist.asking.changes import (
    with_kerf,
    with_old_edge_moved,
    with_readings_off,
    with_width,
)
from edgewright.cutlist.asking.lost_strips import lost_strip_words
from edgewright.cutlist.asking.outcome import Outcome, loss_words, outcome
from edgewright.cutlist.plan import Plan, plan
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.errors import CheckError, GeometryError
from edgewright.findings import Finding, open_stops
from edgewright.ticks import stock_ticks
from edgewright.units import Length

__all__ = ["Look", "Reading", "readings"]

#: Finest grid there is: a kerf that is off needs no keep line on the bench grid.
_FINEST: Final = 1


@dataclass(frozen=True, slots=True)
class Look:
    """What comes of one error.

    Attributes
    ----------
    worse
        Whether there is no plan, or it costs or is spliced more, or a stop opens.
    words
        What is lost; empty where nothing is.
    possible
        Whether there is a plan.
    """

    worse: bool
    words: str
    possible: bool
    proven: bool


@dataclass(frozen=True, slots=True)
class Reading:
    """A measured figure.

    Attributes
    ----------
    name
        Like ``kerf``.
    exact_mm
        As given; of several caliper readings the mean.
    look
        From the strip width (ticks), the error (exact mm, either sign), and whether a plan as good as the one at hand
        must be checked as well, to what comes of it; None where no such figure is taken.
    design
        The design with that error, on the bench grid; None likewise, or where the error changes no wood.
    """

    name: str
    exact_mm: Fraction
    look: Callable[[int, Fraction, bool], Look | None]
    design: Callable[[Fraction], Design | None]


def readings(at: AtHand) -> Iterator[Reading]:
    """Kerf, old width and length, thickness."""
    design = at.design
    job, top = design.job, design.job.top

    def kerf(error: Fraction) -> Design | None:
        try:
            return with_kerf(design, error)
        except ValidationError:
            return None

    yield Reading("kerf", job.saw.kerf.exact_mm, _strips(at, kerf), kerf)
    axes: tuple[tuple[str, Length, Side, Side], ...] = (
        ("old width", top.width, "north", "south"),
        ("old length", top.length, "east", "west"),
    )
    for name, size, high, low in axes:
        moved = _edge_moved(design, high, low)
        yield Reading(name, size.exact_mm, _strips(at, moved), moved)
    yield Reading("thickness", top.thickness_mean.exact_mm, _caliper(at), lambda _: None)


def _edge_moved(design: Design, high: Side, low: Side) -> Callable[[Fraction], Design | None]:
    """The keep lines are set out from the low edge, so that the first cut, on the high side, takes up the error."""
    side = low if design.sizes.amounts[low] and not design.sizes.amounts[high] else high

    def moved(error: Fraction) -> Design | None:
        ticks = stock_ticks(error)
        amount = design.sizes.amounts[side]
        if amount and amount + ticks <= 0:
            return None
        return with_old_edge_moved(design, side, ticks)

    return moved


def _strips(
    at: AtHand, changed: Callable[[Fraction], Design | None]
) -> Callable[[int, Fraction, bool], Look | None]:
    """Plan strips of a width again from the wood and the kerf that there really are."""

    def look(width: int, error: Fraction, sure: bool) -> Look | None:
        design = changed(error)
        if design is None:
            return None
        held = with_width(design, width, grid=_FINEST)
        # where there is no plan to lose, any layout tells that there would be one
        enough = None if sure else at.held.rank
        found = outcome(held, enough=enough, prove=at.held.possible)
        worse = found.rank > at.held.rank
        return Look(worse, _words(at.held, found, design, width), found.possible, found.proven)

    return look


def _words(before: Outcome, after: Outcome, design: Design, width: int) -> str:
    if after.possible:
        return loss_words(before, after)
    lost = lost_strip_words(before.plan, design, width) if before.plan is not None else ""
    return f"{lost}: {after.why}" if lost else after.why


def _caliper(at: AtHand) -> Callable[[int, Fraction, bool], Look | None]:
    """Plan the whole job again: thickness decides profile, pins, bearing, and whether stock matches the strips."""
    written = with_width(at.design, at.width).job
    open_before = {stop.number for stop in open_stops(plan(written).findings)}

    def look(width: int, error: Fraction, sure: bool) -> Look | None:
        try:
            result = plan(with_readings_off(with_width(at.design, width).job, error))
        except (ValidationError, GeometryError):
            return None
        except CheckError as failed:
            return Look(True, str(failed), False, False)
        return _judged(at, result, [s for s in open_stops(result.findings) if s.number not in open_before])

    return look


def _judged(at: AtHand, result: Plan, opened: list[Finding]) -> Look:
    made = result.cut_plan
    if made.shortage is not None:
        return Look(at.held.possible, _no_stock(at, result), False, made.shortage.proven)
    values = {stage.name: stage for stage in made.stages}
    cost, splices = values["new material cost"], values["splices"]
    more = [f"opens stop {stop.number}, {stop.title}: {stop.figures}" for stop in opened]
    if at.held.possible and cost.value > at.held.cost:
        more.append(f"{(cost.value - at.held.cost) / 100:.2f} more for boards")
    elif at.held.possible and cost.value == at.held.cost and splices.value > at.held.splices:
        more.append(f"{splices.value - at.held.splices} more splices")
    return Look(bool(more), "; ".join(more), True, cost.proven and splices.proven)


def _no_stock(at: AtHand, result: Plan) -> str:
    """Why there is no plan with another thickness: what no longer matches, then the shortage."""
    shortage, units = result.cut_plan.shortage, at.design.job.units
    assert shortage is not None
    need, have = (show_ticks(ticks, units) for ticks in (shortage.need_ticks, shortage.have_ticks))
    words = f"need {need}, have {have}" if shortage.by_length else shortage.sentence
    offcuts = next((f"{f.title}, {f.figures}: " for f in result.findings if f.number == 509), "")
    boards = sum(stick.source != "offcut" for stick in result.cut_plan.sticks)
    listed = sum(stick.source != "offcut" for stick in at.held.plan.sticks) if at.held.plan else 0
    return offcuts + "boards no longer match the thickness of the strips: " * (boards < listed) + words
