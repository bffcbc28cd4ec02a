"""Plain text for a terminal: paragraphs and labelled rows that never part a figure from its unit."""

from __future__ import annotations

import re
import shutil
import textwrap
from collections.abc import Iterable
from typing import Final

from edgewright.display import show_ticks
from edgewright.units import Units

__all__ = ["heading", "paragraph", "rows", "screen_width", "table_lines", "ticks_in_words"]

_NARROWEST: Final = 40
_WIDEST: Final = 100
_WHOLE_AND_FRACTION: Final = re.compile(r"(?<=\d) (?=\d+/\d)")
_FIGURE_AND_UNIT: Final = re.compile(r"(?<=\d) (?=(?:in|mm|fl oz|ml|lb|kg|g|ft|mil|deg[CF])\b|[im]n?²)")
_CENTS: Final = re.compile(r"\b(\d+) cents")
_TICKS: Final = re.compile(r"\b(?:(\d+) of )?(\d+) ticks")


def screen_width() -> int:
    """Columns to write in: the terminal's or COLUMNS, 80 without either, kept between 40 and 100."""
    return min(max(shutil.get_terminal_size((80, 24)).columns, _NARROWEST), _WIDEST)


def paragraph(text: str, width: int, indent: int = 0, hang: int | None = None) -> list[str]:
    """Wrap a text; further lines are indented by ``hang``. ``1 27/32 in`` always stays on one line."""
    glued = _FIGURE_AND_UNIT.sub("\xa0", _WHOLE_AND_FRACTION.sub("\xa0", text))
    wrapped = textwrap.wrap(
        glued,
        width=max(width, indent + 20),
        initial_indent=" " * indent,
        subsequent_indent=" " * (indent if hang is None else hang),
        break_long_words=False,
        break_on_hyphens=False,
    )
    return [line.replace("\xa0", " ") for line in wrapped]


def rows(pairs: Iterable[tuple[str, str]], width: int, indent: int = 2) -> list[str]:
    """Write labelled rows: the texts share one column, or follow their labels where the screen is narrow."""
    kept = list(pairs)
    column = max((len(label) for label, _ in kept), default=0) + 2
    if indent + column > width // 2:
        return [
            line for label, text in kept for line in paragraph(f"{label}: {text}", width, indent, indent + 4)
        ]
    lines = []
    for label, text in kept:
        wrapped = paragraph(text, width, indent + column) or [" " * (indent + column)]
        lines += [" " * indent + label.ljust(column) + wrapped[0][indent + column :], *wrapped[1:]]
    return [line.rstrip() for line in lines]


def heading(words: str) -> list[str]:
    """Write a heading with an empty line above."""
    return ["", words.upper()]


def table_lines(words: str, entries: Iterable[str], width: int) -> list[str]:
    """A heading and a paragraph for each entry; nothing where there is none."""
    listed = list(entries)
    return (
        heading(words) + [line for entry in listed for line in paragraph(entry, width, 2, 6)]
        if listed
        else []
    )


def ticks_in_words(sentence: str, units: Units) -> str:
    """Write each ``123 ticks`` of a sentence as a length, and each ``123 cents`` as a price."""

    def shown(match: re.Match[str]) -> str:
        last = show_ticks(int(match[2]), units)
        return f"{show_ticks(int(match[1]), units)} of {last}" if match[1] else last

    with_lengths = _TICKS.sub(shown, sentence)
    return _CENTS.sub(lambda match: f"{int(match[1]) / 100:.2f}", with_lengths)
