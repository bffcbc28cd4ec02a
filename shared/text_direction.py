"""Texts in scripts that run from right to left, amid figures that must stay in their order."""

from __future__ import annotations

import unicodedata
from itertools import groupby
from typing import Final

__all__ = ["keep_order", "unturned"]

#: Signs that turn what follows them: a text on a sheet must not turn the figures beside it.
_TURNING: Final = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_MARK: Final = "\N{LEFT-TO-RIGHT MARK}"


def unturned(text: str) -> str:
    """The text without signs that turn what follows them; letters of scripts from right to left stay."""
    return text if text.isascii() else "".join(char for char in text if char not in _TURNING)


def keep_order(text: str) -> str:
    """The text without signs that turn it, and with a left-to-right mark on both sides of each run from right to left.

    So letters of any script read as they should, and figures behind them stay behind them.

    References
    ----------
    Unicode Standard Annex 9, 2.6 (implicit marks) and 3.3.4 (a number takes the direction of the letters before it).
    """
    if text.isascii():
        return text
    plain = unturned(text)
    kinds = [unicodedata.bidirectional(char) for char in plain]
    backwards = [kind in ("R", "AL", "AN") for kind in kinds]
    # marks and spaces between two such letters belong to the run
    run = False
    for at, kind in enumerate(kinds):
        run = backwards[at] or (run and kind in ("NSM", "BN", "WS") and _goes_on(kinds, at))
        backwards[at] = run
    parts = groupby(range(len(plain)), key=lambda at: backwards[at])
    texts = ((turned, "".join(plain[at] for at in places)) for turned, places in parts)
    return "".join(f"{_MARK}{part}{_MARK}" if turned else part for turned, part in texts)


def _goes_on(kinds: list[str], at: int) -> bool:
    """Whether the run goes on: a mark is part of the letter before it, a space needs a letter behind it."""
    if kinds[at] != "WS":
        return True
    behind = next((kind for kind in kinds[at:] if kind not in ("WS", "NSM", "BN")), "")
    return behind in ("R", "AL", "AN")
