"""Text in plain ASCII: DXF readers disagree about every other character."""

from __future__ import annotations

import re
import unicodedata
from typing import Final

__all__ = ["plain_ascii"]

# what the decomposition of Unicode does not take apart
_SPELLED: Final = str.maketrans(
    {
        "×": "x", "°": " deg", "±": "+/-", "≥": ">=", "≤": "<=", "√": "sqrt ", "π": "pi", "µ": "u", "μ": "u",
        "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "⁄": "/", "·": ".",
        "‘": "'", "’": "'", "“": '"', "”": '"', "′": "'", "″": '"',
        "ß": "ss", "ẞ": "SS", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "ø": "o", "Ø": "O",
        "ł": "l", "Ł": "L", "đ": "d", "Đ": "D", "ð": "d", "þ": "th", "ı": "i",
    }
)  # fmt: skip
_FRACTION: Final = re.compile(r"(?<=\d)(?=[¼-¾⅐-⅞])")


def plain_ascii(text: str) -> str:
    """Spell the text in printable ASCII on one line; accents are dropped, what has no spelling becomes ``?``.

    ``%%``, ``^`` and the backslash start control codes in DXF text and are replaced, so that what a
    reader shows is what was written.
    """
    # a fraction sign right after a digit would read 11/2 instead of 1 1/2
    spaced = _FRACTION.sub(" ", text).translate(_SPELLED)
    flat = unicodedata.normalize("NFKD", spaced).translate(_SPELLED)
    kept = "".join(c for c in flat if not unicodedata.combining(c))
    printable = "".join(" " if c.isspace() else c if " " <= c <= "~" else "?" for c in kept)
    return re.sub(r"%(?=%)", "% ", printable).replace("^", "'").replace("\\", "/")
