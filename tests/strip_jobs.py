"""Random job files of rectangular tops as a person might write them, in inches or in millimetres."""

from __future__ import annotations

from fractions import Fraction
from random import Random
from typing import Literal

from edgewright.compass import SIDES

Units = Literal["in", "mm"]


def random_job(number: int, units: Units = "in", *, shuffled: bool = False) -> str:
    """A job with layers, corners, grain, defects, old edges and boards drawn at random.

    The same number gives the same job whatever the ``units`` its lengths are written in, and with its boards and
    defects in another order where ``shuffled``.
    """
    pick = Random(number)

    def say(inches: float | Fraction) -> str:
        """A length in the units of the job; eighths of an inch are whole in ticks either way."""
        exact = Fraction(inches)
        return str(float(exact)) if units == "in" else str(float(exact * Fraction(254, 10)))

    def eighths(low: int, high: int) -> Fraction:
        return Fraction(pick.randint(low * 8, high * 8), 8)

    def span(low: Fraction, high: Fraction) -> str:
        return f"[{say(low)}, {say(high)}]"

    length, width = pick.choice([48, 60, 72, 84, 96]), pick.choice([30, 36, 42, 48])
    solid = pick.random() < 0.2
    thickness = Fraction(3, 4)
    top = [f"length = {say(length)}", f"width = {say(width)}", f"thickness = {say(thickness)}"]
    top += ['material = "solid wood"', 'grain = "length"'] if solid else ['material = "plywood"']
    if pick.random() < 0.2:
        top += [f"finished_edge.{pick.choice(SIDES)} = {{depth = {say(Fraction(1, 2))}}}"]
    if pick.random() < 0.2:
        top += [f'seams = [{{across = "length", at = {say(eighths(10, 30))}}}]']
    trim = [f"{name} = {say(eighths(2, 8))}" for name in pick.sample(SIDES, pick.choice([1, 1, 2, 3]))]
    edge = [
        f"layers = {pick.choice([1, 1, 2])}",
        f'corners = "{pick.choice(["butt", "butt", "pinwheel", "mitre"])}"',
        f'through = "{pick.choice(["long", "short"])}"',
        f"top_round_over = {say(Fraction(1, 4))}",
        f"bottom_round_over = {say(Fraction(1, 8))}",
        f"strip_width = {say(pick.choice([1, Fraction(5, 4), Fraction(3, 2), 2]))}",
    ]
    defects = []
    for _ in range(pick.choice([0, 0, 1, 2])):
        x, y = eighths(1, length - 8), eighths(0, width - 3)
        defects += [
            f'[[top.defects]]\nname = "hole"\nalong = {span(x, x + eighths(1, 4))}\n'
            f"across = {span(y, y + eighths(1, 2))}"
        ]
    boards = []
    for at in range(pick.randint(0, 3)):
        long = eighths(14, 96)
        board = [f'name = "board {at}"', f"length = {say(long)}", f"width = {say(eighths(2, 7))}"]
        board += [f"thickness = {say(thickness)}"]
        if pick.random() < 0.5:
            board += [f"price = {pick.choice([4, 10, 25])}"]
        if pick.random() < 0.3:
            start = eighths(0, 10)
            board += ["count = 1", f'defects = [{{name = "knot", along = {span(start, start + 1)}}}]']
        elif pick.random() < 0.5:
            board += [f"count = {pick.randint(1, 3)}"]
        boards += ["[[stock]]\n" + "\n".join(board)]
    kerf = pick.choice([Fraction(1, 8), Fraction(3, 32), Fraction(1, 16)])
    if shuffled:
        defects.reverse()
        boards.reverse()
    return "\n".join(
        [
            f'[job]\ntitle = "job {number}"\nunits = "{units}"\nbench_grid = "1/32 in"',
            "[top]",
            *top,
            *defects,
            "[trim]",
            *trim,
            "[edge]",
            *edge,
            f"[saw]\nkerf = {say(kerf)}",
            *boards,
            "",
        ]
    )


#: Three layers and six kinds of boards: too many components to list, so they are generated.
HARD = """[job]
title = "three layers, six kinds"
units = "in"
[top]
length = 96
width = 50
thickness = "3/4"
material = "plywood"
[trim]
north = 9
south = 4
[edge]
layers = 3
strip_width = "2 1/2"
""" + "".join(
    f'[[stock]]\nname = "{name}"\nlength = {length}\nwidth = {width}\nthickness = "3/4"\n{more}\n'
    for name, length, width, more in (
        ("long board", 96, 6, "price = 25"),
        ("short board", 48, 6, "price = 10"),
        ("rack a", 40, 6, "count = 2"),
        ("rack b", 31, 3, "count = 3"),
        ("board c", 60, 9, "price = 18"),
    )
)
