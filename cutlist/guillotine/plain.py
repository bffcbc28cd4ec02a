"""Stock, blanks, rules and result as plain data, as the checker reads them and as they stand in a file."""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Sequence
from typing import Any

from edgewright.cutlist.guillotine.model import (
    Blank,
    DualCut,
    GuillotineCertificate,
    GuillotinePlan,
    GuillotineRules,
    GuillotineShortage,
    StockRect,
)
from edgewright.cutlist.guillotine.search import Search

__all__ = ["make_certificate", "plain_layout"]


def plain_layout(
    stock: Sequence[StockRect],
    blanks: Sequence[Blank],
    rules: GuillotineRules,
    result: GuillotinePlan | GuillotineShortage,
) -> dict[str, Any]:
    """What `edgewright.cutlist.check_guillotine.check_guillotine` checks."""
    made = json.loads(json.dumps(dataclasses.asdict(result)))
    is_plan = isinstance(result, GuillotinePlan)
    return {
        "stock": [dataclasses.asdict(rect) for rect in stock],
        "blanks": [dataclasses.asdict(blank) for blank in blanks],
        "rules": dataclasses.asdict(rules),
        "plan": made if is_plan else None,
        "shortage": None if is_plan else made,
    }


def make_certificate(search: Search) -> GuillotineCertificate:
    """The inequalities by blank, and the choices searched by stock; equal sticks stand under the first of their ids."""
    problem = search.problem
    cuts = tuple(
        DualCut(
            tuple(
                (name, points)
                for blank, points in zip(problem.blanks, cut.points, strict=True)
                for name, _ in blank.ids
            )
        )
        for cut in search.cuts
    )
    searched = tuple(
        tuple((stick.members[0][0], n) for stick, n in zip(problem.sticks, counts, strict=True) if n)
        for counts in search.searched
    )
    return GuillotineCertificate(cuts, searched)
