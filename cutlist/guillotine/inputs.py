"""What a person may have typed wrongly: refused with the name, the value and what is allowed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from edgewright.cutlist.guillotine.model import Blank, GuillotineRules, StockRect
from edgewright.display import show_ticks
from edgewright.errors import InputError
from edgewright.ticks import part_ticks
from edgewright.trade import inch
from edgewright.units import Units

__all__ = ["MOST_BLANKS", "check_inputs"]

#: More blanks than any shop saws in one go; it keeps every count small. A choice, no source.
MOST_BLANKS: Final = 20_000
#: No stick or blank is longer: figures stay far inside 64 bits. A choice, no source.
_LONGEST: Final = part_ticks(inch("1200"))


def check_inputs(
    stock: Sequence[StockRect], blanks: Sequence[Blank], rules: GuillotineRules, units: Units
) -> None:
    """Refuse what cannot be meant.

    Raises
    ------
    InputError
        A size, count, price or kerf out of range, or an id given twice.
    """
    _no_twins("stock", [rect.id for rect in stock])
    _no_twins("blank", [blank.id for blank in blanks])
    for what, ticks in (("kerf", rules.kerf), ("narrowest rip", rules.min_rip_width)):
        if ticks < 0:
            raise InputError(
                f"{what} is {show_ticks(ticks, units)}; it must be 0 or more: measure a test cut"
            )
    for rect in stock:
        _size(f"stock {rect.id}", rect.length, rect.width, units)
        if rect.price_cents < 0:
            raise InputError(f"stock {rect.id}: the price is {rect.price_cents} cents; it must be 0 or more")
        if rect.count is None and rect.source != "for sale":
            raise InputError(f"stock {rect.id}: give its count; only stock for sale may be without one")
        if rect.count is not None and rect.count < 0:
            raise InputError(f"stock {rect.id}: its count is {rect.count}; it must be 0 or more")
    for blank in blanks:
        _size(f"blank {blank.id}", blank.length, blank.width, units)
        if blank.count < 0:
            raise InputError(f"blank {blank.id}: its count is {blank.count}; it must be 0 or more")
    total = sum(blank.count for blank in blanks)
    if total > MOST_BLANKS:
        raise InputError(
            f"{total} blanks are wanted, {MOST_BLANKS} at most are planned in one go: plan them in batches"
        )


def _no_twins(what: str, ids: Sequence[str]) -> None:
    for name in ids:
        if ids.count(name) > 1:
            raise InputError(f"{what} {name} is listed twice: give each its own id, or one count")


def _size(what: str, length: int, width: int, units: Units) -> None:
    for side, ticks in (("length", length), ("width", width)):
        if not 0 < ticks <= _LONGEST:
            raise InputError(
                f"{what}: its {side} is {show_ticks(ticks, units)}; it must be above 0 and at most "
                f"{show_ticks(_LONGEST, units)}"
            )
