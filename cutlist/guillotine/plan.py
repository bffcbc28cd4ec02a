"""Plan how blanks are sawn from sheets, boards and offcuts by rips and crosscuts, and prove it."""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Sequence

from edgewright.cutlist.check_guillotine import (
    check_guillotine,
    recompute_guillotine_bounds,
    shortage_is_proven,
)
from edgewright.cutlist.guillotine.finish import finish
from edgewright.cutlist.guillotine.inputs import check_inputs
from edgewright.cutlist.guillotine.model import (
    STAGES,
    Blank,
    GuillotineLimits,
    GuillotinePlan,
    GuillotineRules,
    GuillotineShortage,
    Layout,
    StockRect,
)
from edgewright.cutlist.guillotine.plain import make_certificate, plain_layout
from edgewright.cutlist.guillotine.problem import Problem, make_problem
from edgewright.cutlist.guillotine.realise import fence_settings, largest_remnant, make_layouts, make_rests
from edgewright.cutlist.guillotine.search import Progress, Search, most_blanks, search_sticks
from edgewright.cutlist.guillotine.words import shortage_words
from edgewright.cutlist.model import Stage
from edgewright.errors import CheckError
from edgewright.units import Units

__all__ = ["plan_guillotine"]


def plan_guillotine(
    stock: Sequence[StockRect],
    blanks: Sequence[Blank],
    rules: GuillotineRules,
    *,
    limits: GuillotineLimits | None = None,
    progress: Progress | None = None,
    units: Units = "in",
) -> GuillotinePlan | GuillotineShortage:
    """Lay out blanks on stock: least cost, then fewest sticks, fewest fence settings, largest remnant.

    Parameters
    ----------
    stock, blanks
        In any order; it changes nothing. Ids are not repeated.
    limits
        Work limits; at a limit the best plan found is given, and its stages say what is not proven.
    progress
        Is told in a few words what is being done.
    units
        In which sentences are written.

    Returns
    -------
    GuillotinePlan or GuillotineShortage
        Accepted by the independent checker; bounds are those the checker recomputed.

    Raises
    ------
    InputError
        Sizes, counts or prices that cannot be meant.
    """
    limits, tell = limits or GuillotineLimits(), progress or (lambda _: None)
    check_inputs(stock, blanks, rules, units)
    # ids decide where sizes do not
    stock, blanks = sorted(stock, key=lambda rect: rect.id), sorted(blanks, key=lambda blank: blank.id)
    problem = make_problem(stock, blanks, rules)
    search = search_sticks(problem, limits, tell)
    result: GuillotinePlan | GuillotineShortage
    if search.best is None:
        result = _shortage(search, stock, blanks, rules, units)
    else:
        result = _plan(search, stock, blanks, rules)
    tell("checking the layout")
    return _checked(result, stock, blanks, rules, limits)


def _plan(
    search: Search, stock: Sequence[StockRect], blanks: Sequence[Blank], rules: GuillotineRules
) -> GuillotinePlan:
    """The layouts with their values; of two equally good the one found last only where it is better."""
    assert search.best is not None
    by_id = {rect.id: rect for rect in stock}
    search.progress("fence settings and remnant")
    owned = [
        0 if stick.for_sale else sum(count or 0 for _, count in stick.members)
        for stick in search.problem.sticks
    ]
    tries = [search.best, finish(search, search.best, owned)] if search.best.rips else [search.best]
    made = [make_layouts(search.problem, chosen) for chosen in tries]
    values = [_values(layouts, by_id, rules) for layouts in made]
    best = min(range(len(made)), key=lambda n: (*values[n][:3], -values[n][3]))
    stages = tuple(
        Stage(name, value, None, False, "") for name, value in zip(STAGES, values[best], strict=True)
    )
    rests = make_rests(made[best], by_id, rules.kerf, rules.min_rip_width)
    return GuillotinePlan(made[best], rests, stages, make_certificate(search))


def _values(
    layouts: Sequence[Layout], by_id: dict[str, StockRect], rules: GuillotineRules
) -> tuple[int, int, int, int]:
    bought = [by_id[layout.stock_id] for layout in layouts]
    cost = sum(rect.price_cents for rect in bought if rect.source == "for sale")
    remnant = largest_remnant(layouts, by_id, rules.kerf, rules.min_rip_width)
    return cost, len(layouts), fence_settings(layouts, by_id), remnant


def _shortage(
    search: Search,
    stock: Sequence[StockRect],
    blanks: Sequence[Blank],
    rules: GuillotineRules,
    units: Units,
) -> GuillotineShortage:
    problem: Problem = search.problem
    search.progress("most blanks that fit")
    placed = Counter(
        piece.blank_id
        for layout in make_layouts(problem, most_blanks(search))
        for lane in layout.lanes
        for piece in lane.pieces
    )
    missing = [blank.id for blank in blanks for _ in range(blank.count - placed[blank.id])]
    sentence = shortage_words(problem, stock, blanks, rules, missing, units, proven=search.impossible)
    return GuillotineShortage(sentence, tuple(missing), search.impossible, make_certificate(search))


def _checked(
    result: GuillotinePlan | GuillotineShortage,
    stock: Sequence[StockRect],
    blanks: Sequence[Blank],
    rules: GuillotineRules,
    limits: GuillotineLimits,
) -> GuillotinePlan | GuillotineShortage:
    """The result with what the checker recomputed.

    Raises
    ------
    CheckError
        The checker found a fault.
    """
    plain = plain_layout(stock, blanks, rules, result)
    bounds = None
    if isinstance(result, GuillotinePlan):
        bounds = recompute_guillotine_bounds(plain, limits.steps)
        stages = tuple(
            dataclasses.replace(
                s, bound=bounds[s.name][0], proven=bounds[s.name][0] == s.value, why=bounds[s.name][1]
            )
            for s in result.stages
        )
        result = dataclasses.replace(result, stages=stages)
    else:
        result = dataclasses.replace(result, proven=shortage_is_proven(plain, limits.steps))
    faults = check_guillotine(plain_layout(stock, blanks, rules, result), limits.steps, bounds)
    if faults:
        raise CheckError("; ".join(f"{f.name}: {f.place}: {f.message}" for f in faults[:3]))
    return result
