"""Why there is no plan, in a sentence a person can check."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from edgewright.cutlist.guillotine.model import Blank, GuillotineRules, StockRect
from edgewright.cutlist.guillotine.problem import Problem
from edgewright.display import show_area, show_ticks
from edgewright.ticks import ticks_to_mm
from edgewright.units import Units

__all__ = ["area_words", "misfits", "shortage_words"]


def misfits(problem: Problem) -> list[int]:
    """Types of blanks that lie in no lane of any stick."""
    placed = {t for kind in problem.kinds for t, _ in kind.items}
    return [t for t in range(len(problem.blanks)) if t not in placed]


def shortage_words(
    problem: Problem,
    stock: Sequence[StockRect],
    blanks: Sequence[Blank],
    rules: GuillotineRules,
    missing: Sequence[str],
    units: Units,
    *,
    proven: bool,
) -> str:
    """One or two sentences: what does not fit, and by how much."""
    if not any(rect.count != 0 for rect in stock):
        return f"there is no stock to saw {_some(missing)} from"
    by_id = {blank.id: blank for blank in blanks}
    too_large = [name for t in misfits(problem) for name, _ in problem.blanks[t].ids]
    if too_large:
        return "; ".join(_too_large(by_id[name], stock, rules, units) for name in sorted(too_large)[:3])
    words = f"the stock does not hold {_some(missing)}"
    areas = area_words(stock, blanks, units)
    if areas:
        return f"{areas}: {words}"
    if proven:
        return (
            f"by area alone the blanks would fit, but ripped into lanes {words}, whichever way they are laid"
        )
    return f"{words} in any layout that was found (stopped at the work limit, not proven)"


def area_words(stock: Sequence[StockRect], blanks: Sequence[Blank], units: Units) -> str:
    """The inequality of areas where that alone decides, else an empty text."""
    if any(rect.count is None for rect in stock):
        return ""
    need = sum(blank.length * blank.width * blank.count for blank in blanks)
    have = sum(rect.length * rect.width * (rect.count or 0) for rect in stock)
    if need <= have:
        return ""
    shown = [show_area(ticks_to_mm(1) ** 2 * area, units) for area in (need, have)]
    return f"the blanks take {shown[0]}, the stock holds {shown[1]}"


def _some(missing: Sequence[str]) -> str:
    named = [f"{n} x {name}" if n > 1 else name for name, n in sorted(Counter(missing).items())]
    more = f" and {len(named) - 6} more" if len(named) > 6 else ""
    return f"blank{'s' if len(missing) > 1 else ''} {', '.join(named[:6])}{more}"


def _too_large(blank: Blank, stock: Sequence[StockRect], rules: GuillotineRules, units: Units) -> str:
    """Name the stick that comes nearest and what it lacks."""
    size = f"blank {blank.id}, {show_ticks(blank.length, units)} by {show_ticks(blank.width, units)},"
    lacks = []
    for rect in stock:
        if rect.count == 0:
            continue
        for turned in (False, True):
            length, width = (blank.width, blank.length) if turned else (blank.length, blank.width)
            same_way = blank.grain is None or rect.grain is None or (blank.grain == rect.grain) != turned
            if same_way:
                short, narrow = max(0, length - rect.length), max(0, width - rect.width)
                lacks.append((short + narrow, short, narrow, rect.name))
    if not lacks:
        return f"{size} fits no stick with its grain the right way"
    _, short, narrow, name = min(lacks)
    if not short and not narrow:
        least = show_ticks(rules.min_rip_width, units)
        return f"{size} fits {name} only as a rip narrower than {least}, which is not ripped on the fence"
    parts = [f"{show_ticks(short, units)} too short"] if short else []
    parts += [f"{show_ticks(narrow, units)} too narrow"] if narrow else []
    return f"{size} is larger than every stick: {name} comes nearest and is {' and '.join(parts)}"
