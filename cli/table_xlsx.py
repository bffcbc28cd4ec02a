"""Tables as one workbook: a sheet each, numbers as numbers, words never as formulas, ready to be printed.

What one reads at the bench stands on the left and is printed; exact numbers of lengths stand to the right of it. The
same tables give the same bytes: the date of the file is fixed and nothing of the machine goes in.
"""

from __future__ import annotations

import datetime
import io
from collections.abc import Sequence
from typing import TYPE_CHECKING, Final, Literal

from edgewright.cli.table import Cell, Column, Table

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

__all__ = ["tables_xlsx"]

#: A file needs some date; this one says nothing.
_CREATED: Final = datetime.datetime(2000, 1, 1)
_PAPERS: Final = {"us-letter": 1, "a4": 9}
_NARROWEST, _WIDEST = 7, 48
#: Letters that a header or footer of a sheet may have in all.
_LONGEST: Final = 120
#: Decimals that are shown; the cell holds the whole figure.
_SHOWN: Final = {"mm": "0.000", "in": "0.0000"}


def tables_xlsx(
    tables: Sequence[Table], *, title: str, code: str, status: str, paper: Literal["a4", "us-letter"]
) -> bytes:
    """Write a workbook.

    Parameters
    ----------
    tables
        At least one; no two of one name.
    title
        Of the job; stands in the header of each printed page.
    code
        Of the plan; stands in the footer.
    status
        ``ready``, or what must stand in the header of every page while it is not.
    paper
        Pages lie across it and are as wide as it allows.
    """
    import xlsxwriter

    held = io.BytesIO()
    book = xlsxwriter.Workbook(
        held, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": title, "subject": f"plan {code}", "created": _CREATED})
    looks = _Looks(
        banner=book.add_format({"bold": True, "font_size": 14}),
        header=book.add_format({"bold": True, "text_wrap": True, "valign": "top", "bottom": 2}),
        words=book.add_format({"text_wrap": True, "valign": "top"}),
        numbers={
            unit: book.add_format({"num_format": shown, "valign": "top"}) for unit, shown in _SHOWN.items()
        }
        | {"": book.add_format({"valign": "top"})},
    )
    marked = "" if status == "ready" else status
    for table in tables:
        sheet = book.add_worksheet(table.name)
        _fill(sheet, table, looks)
        sheet.set_landscape()
        sheet.set_paper(_PAPERS[paper])
        sheet.fit_to_pages(1, 0)
        sheet.set_margins(left=0.4, right=0.4, top=0.8, bottom=0.7)
        sheet.set_header(f"&L{_said(title)}&C{_said(marked)}&R{_said(table.name)}")
        sheet.set_footer(f"&Lplan {_said(code)}&Rpage &P of &N")
    book.close()
    return held.getvalue()


class _Looks:
    """Formats of one workbook."""

    def __init__(self, *, banner: Format, header: Format, words: Format, numbers: dict[str, Format]) -> None:
        self.banner, self.header, self.words, self._numbers = banner, header, words, numbers

    def number(self, column: Column) -> Format:
        """Format of a column of numbers."""
        return self._numbers[_unit(column) if _exact(column) else ""]


def _fill(sheet: Worksheet, table: Table, looks: _Looks) -> None:
    top = 0
    if table.banner:
        sheet.write_string(0, 0, table.banner, looks.banner)
        top = 1
    read = [column for column in table.columns if not _exact(column)]
    columns = [*read, *filter(_exact, table.columns)]
    for at, column in enumerate(columns):
        sheet.write_string(top, at, column.label, looks.header)
        cells = [row[column.key] for row in table.rows if column.key in row]
        sheet.set_column(at, at, _wide(column, cells))
    for below, row in enumerate(table.rows, start=top + 1):
        for at, column in enumerate(columns):
            cell = row.get(column.key, "")
            if isinstance(cell, str):
                if cell:
                    sheet.write_string(below, at, cell, looks.words)
            else:
                sheet.write_number(below, at, float(cell), looks.number(column))
    sheet.freeze_panes(top + 1, 0)
    sheet.repeat_rows(0, top)
    sheet.print_area(0, 0, top + len(table.rows), len(read) - 1)


def _exact(column: Column) -> bool:
    """Whether a column has exact numbers of a length."""
    return column.kind == "number" and _unit(column) in _SHOWN


def _unit(column: Column) -> str:
    return column.key.rpartition("_")[2]


def _wide(column: Column, cells: Sequence[Cell]) -> float:
    """Width that holds the cells, and the longest word of the header (letters)."""
    longest = max((len(str(cell)) for cell in cells), default=0)
    words = max(map(len, column.label.split()))
    return min(max(longest, words, _NARROWEST), _WIDEST) + 2


def _said(text: str) -> str:
    """Words for a header or footer, where & begins a code."""
    short = text if len(text) <= _LONGEST else text[: _LONGEST - 1] + "…"
    return short.replace("&", "&&")
