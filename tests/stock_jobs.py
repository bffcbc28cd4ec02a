"""Jobs of tops with an outline whose build-up is cut from stock."""

from __future__ import annotations

#: A round of 48 in from a square of 48 in, the ring 1 1/2 in wide: practice has figures for its corners.
ROUND_48 = """
[job]
title = "Round from its own square"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "rectangle"
length = 48
width = 48
[trim.to]
shape = "round"
diameters = 48
[edge]
strip_width = "1 1/2"
"""

#: A plain rectangle with an outline table: straight strips only, 60 and 26 in long between butt joints.
STRAIGHT = """
[job]
title = "Straight edges"
units = "in"
[top]
thickness = "3/4"
material = "plywood"
[top.outline]
shape = "rectangle"
length = 60
width = 30
[edge]
strip_width = 2
"""


def board(name: str, length: str, width: str, price: str | None = None, count: int | None = None) -> str:
    """A table of stock as thick as the tops here."""
    lines = [
        "[[stock]]",
        f'name = "{name}"',
        f'length = "{length}"',
        f'width = "{width}"',
        'thickness = "3/4"',
    ]
    lines += [f"price = {price}"] * (price is not None) + [f"count = {count}"] * (count is not None)
    return "\n".join(lines) + "\n"
