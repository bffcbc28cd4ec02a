"""Problems of the planner given to a general constraint solver.

A program of its own, because that solver and ours bring the same library and do not load side by side:
``python tests/general_solver.py KIND LIMIT`` reads a list of problems of one kind as JSON and prints a list of
answers. LIMIT is the work allowed for each run of the solver, in its own deterministic unit, about a second. Kinds:

whole
    Whole pieces, how many of each go into each stick. The answer is the values of all stages.
splices
    Sides that may be spliced, how much of each comes out of each lane. The answer is the values of the stages.
sheets
    Whether so many sheets hold the blanks, none turned, ripped first and crosscut second; 1 or 0.

Each answer is ``[values, seconds]``: a value for each stage, None from the first one on that was not proven; no values
at all where the problem has no solution; CPU seconds.
"""

from __future__ import annotations

import json
import sys
import time
from itertools import groupby, pairwise
from math import gcd
from typing import Any

from ortools.sat.python import cp_model

Answer = list[int | None]


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


def whole(problem: dict[str, Any], limit: float) -> Answer:
    """Sticks that are alike are used in order."""
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
    goals = [
        sum(
            kind["weights"][stage] * stick
            for kind, row in zip(problem["kinds"], used, strict=True)
            for stick in row
        )
        for stage in range(len(problem["kinds"][0]["weights"]))
    ]
    return in_turn(model, goals, limit)


def splices(problem: dict[str, Any], limit: float) -> Answer:
    """Piece by piece: cost, splices, sticks, strips. Of sticks that are alike the first ones are used.

    A piece is at least ``min_piece`` long. That splices keep apart between layers is not modelled.
    """
    sides, sticks = problem["sides"], problem["sticks"]
    step = gcd(problem["kerf"], *(length for length, _ in sides), *(n for s in sticks for n in s["lanes"]))
    kerf, least = problem["kerf"] // step, -(-problem["min_piece"] // step)
    model = cp_model.CpModel()
    pieces: list[list[Any]] = [[] for _ in sides]
    amounts: list[list[Any]] = [[] for _ in sides]
    taken, strips = [], []
    for one in sticks:
        stick = model.new_bool_var("")
        taken.append(stick)
        for lane in one["lanes"]:
            strip, held = model.new_bool_var(""), []
            model.add_implication(strip, stick)
            strips.append(strip)
            for at, (length, _) in enumerate(sides):
                most = min(length, lane) // step
                there, amount = model.new_bool_var(""), model.new_int_var(0, most, "")
                model.add(amount >= least * there)
                model.add(amount <= most * there)
                model.add_implication(there, strip)
                pieces[at].append(there)
                amounts[at].append(amount)
                held.append(amount + kerf * there)
            model.add(sum(held) <= lane // step + kerf)
    for at, (length, most) in enumerate(sides):
        model.add(sum(amounts[at]) == length // step)
        model.add(sum(pieces[at]) <= most + 1)
    for _, group in groupby(range(len(sticks)), key=lambda n: sticks[n]):
        for one, other in pairwise(group):
            model.add_implication(taken[other], taken[one])
    cost = sum(one["price"] * stick for one, stick in zip(sticks, taken, strict=True))
    joints = sum(there for row in pieces for there in row) - len(sides)
    return in_turn(model, [cost, joints, sum(taken), sum(strips)], limit)


def sheets(problem: dict[str, Any], limit: float) -> Answer:
    """Lanes of the widths of the blanks, as many as fit across each sheet."""
    kerf, length, width = problem["kerf"], problem["length"], problem["width"]
    blanks = problem["blanks"]
    model: Any = cp_model.CpModel()
    lanes = [
        (s, w, n)
        for s in range(problem["sheets"])
        for w in sorted({w for _, w, _ in blanks})
        for n in range((width + kerf) // (w + kerf))
    ]
    used = {lane: model.new_bool_var("") for lane in lanes}
    for s in range(problem["sheets"]):
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
    return in_turn(model, [cp_model.LinearExpr.constant(1)], limit)


def in_turn(model: cp_model.CpModel, goals: list[Any], limit: float) -> Answer:
    """Least value of each goal under those before it."""
    values: Answer = []
    for goal in goals:
        model.minimize(goal)
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = limit
        status = solver.solve(model)
        if status == cp_model.INFEASIBLE and not values:
            return []
        if status != cp_model.OPTIMAL:
            return [*values, *[None] * (len(goals) - len(values))]
        value = round(solver.objective_value)
        values.append(value)
        model.add(goal <= value)
    return values


KINDS = {"whole": whole, "splices": splices, "sheets": sheets}


def main(kind: str, limit: float) -> None:
    answers = []
    for problem in json.load(sys.stdin):
        start = time.process_time()
        values = KINDS[kind](problem, limit)
        answers.append([values, time.process_time() - start])
    print(json.dumps(answers))


if __name__ == "__main__":
    main(sys.argv[1], float(sys.argv[2]))
