"""Why there is no plan, in an inequality a person can check, and what to buy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from edgewright.cutlist.demand import plan_rules, ring_sides, sticks_for
from edgewright.cutlist.model import Lane, PlanRules, RingSide, Shortage, Stick
from edgewright.cutlist.solve import joint_ticks, solve_strips
from edgewright.cutlist.widest import length_need
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.ticks import part_ticks, snap_up
from edgewright.trade import inch
from edgewright.units import Units

__all__ = ["extra_strips", "shortage_of", "with_proof"]

#: Longest strip that is offered to buy: a common sheet length. Common practice, no source.
_BOARD = part_ticks(inch("96"))
_MOST_EXTRA = 8
#: Shorter boards are not ripped on a fence. Common practice, no source.
_SHORTEST_RIP = part_ticks(inch("12"))


def shortage_of(design: Design, width: int) -> Shortage:
    """Certificate for a width that has no plan: by length if length alone decides, else by the splice rules."""
    units = design.job.units
    rules = plan_rules(design, width)
    sides, sticks = ring_sides(design, width), sticks_for(design, width)
    joint = joint_ticks(rules, width, design.job.edge.corners == "mitre")
    total, joints, have = length_need(sides, sticks, joint, splices=rules.splices_allowed)
    if total > have and joints > 0:
        joints = 0  # the kerf-free inequality decides alone, so show that one
    need = total + joints
    by_length = need > have
    extra = extra_strips(design, width)
    lanes = sum(stick.clean_strips for stick in sticks)
    in_words = (
        f"strips {show_ticks(width, units)} wide: the {len(sides)} sides need {show_ticks(need, units)}"
    )
    if by_length:
        kerfs = f", {show_ticks(joints, units)} of it for kerfs," if joints > 0 else ""
        sentence = f"{in_words}{kerfs} and the {lanes} strips to be had give {show_ticks(have, units)}"
        sentence += ": impossible even with unlimited splices" if rules.splices_allowed else ": impossible"
    else:
        kept = "the splice rules" if rules.splices_allowed else "every side whole"
        sentence = (
            f"{in_words} and there are {show_ticks(have, units)}, but no layout was found that keeps {kept}"
            f"{_too_long(sides, sticks, rules, units)}"
        )
    return Shortage(
        strip_width_ticks=width,
        sides=len(sides),
        lanes=lanes,
        sides_sum_ticks=total,
        joints_ticks=joints,
        need_ticks=need,
        have_ticks=have,
        by_length=by_length,
        proven=by_length,
        sentence=sentence,
        buy_length_ticks=extra[1] if extra else None,
        buy_sentence=_buy_words(design, width, extra),
    )


def _too_long(sides: Sequence[RingSide], sticks: Sequence[Stick], rules: PlanRules, units: Units) -> str:
    """The side that no strip is long enough for, in words, where every side must be whole."""
    longest = max((lane.length_ticks for stick in sticks for lane in stick.lanes), default=0)
    side = max(sides, key=lambda side: side.length_ticks)
    if rules.splices_allowed or side.length_ticks <= longest:
        return ""
    return (
        f": side {side.id} is {show_ticks(side.length_ticks, units)} long, the longest strip "
        f"{show_ticks(longest, units)}"
    )


def with_proof(shortage: Shortage, *, proven: bool) -> Shortage:
    """The shortage with what the checker found by counting alone, said in words where length does not decide."""
    if shortage.by_length:
        return shortage
    words = "every way of sharing out was counted" if proven else "searched up to the work limit, not proven"
    return replace(shortage, proven=proven, sentence=f"{shortage.sentence} ({words})")


def extra_strips(design: Design, width: int) -> tuple[int, int] | None:
    """Fewest extra strips (each at most a sheet long) that make a plan possible, and the least length each; or None.

    More length never makes a layout impossible, so the least length is found by halving, on the bench grid.
    """
    rules = plan_rules(design, width)
    sides, sticks = ring_sides(design, width), sticks_for(design, width)
    joint = joint_ticks(rules, width, design.job.edge.corners == "mitre")

    def fits(number: int, length: int) -> bool:
        lanes = tuple(Lane(f"extra {n}", length, width, 0, 0) for n in range(1, number + 1))
        more = Stick("extra", "to be bought", "on hand", None, length, width, 0, lanes)
        total, joints, have = length_need(sides, (*sticks, more), joint, splices=rules.splices_allowed)
        if total + joints > have:
            return False
        return solve_strips(sides, (*sticks, more), rules, width, any_plan=True) is not None

    number = next((n for n in range(1, _MOST_EXTRA + 1) if fits(n, _BOARD)), None)
    if number is None:
        return None
    grid = rules.grid_ticks
    low, high = 0, snap_up(_BOARD, grid) // grid
    while high - low > 1:
        middle = (low + high) // 2
        if fits(number, middle * grid):
            high = middle
        else:
            low = middle
    return number, max(high * grid, snap_up(_SHORTEST_RIP, grid))


def _buy_words(design: Design, width: int, extra: tuple[int, int] | None) -> str:
    units = design.job.units
    if extra is None:
        rule = "change the rules under [splice]" if design.job.splice.allowed else "allow splices"
        return f"With {_MOST_EXTRA} more strips of sheet length no layout was found either: trim more, or {rule}."
    number, length = extra
    strips = "one more strip" if number == 1 else f"{number} more strips"
    thick = show_ticks(design.job.strip_thickness.ticks(), units)
    return (
        f"Buy or find {strips} {thick} thick, at least {show_ticks(width, units)} wide and "
        f"{show_ticks(length, units)} long{'' if number == 1 else ' each'}; or list boards under [[stock]]."
    )
