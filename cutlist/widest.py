"""The widest strip that the offcuts and the boards on hand allow.

With more width a strip's neighbours get shorter, never longer, while the number of lanes falls only at a few widths: so
the widest strip for each number of lanes is tried, from the widest down. Where that fails and a little less width could
help with as many lanes, the widths down to the next candidate are searched too.

A defect makes more candidates: a strip that just ends short of it. Between two candidates less width only lets strips
run into defects further out.
"""

from __future__ import annotations

from collections.abc import Callable

from edgewright.cutlist.demand import (
    defect_distances,
    matching_boards,
    offcuts_fit,
    plan_rules,
    ring_sides,
    sticks_for,
    width_on_grid,
)
from edgewright.cutlist.grain import by_grain, solve_by_grain
from edgewright.cutlist.loose import clean_width
from edgewright.cutlist.model import RingSide, Stick, WidthTrial
from edgewright.cutlist.solve import StripLayout, joint_ticks
from edgewright.design.model import Design
from edgewright.display import show_ticks
from edgewright.ticks import part_ticks, snap_down
from edgewright.trade import inch

__all__ = ["length_need", "try_width", "widest_strip", "width_candidates"]

#: Narrower than this nothing is looked for: no pin holds it.
_NARROWEST = part_ticks(inch("1/4"))
_MOST_CANDIDATES = 75
#: Widths below the floor of the bench checks that are tried, only to be told.
_MOST_BELOW = 4
#: Widths next below a candidate that are tried one by one, before the range below is halved.
_NEAREST = 2


