"""Rows as CSV text (RFC 4180): every line ends in CR LF, what a row does not say is left empty."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence

__all__ = ["csv_text"]


def csv_text(columns: Sequence[str], rows: Iterable[Mapping[str, object]]) -> str:
    """Write a header and the rows; a row may leave columns out, but not name others."""
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, columns, restval="")
    writer.writeheader()
    writer.writerows(rows)
    return text.getvalue()
