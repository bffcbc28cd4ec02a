"""How much room text takes, so that a layout can keep texts apart.

Advance widths of DejaVu Sans Condensed in 1/2048 of the lettering height. The height of a note is the size of
the type (9 pt = 3.175 mm); capitals and figures are 0.73 of it. Kerning is left out: it only makes text
narrower.
"""

from __future__ import annotations

import math
import re
import unicodedata
from functools import lru_cache
from typing import Final

from edgewright.drawing.view import Box, Note

__all__ = ["ASCENT", "DESCENT", "FONT", "SMALLEST_MM", "note_box", "text_width", "wrapped"]

FONT: Final = "DejaVu Sans Condensed"
#: Least lettering height of a shop drawing: 9 pt is 3.175 mm.
SMALLEST_MM: Final = 3.2
#: Room above and below the base line, of the height; accents on capitals reach 0.91 and are not counted.
ASCENT: Final = 0.77
DESCENT: Final = 0.21

_UNITS: Final = 2048
_BY_WIDTH: Final = {
    418: "′", 506: "'", 512: "ijl", 543: "IJ", 585: " ,.·‘’", 621: "/:;\\|", 648: "f", 665: "-", 688: "″",
    719: "()[]", 722: "t", 738: "!²³", 757: "r", 847: '"', 921: "*_`°–", 954: "“”", 960: "s", 967: "z",
    978: "?", 1013: "c", 1026: "L", 1060: "F", 1067: "k", 1087: "•", 1090: "vxy", 1109: "π", 1111: "P",
    1125: "TY", 1127: "o", 1129: "a", 1134: "e", 1161: "ß", 1164: "E", 1168: "hnu", 1170: "Sbdgpq",
    1172: "$0123456789{}", 1174: "√", 1208: "K", 1260: "AV", 1262: "XZ", 1264: "B", 1280: "R", 1287: "C",
    1349: "U", 1378: "N", 1386: "H", 1419: "D", 1428: "G", 1437: "&", 1450: "OQ", 1507: "w",
    1544: "#+<=>^~×±≥≤→←↑↓✓", 1590: "M", 1751: "%", 1786: "½¼¾", 1795: "m", 1809: "æ", 1822: "W", 1843: "@—…",
}  # fmt: skip
#: Spaces at which a line may end.
_BREAK: Final = re.compile(r"(?<!\d) +| +(?!\d+/\d|in\b|mm\b)")
_ADVANCE: Final = {char: width for width, chars in _BY_WIDTH.items() for char in chars}


def text_width(text: str, height_mm: float) -> float:
    """Width of one line of text (mm); a character that is not in the table counts a full height.

    Parameters
    ----------
    text
        Any text; accented letters are as wide as the bare ones.
    height_mm
        Size of the type, at least 0.
    """
    return height_mm / _UNITS * _advance(text)


@lru_cache(maxsize=8192)  # the same notes stand on sheet after sheet
def _advance(text: str) -> int:
    if text.isascii():
        return sum(_ADVANCE.get(c, _UNITS) for c in text)
    flat = unicodedata.normalize("NFD", text)
    return sum(_ADVANCE.get(c, 0 if unicodedata.combining(c) else _UNITS) for c in flat)


def note_box(note: Note) -> Box:
    """Upright box around a note as it is written (mm)."""
    width = text_width(note.text, note.height_mm)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[note.anchor]
    turn = math.radians(note.angle)
    c, s = math.cos(turn), math.sin(turn)
    corners = [
        (note.x + c * u - s * v, note.y + s * u + c * v)
        for u in (left, left + width)
        for v in (-DESCENT * note.height_mm, ASCENT * note.height_mm)
    ]
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs), min(ys), max(xs), max(ys)


def wrapped(text: str, height_mm: float, width_mm: float) -> list[str]:
    """Break text into lines of at most ``width_mm``; a word that is too long by itself is broken, too.

    A line feed starts a new line; a whole number, its fraction and its unit stay together.
    """
    return [line for part in text.split("\n") for line in _wrapped_line(part, height_mm, width_mm)]


def _wrapped_line(text: str, height_mm: float, width_mm: float) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in _BREAK.split(text.strip()):
        longer = f"{line} {word}" if line else word
        if text_width(longer, height_mm) <= width_mm:
            line = longer
            continue
        if line:
            lines.append(line)
        line = ""
        for char in word:
            if line and text_width(line + char, height_mm) > width_mm:
                lines.append(line)
                line = ""
            line += char
    return [*lines, line] if line else lines