def width_candidates(design: Design, *, for_sale: bool = False) -> tuple[int, ...]:
    """Strip widths to try, widest first, on the bench grid: the cap, and the widest for each number of lanes."""
    job, sizes, grid = design.job, design.sizes, design.sizes.grid
    kerf = job.saw.kerf.ticks_up()
    cap = snap_down(design.limits.cap + kerf, grid) - kerf
    found = {cap}
    for side, amount in (sizes.amounts if design.begun is None else design.begun.still).items():
        if not offcuts_fit(job):
            break
        gone = 0 if design.begun is None else design.begun.off[side]
        usable = amount - max(0, job.top.finished_edge[side].depth.ticks_up() - gone)
        # strip n ends n pitches outside the finished edge
        for near in defect_distances(design, side):
            for lanes in range(1, near // (_NARROWEST + kerf) + 1):
                found.add(snap_down(near // lanes, grid) - kerf)
        for lanes in range(1, usable // (_NARROWEST + kerf) + 1):
            found.add(snap_down(snap_down(usable // lanes, grid) - kerf, grid))
    for piece in design.begun.loose if design.begun is not None and offcuts_fit(job) else ():
        clean = clean_width(piece, job.top.finished_edge[piece.side].depth.ticks_up())
        for lanes in range(1, (clean + kerf) // (_NARROWEST + kerf) + 1):
            found.add(snap_down((clean + kerf) // lanes, grid) - kerf)
    for board in matching_boards(job):
        if for_sale or board.price_cents is None:
            clean = board.width - 2 * board.finished_depth
            # strip n ends n strips and n - 1 kerfs from the edge it is ripped from
            for room in (clean, *(box.across_ticks[0] - board.finished_depth for box in board.defects)):
                for lanes in range(1, (room + kerf) // (_NARROWEST + kerf) + 1):
                    found.add(snap_down((room + kerf) // lanes, grid) - kerf)
    on_grid = {width_on_grid(w, kerf, grid) for w in found if w >= _NARROWEST}
    return tuple(sorted((w for w in on_grid if w <= design.limits.cap), reverse=True)[:_MOST_CANDIDATES])


def length_need(
    sides: tuple[RingSide, ...], sticks: tuple[Stick, ...], joint: int, *, splices: bool
) -> tuple[int, int, int]:
    """Total length of the sides, the least that joints add, and what the lanes hold, ticks.

    N sides from B lanes in C components need N - C joints, and C is at most B. With nested mitres a joint saves length:
    then N - 1 joints are the most favourable, or N when a side may be spliced once more than it need be, so that both
    its mitred ends face another.
    """
    total = sum(side.length_ticks for side in sides)
    lanes = [lane.length_ticks for stick in sticks for lane in stick.lanes if lane.length_ticks]
    joints = max(0, len(sides) - len(lanes)) * joint if joint >= 0 else (len(sides) - (not splices)) * joint
    return total, joints, sum(lanes)


def try_width(
    design: Design, width: int, *, for_sale: bool, any_plan: bool = False
) -> tuple[WidthTrial, StripLayout | None]:
    """Plan strips of one width: first by length alone, then by the planner.

    Parameters
    ----------
    for_sale
        Whether boards may be bought.
    any_plan
        Any layout will do, to know whether there is one.
    """
    rules = plan_rules(design, width)
    sides, sticks = ring_sides(design, width), sticks_for(design, width, for_sale=for_sale)
    mitred = design.job.edge.corners == "mitre"
    lanes = sum(stick.clean_strips for stick in sticks)
    groups = by_grain(sides, sticks)
    needs, haves = [], []
    for own_sides, own_sticks in groups:
        total, joints, have = length_need(
            own_sides, own_sticks, joint_ticks(rules, width, mitred), splices=rules.splices_allowed
        )
        need = total if total > have and joints > 0 else total + joints
        if need > have:
            words = _length_words(design, need, have, nested=joints < 0, mitred=mitred)
            if len(groups) > 1:
                words += f", with the grain {own_sides[0].grain} the strip"
            return WidthTrial(width, lanes, need, have, False, words), None
        needs.append(need)
        haves.append(have)
    need, have = sum(needs), sum(haves)
    layout = solve_by_grain(sides, sticks, rules, width, any_plan=any_plan)
    kept = "the splice rules" if rules.splices_allowed else "every side whole"
    reason = "fits" if layout else f"long enough in all, but no layout was found that keeps {kept}"
    return WidthTrial(width, lanes, need, have, layout is not None, reason), layout


def _length_words(design: Design, need: int, have: int, *, nested: bool, mitred: bool) -> str:
    units = design.job.units
    words = f"need {show_ticks(need, units)}, have {show_ticks(have, units)}"
    if mitred:
        words += ", with mitres nested end for end" if nested else ", with nesting of mitres forbidden"
    return words


def widest_strip(
    design: Design, progress: Callable[[str], None] | None = None
) -> tuple[int | None, tuple[WidthTrial, ...]]:
    """Widest strip from own wood, or None, and every width from there up that was tried, widest first.

    A width below the floor of the bench checks is still found (the trials say so); the caller decides what to do.
    """
    trials: dict[int, WidthTrial] = {}

    def fits(width: int) -> bool:
        if width not in trials:
            if progress is not None:
                progress(f"trying strips {show_ticks(width, design.job.units)} wide")
            trials[width] = try_width(design, width, for_sale=False, any_plan=True)[0]
        return trials[width].fits

    candidates = width_candidates(design)
    widest: int | None = None
    below = 0
    for width, narrower in zip(candidates, (*candidates[1:], _NARROWEST), strict=False):
        below += width < design.limits.floor
        if below > _MOST_BELOW:
            break
        widest = width if fits(width) else _widest_between(design, trials[width], narrower, fits)
        if widest is not None:
            break
    tried = sorted((w for w in trials if widest is None or w >= widest), reverse=True)
    return widest, tuple(trials[w] for w in tried)


def _widest_between(
    design: Design, failed: WidthTrial, narrower: int, fits: Callable[[int], bool]
) -> int | None:
    """Widest strip below a width that failed, with as many lanes; None if there is none, or none can be.

    Less width helps in two ways only: more is left over outside the outermost lane, so that a round old corner
    shortens it less; and splices may lie closer together. Else it only makes the strips between others longer.
    """
    round_corner = design.job.top.corner_radius.ticks_up() > 0
    by_rule = failed.need_ticks <= failed.have_ticks and design.job.splice.allowed
    if not (round_corner or by_rule):
        return None
    grid = design.sizes.grid
    widths = range(failed.strip_width_ticks - grid, narrower, -grid)
    long_enough = [width for width in widths if _is_long_enough(design, width)]
    for width in long_enough[:_NEAREST]:
        if fits(width):
            return width
    if not long_enough or not fits(long_enough[-1]):
        return None
    low, high = _NEAREST - 1, len(long_enough) - 1  # fails at low, fits at high
    while high - low > 1:
        middle = (low + high) // 2
        if fits(long_enough[middle]):
            high = middle
        else:
            low = middle
    return long_enough[high]


def _is_long_enough(design: Design, width: int) -> bool:
    rules, job = plan_rules(design, width), design.job
    sides, sticks = ring_sides(design, width), sticks_for(design, width, for_sale=False)
    joint = joint_ticks(rules, width, job.edge.corners == "mitre")
    total, joints, have = length_need(sides, sticks, joint, splices=rules.splices_allowed)
    return total + joints <= have
