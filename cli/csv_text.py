"""Rows as CSV text (RFC 4180): every line ends in CR LF, what a row does not say is left empty."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

__all__ = ["csv_text"]

_FORMULA: Final = re.compile(r"\s*[=+\-@＝＋－＠]")
_FIGURE: Final = re.compile(r"[+-]?\d[\d ./]*( ?[a-z°]+)?")


def csv_text(columns: Sequence[str], rows: Iterable[Mapping[str, object]]) -> str:
    """Write a header and the rows; a row may leave columns out, but not name others.

    A text that a spreadsheet would reckon as a formula gets an apostrophe in front, which such programs take as the
    sign of a text; figures stay as they are.
    """
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, restval="")
    writer.writeheader()
    writer.writerows({key: _no_formula(value) for key, value in row.items()} for row in rows)
    return text.getvalue()


def _no_formula(value: object) -> object:
    if isinstance(value, str) and _FORMULA.match(value) and not _FIGURE.fullmatch(value):
        return f"'{value}"
    return value
