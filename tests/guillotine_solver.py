"""A general constraint solver on guillotine cases, run as a program of its own: it clashes with HiGHS in one process.

Reads a list of ``{"blanks": [[length, width, count], ...], "length", "width", "kerf", "sheets"}`` from standard input
and prints for each whether so many sheets hold the blanks, none of them turned.
"""

from __future__ import annotations

import json
import sys
from typing import Any

from ortools.sat.python import cp_model


def fits(blanks: list[tuple[int, int, int]], length: int, width: int, kerf: int, sheets: int) -> str:
    model: Any = cp_model.CpModel()
    lanes = [
        (s, w, n)
        for s in range(sheets)
        for w in sorted({w for _, w, _ in blanks})
        for n in range((width + kerf) // (w + kerf))
    ]
    used = {lane: model.new_bool_var("") for lane in lanes}
    for s in range(sheets):
        model.add(sum((lane[1] + kerf) * used[lane] for lane in lanes if lane[0] == s) <= width + kerf)
    held = {
        (lane, b): model.new_int_var(0, count, "")
        for lane in lanes
        for b, (_, w, count) in enumerate(blanks)
        if w == lane[1]
    }
    for lane in lanes:
        inside = [(blanks[b][0] + kerf) * v for (place, b), v in held.items() if place == lane]
        model.add(sum(inside) <= (length + kerf) * used[lane])
    for b, (_, _, count) in enumerate(blanks):
        model.add(sum(v for (_, other), v in held.items() if other == b) == count)
    solver: Any = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    status = solver.solve(model)
    words = {cp_model.OPTIMAL: "fits", cp_model.FEASIBLE: "fits", cp_model.INFEASIBLE: "does not fit"}
    return words.get(status, "stopped")


if __name__ == "__main__":
    for case in json.load(sys.stdin):
        print(fits(**case))
