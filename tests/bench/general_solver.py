"""A problem of whole pieces given to a general constraint solver: how many of each piece go into each stick.

A program of its own, because that solver and ours bring the same library and do not load side by side. It reads a
problem as JSON and the work allowed (in that solver's own deterministic unit, about a second), and prints the values
of all stages, or null where they were not all proven, and the CPU seconds.
"""

from __future__ import annotations

import json
import sys
import time
from itertools import pairwise
from typing import Any

from ortools.sat.python import cp_model


def first_fit(pieces: list[dict[str, Any]], length: int, kerf: int) -> int:
    """Sticks of one length that are surely enough for all pieces that fit it."""
    rooms: list[int] = []
    for piece in sorted(pieces, key=lambda piece: -piece["length"]):
        size = piece["length"] + kerf
        for _ in range(piece["count"] if piece["length"] <= length else 0):
            at = next((at for at, room in enumerate(rooms) if room >= size), None)
            if at is None:
                rooms.append(length + kerf - size)
            else:
                rooms[at] -= size
    return len(rooms)


def solve(problem: dict[str, Any], limit: float) -> list[int] | None:
    """Objectives in turn; sticks that are alike are used in order."""
    kerf, pieces = problem["kerf"], problem["pieces"]
    model = cp_model.CpModel()
    cut: dict[str, list[Any]] = {piece["name"]: [] for piece in pieces}
    used = []
    for kind in problem["kinds"]:
        ((length, _),) = kind["lanes"]
        most = first_fit(pieces, length, kerf)
        row = [
            model.new_bool_var("") for _ in range(most if kind["count"] is None else min(most, kind["count"]))
        ]
        used.append(row)
        for one, other in pairwise(row):
            model.add_implication(other, one)
        for stick in row:
            parts = []
            for piece in pieces:
                amount = model.new_int_var(0, min(piece["count"], length // piece["length"]), "")
                cut[piece["name"]].append(amount)
                parts.append((piece["length"] + kerf) * amount)
            model.add(sum(parts) <= (length + kerf) * stick)
    for piece in pieces:
        model.add(sum(cut[piece["name"]]) == piece["count"])
    values: list[int] = []
    for stage in range(len(problem["kinds"][0]["weights"])):
        goal = sum(
            kind["weights"][stage] * stick
            for kind, row in zip(problem["kinds"], used, strict=True)
            for stick in row
        )
        model.minimize(goal)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = limit
        if solver.solve(model) != cp_model.OPTIMAL:
            return None
        values.append(round(solver.objective_value))
        model.add(goal <= values[-1])
    return values


if __name__ == "__main__":
    given = json.load(sys.stdin)
    start = time.process_time()
    print(json.dumps([solve(given, float(sys.argv[1])), time.process_time() - start]))
