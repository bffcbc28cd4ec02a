"""Texts that a person typed, with what the packet's font cannot show replaced, so that nothing is lost unseen."""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from functools import cache
from importlib.resources import files
from typing import Final

from edgewright.text_direction import keep_order

__all__ = ["NOT_SHOWN", "printable", "shown"]

#: A word longer than this may be broken anywhere.
_LONGEST_WORD: Final = 24
_BREAK: Final = "\N{ZERO WIDTH SPACE}"

_MOST_MARKS: Final = 3
#: Stands for each letter that the font does not have.
NOT_SHOWN: Final = "\N{WHITE SQUARE}"


def printable(text: str, longest_word: int = _LONGEST_WORD) -> str:
    """The text composed (NFC), white space folded, with a white square for each character the font lacks.

    Figures keep their order beside letters that run from right to left.

    Words longer than ``longest_word`` letters get places where the typesetter may break them.
    """
    words = shown(_few_marks(unicodedata.normalize("NFC", text))).split()
    return keep_order(" ".join(_breakable(word, longest_word) for word in words))


def shown(text: str) -> str:
    """The text with a white square for each character the font lacks; line feeds stay."""
    if text.isascii():
        return text
    return "".join(char if char.isspace() or _has(ord(char)) else NOT_SHOWN for char in text)


def _few_marks(text: str) -> str:
    """At most three marks on a letter, a white square for the rest: a pile of them would cover the line above."""
    if text.isascii():
        return text
    kept: list[str] = []
    pile = 0
    for char in text:
        pile = pile + 1 if unicodedata.combining(char) else 0
        if pile <= _MOST_MARKS:
            kept.append(char)
        elif pile == _MOST_MARKS + 1:
            kept.append(NOT_SHOWN)
    return "".join(kept)


def _breakable(word: str, longest: int) -> str:
    if len(word) <= longest:
        return word
    piece = longest // 2
    return _BREAK.join(word[i : i + piece] for i in range(0, len(word), piece))


def _has(code: int) -> bool:
    starts, ends = _coverage()
    at = bisect_right(starts, code) - 1
    return at >= 0 and code <= ends[at]


@cache
def _coverage() -> tuple[tuple[int, ...], tuple[int, ...]]:
    """First and last code points of the ranges that both faces of the font have."""
    lines = (files("edgewright.cli") / "fonts" / "coverage.txt").read_text(encoding="ascii").splitlines()
    pairs = [line.split("-") for line in lines if line and not line.startswith("#")]
    return tuple(int(p[0], 16) for p in pairs), tuple(int(p[-1], 16) for p in pairs)
