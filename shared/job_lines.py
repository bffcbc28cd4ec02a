"""On which line each key of a TOML text stands.

The text was parsed before, so only valid TOML is met here and nothing is judged. What stands inside an inline
table or a list of several lines belongs to the line of its key.
"""

from __future__ import annotations

import re
import tomllib
from typing import Final

__all__ = ["Place", "key_lines", "line_of"]

Place = tuple[str | int, ...]

_DEEPEST: Final = 8
"""Names of a dotted key that are kept: twice what a job file can hold."""
_SKIP: Final = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_KEY: Final = re.compile(
    r"""[ \t]*(?:(?P<bare>[A-Za-z0-9_-]+)|"(?P<basic>(?:[^"\\]|\\.)*)"|'(?P<literal>[^']*)')[ \t]*"""
)
# a value ends at a line end outside of strings and brackets
_TOKEN: Final = re.compile(
    r'''"""(?:[^"\\]|\\[\s\S]|"(?!""))*"{3,5}|\'\'\'[\s\S]*?\'{3,5}|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|\#[^\n]*|[\[{]|[\]}]|\n|[^"'\#\[\]{}\n]+'''
)


def key_lines(text: str) -> dict[Place, int]:
    """Map the place of each table and key, like ``("stock", 0, "width")``, to its line from 1.

    Parameters
    ----------
    text
        Valid TOML.
    """
    lines: dict[Place, int] = {}
    counts: dict[Place, int] = {}
    table: Place = ()
    at, line, seen = 0, 1, 0
    while True:
        at = _SKIP.match(text, at).end()  # type: ignore[union-attr]
        if at >= len(text):
            return lines
        line, seen = line + text.count("\n", seen, at), at
        if text[at] == "[":
            many = text.startswith("[[", at)
            names, at = _dotted(text, at + 1 + many)
            table = (*_resolve(names[:-1], counts), names[-1])
            if many:
                counts[table] = counts.get(table, -1) + 1
                lines.setdefault(table, line)
                table += (counts[table],)
            for size in range(1, len(table) + 1):
                lines.setdefault(table[:size], line)
            at = _line_end(text, at)
        else:
            names, at = _dotted(text, at)
            for size in range(1, len(names) + 1):
                lines.setdefault(table + names[:size], line)
            at = _value_end(text, at + 1)


def line_of(place: Place, lines: dict[Place, int]) -> int | None:
    """Line of a place, or of the nearest table around it; None when not even that was written."""
    for size in range(len(place), 0, -1):
        if place[:size] in lines:
            return lines[place[:size]]
    return None


def _resolve(names: tuple[str, ...], counts: dict[Place, int]) -> Place:
    """Place of a header's parent tables: under an array of tables the last entry is meant."""
    place: Place = ()
    for name in names:
        place += (name,)
        if place in counts:
            place += (counts[place],)
    return place


def _dotted(text: str, at: int) -> tuple[tuple[str, ...], int]:
    names = []
    while match := _KEY.match(text, at):
        at = match.end()
        if match["basic"] is not None:
            names.append(tomllib.loads(f'k = "{match["basic"]}"')["k"])
        else:
            names.append(match["bare"] if match["bare"] is not None else match["literal"])
        if not text.startswith(".", at):
            break
        at += 1
    return tuple(names[:_DEEPEST]), at


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end


def _value_end(text: str, at: int) -> int:
    depth = 0
    while match := _TOKEN.match(text, at):
        token = match[0]
        if token == "\n" and depth == 0:
            return at
        depth += (token in "[{") - (token in "]}")
        at = match.end()
    return len(text)
