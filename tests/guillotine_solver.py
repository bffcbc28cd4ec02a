"""A general constraint solver on a guillotine case, run as a program of its own: it clashes with HiGHS in one process.

Reads ``{"blanks": [[length, width, count], ...], "length", "width", "kerf", "sheets"}`` from standard input and prints
whether so many sheets hold the blanks, none of them turned.
"""

from __future__ import annotations

import json
import sys

from ortools.sat.python import cp_model

case = json.load(sys.stdin)
blanks, length, width, kerf = case["blanks"], case["length"], case["width"], case["kerf"]
model = cp_model.CpModel()
lanes = [
    (s, w, n)
    for s in range(case["sheets"])
    for w in sorted({w for _, w, _ in blanks})
    for n in range((width + kerf) // (w + kerf))
]
used = {lane: model.new_bool_var("") for lane in lanes}
for s in range(case["sheets"]):
    model.add(sum((lane[1] + kerf) * used[lane] for lane in lanes if lane[0] == s) <= width + kerf)
held = {
    (lane, b): model.new_int_var(0, blanks[b][2], "")
    for lane in lanes
    for b in range(len(blanks))
    if blanks[b][1] == lane[1]
}
for lane in lanes:
    inside = [(blanks[b][0] + kerf) * v for (place, b), v in held.items() if place == lane]
    model.add(sum(inside) <= (length + kerf) * used[lane])
for b, (_, _, count) in enumerate(blanks):
    model.add(sum(v for (_, b2), v in held.items() if b2 == b) == count)
solver = cp_model.CpSolver()
solver.parameters.num_workers = 1
status = solver.solve(model)
words = {cp_model.OPTIMAL: "fits", cp_model.FEASIBLE: "fits", cp_model.INFEASIBLE: "does not fit"}
print(words.get(status, "stopped"))
