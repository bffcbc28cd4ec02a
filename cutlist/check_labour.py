"""Bound of the cost with labour: every choice of sticks that could cost less, cheapest first, is looked at."""

from __future__ import annotations

import heapq
from collections.abc import Iterator

from edgewright.cutlist.check_search import MOST_KINDS, WorkLimitError
from edgewright.cutlist.check_stages import WITH_LABOUR
from edgewright.cutlist.check_stock import Choice, Stock

__all__ = ["labour_bound"]


def labour_bound(stock: Stock, values: dict[str, int]) -> tuple[int | None, str]:
    """Least cents for material and labour together.

    Parameters
    ----------
    values
        Those of the plan; its own cost is what others are held against.
    """
    best, why = values[WITH_LABOUR], "every other choice of sticks, splices and strips costs as much or more"
    if stock.labour is None:
        return None, "labour is not weighed"
    each_splice, each_stick, each_strip = stock.labour
    for base, choice in _choices(stock, each_stick):
        if base >= best:
            break
        lanes = stock.lanes(choice)
        for splices in range(stock.most_splices + 1):
            if base + each_splice * splices >= best:
                break
            for strips in range(1, len(lanes) + 1):
                cost = base + each_splice * splices + each_strip * strips
                if cost >= best:
                    break
                if stock.need(strips, splices) <= sum(lanes[:strips]) and stock.search.exists(
                    lanes, splices, strips
                ):
                    best, why = cost, "a cheaper choice of sticks, splices and strips was not ruled out"
                    break
    return best, why


def _choices(stock: Stock, each_stick: int) -> Iterator[tuple[int, Choice]]:
    """Every choice of sticks with its price and what its sticks cost in labour, cheapest first."""
    if len(stock.kinds) > MOST_KINDS:
        raise WorkLimitError
    heap: list[tuple[int, Choice, int]] = [(0, (0,) * len(stock.kinds), 0)]
    while heap:
        stock.work.spend()
        cost, choice, start = heapq.heappop(heap)
        yield cost, choice
        for index in range(start, len(stock.kinds)):
            if choice[index] < stock.counts[index]:
                stock.work.spend()
                more = (*choice[:index], choice[index] + 1, *choice[index + 1 :])
                heapq.heappush(heap, (cost + stock.kinds[index].price + each_stick, more, index))
