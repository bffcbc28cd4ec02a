"""Pictures as light SVG: a picture of a table is a thousand small faces, and a page should not wait for it."""

from __future__ import annotations

import re
from typing import Final

__all__ = ["STEPS", "light_svg"]

#: Steps in a millimetre: a twentieth is less than half the thinnest line.
STEPS: Final = 20
#: How a group begins whose first path is a face: all of them are, for a layer of faces holds no lines.
FACES: Final = re.compile(r'(<g class="\w+" stroke-width="[\d.]+")>\n(?=<path d="[^"]*" fill=)')
#: A path as `svg_text` writes it: what it draws, and its grey if it is a face.
PATH: Final = re.compile(r'<path d="([^"]*)"(?: fill="(#\w+)" stroke="none")?/>')
ARC: Final = re.compile(r'<circle|<path d="[^"]*A')
POINT: Final = re.compile(r"(-?[\d.]+),(-?[\d.]+)")
MEASURE: Final = re.compile(r'(stroke-width|stroke-dasharray)="([^"]*)"')


def light_svg(text: str) -> str:
    """The same picture of faces and straight lines in fewer bytes.

    Parameters
    ----------
    text
        What `svg_text` writes of a view that holds only faces, loops and segments without arcs.

    Returns
    -------
    str
        Whole steps of a twentieth of a millimetre, each from the point before it; paths that follow one another and
        look alike are joined.

    Raises
    ------
    ValueError
        For a picture with arcs, which do not survive this (a mistake in our own code).
    """
    if ARC.search(text):
        raise ValueError("a picture with arcs cannot be made lighter")
    lines: list[str] = []
    joined: str | None = None  # how the path begins that the next one may be joined to
    here = (0, 0)
    for line in FACES.sub(r'\1 stroke="none">\n', text).splitlines():
        path = PATH.fullmatch(line)
        if path is None:
            joined = None
            line = MEASURE.sub(lambda m: f'{m[1]}="{_in_steps(m[2])}"', line)
            lines.append(line.replace('<g fill="none"', f'<g transform="scale({1 / STEPS:g})" fill="none"'))
            continue
        begin = f'<path fill="{path[2]}" d="' if path[2] else '<path d="'
        if begin != joined:
            joined, here = begin, (0, 0)
            lines.append(f'{begin}"/>')
        drawn, here = _from_here(path[1], here, closed=path[2] is None and path[1].endswith("Z"))
        lines[-1] = lines[-1].removesuffix('"/>') + drawn + '"/>'
    return "\n".join([*lines, ""])


def _in_steps(lengths: str) -> str:
    return " ".join(f"{float(length) * STEPS:g}" for length in lengths.split())


def _from_here(path: str, here: tuple[int, int], *, closed: bool) -> tuple[str, tuple[int, int]]:
    """A path in whole steps from one point to the next, and where it ends; a face needs no line back."""
    points = [(round(float(x) * STEPS), round(float(y) * STEPS)) for x, y in POINT.findall(path)]
    moves = []
    for number, (x, y) in enumerate(points):
        if number == 0 or (x, y) != here:
            moves.append(f"{x - here[0]},{y - here[1]}")
        here = (x, y)
    drawn = "m" + " ".join(moves).replace(",-", "-").replace(" -", "-")
    return (f"{drawn}z", points[0]) if closed else (drawn, here)
