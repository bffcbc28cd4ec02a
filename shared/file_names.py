"""Words of file names that are safe on every system."""

from __future__ import annotations

import re
import unicodedata

__all__ = ["file_word"]


def file_word(text: str, longest: int) -> str:
    """Text as small letters, digits and underscores; empty where nothing of it can be spelled so."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "_", plain).strip("_")[:longest].rstrip("_")
