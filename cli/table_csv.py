"""Tables as CSV: UTF-8, numbers as plain decimals with a point, what a row does not say left empty.

A spreadsheet takes a cell that begins with = + - @, a tab or a line break for a formula, even where it is quoted. Words
that a person may have typed and that begin so get an apostrophe in front, which a spreadsheet shows as text; plan.json
has them as they were typed. Numbers, and lengths as they read at the bench, are left alone: they are written by this
program and hold nothing that could be run.

References
----------
RFC 4180: every line ends in CR LF, and all have as many fields as the first.
"""

from __future__ import annotations

import csv
import io
import re
from decimal import Decimal
from typing import Final

from edgewright.cli.table import Cell, Column, Table

__all__ = ["table_csv"]

#: The signs in their wide forms count as well, and so do blanks in front.
_FORMULA: Final = re.compile(r"[\t\r\n]|\s*[=+\-@＝＋－＠]")


def table_csv(table: Table) -> str:
    """Write a table: its banner if it has one, the header, the rows."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    if table.banner:
        writer.writerow([table.banner, *[""] * (len(table.columns) - 1)])
    writer.writerow([column.key for column in table.columns])
    for row in table.rows:
        writer.writerow([_field(column, row.get(column.key, "")) for column in table.columns])
    return text.getvalue()


def _field(column: Column, cell: Cell) -> str:
    if isinstance(cell, Decimal):
        return f"{cell:f}"
    text = str(cell)
    return f"'{text}" if column.kind == "text" and _FORMULA.match(text) else text
